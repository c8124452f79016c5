#pragma once
// What wishes and limits are made of: places that cuts move, each by as much as the cut says. Inside the module only.

#include <array>

#include "geometry/engine.hpp"
#include "plan/wish.hpp"

namespace portwright::plan {

using base::Known;

inline constexpr std::size_t most_ports = 16;

/// Numbers of the levels.
namespace level {
inline constexpr std::size_t passed = 0;               ///< of each entry: crown edge's drop when it is passed [m]
inline constexpr std::size_t width = most_ports;       ///< of each entry: chord [m]
inline constexpr std::size_t floor = 2 * most_ports;   ///< of each entry: y of its floor [m]
inline constexpr std::size_t squish = 3 * most_ports;  ///< mean of the places [m]
inline constexpr std::size_t squish_least = squish + 1;
inline constexpr std::size_t chamber = squish + 2;  ///< [m³]
inline constexpr std::size_t skirt_exhaust = squish + 3;
inline constexpr std::size_t skirt_intake = squish + 4;
inline constexpr std::size_t top_land = squish + 5;
inline constexpr std::size_t spigot = squish + 6;  ///< clearance of the spigot in the case [m]
inline constexpr std::size_t count = squish + 7;
}  // namespace level

using Levels = std::array<Known, level::count>;

/// Levels of an engine; entries that it does not have are 0.
[[nodiscard]] Levels levels_of(const geometry::Engine& engine);

/// What no cut moves, and which port is which.
struct Frame {
  std::optional<geometry::CrankSlider> slider;
  Known slider_known;
  Known bore, stroke;
  std::array<geometry::PortKind, most_ports> kinds{};
  std::size_t ports = 0;

  explicit Frame(const geometry::Engine& engine);
};

/// A figure's value from the levels, in its wish's unit; waits where a level does. An edge beyond a dead centre has no
/// angle: Known of not a number inside this module, which no way may keep.
[[nodiscard]] Known value_of(const Frame& frame, const Levels& levels, Aspect aspect, int entry, bool of_intake);

/// Entry of the window of some kinds whose edge is passed first; -1 for none.
[[nodiscard]] int first_of(const Frame& frame, const Levels& levels, bool exhaust);

}  // namespace portwright::plan
