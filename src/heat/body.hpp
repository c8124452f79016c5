#pragma once
// Cylinder and piston of one engine, as sizes and cells; nothing of it depends on what is assumed of heat.

#include <string>
#include <vector>

#include "geometry/engine.hpp"
#include "heat/shell.hpp"

namespace portwright::heat {

struct RingSize {
  double below_crown = 0.0, height = 0.0;  ///< [m]
};

struct Body {
  Shell shell;
  double bore = 0.0, stroke = 0.0, swept = 0.0;  ///< [m], [m], [m³]
  std::vector<bool> exhaust;                     ///< of each entry of Engine::ports
  std::vector<RingSize> rings;
  double skirt = 0.0;                                                  ///< lower edge below the crown edge [m]
  double skirt_begins = 0.0;                                           ///< below the lowest ring [m]
  double piston_mass = 0.0;                                            ///< [kg]
  double exhaust_roof = 0.0, exhaust_floor = 0.0, exhaust_half = 0.0;  ///< drops [m], half its arc [rad]
  bool bridged = false;
  double bridge_angle = 0.0;          ///< middle [rad]
  std::vector<std::string> stood_in;  ///< readings that a usual size stands in for
};

/// Columns round the bore and rows down it that a map is made of: 5 deg and about 2 mm.
inline constexpr int usual_around = 72, usual_rows = 28;
/// The same for how far sets of assumptions lie from each other: 15 deg and about 6 mm, a tenth of the work.
inline constexpr int coarse_around = 24, coarse_rows = 10;

/// An engine that a cycle could be built of has all that is needed; sizes that a cycle can do without and this cannot
/// are taken from bore and stroke, and named.
[[nodiscard]] Body body_of(const geometry::Engine& engine, int around = usual_around, int rows = usual_rows);

}  // namespace portwright::heat
