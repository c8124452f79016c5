#pragma once
// Cuts made ready for one saw: entries of ports instead of names, outlines read, parts resolved. Inside the module
// only.

#include <array>
#include <memory>
#include <vector>

#include "cuts/cut.hpp"

namespace portwright::cuts {

using geometry::Engine;
using geometry::Few;
using geometry::Known;

enum class Side { none, left, right, roof, floor, exhaust, intake, side };
enum class Part { none, piston, cylinder, reed, carburettor, muffler };

/// One cut, ready.
struct Step {
  Act act = Act::base;
  double amount = 0.0;          ///< outlets: their sum
  std::vector<double> amounts;  ///< outlets: each [m²]
  double width = 0.0;
  Side side = Side::none;
  Part part = Part::none;
  geometry::OctaneScale scale = geometry::OctaneScale::unknown;
  Few<int, 16> entries;  ///< of Engine::ports: the port and, where it is an entry of its own, its mirrored side
  std::vector<geometry::Window>
      traced;  ///< an entry's outline after this cut with its roof at y = 0; empty for built windows
  std::shared_ptr<const Engine> swapped;  ///< the engine with the part in it, readings of the other file filled up
};

struct Prepared {
  std::vector<Step> steps;
};

/// The engine of the part's file, its ports brought into this saw's order. Where the file lacks a reading that this saw
/// lacks too, the part waits for it as before; a reading that only the file lacks is an error.
[[nodiscard]] base::ResultAll<std::shared_ptr<const Engine>> swap_part(const Cut& cut, Part part,
                                                                       const geometry::Survey& survey,
                                                                       const Engine& stock, const std::string& path);

/// The outline in a file, roof at y = 0: of the port of the same name in a saw file (`.toml`), else two columns, see
/// docs/cuts.md.
[[nodiscard]] base::Result<geometry::Window> read_outline(const Cut& cut, const std::string& path);

/// What a cut makes of a traced outline: the half of it on the edge's side moves. Empty when no window is left.
[[nodiscard]] geometry::Window cut_outline(const geometry::Window& outline, const Step& step);

/// Area of the ring of width w inside a circle of diameter d [m²].
[[nodiscard]] Known ring_area(const Known& d, const Known& w);

/// What comes off a crown whose dome goes from one height to another over the whole bore [m³].
[[nodiscard]] Known dome_volume(const Known& bore, const Known& from, const Known& to);

}  // namespace portwright::cuts
