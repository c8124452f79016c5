#pragma once
// What of the bore carries the piston: the wall that the windows leave under the skirt on a pressed side, by crank
// angle.

#include <vector>

#include "bottom_end/turn_forces.hpp"
#include "geometry/walls.hpp"

namespace portwright::bottom_end {

/// The part of the piston that rests on the wall, below the crown edge [m]: from under the lowest ring to the skirt's
/// edge on that side.
struct Skirt {
  double top = 0.0, bottom = 0.0;
  [[nodiscard]] double length() const { return bottom - top; }
};

/// Share of the wall left [-] at each node of the grid, 0..1: within 45 deg to either side of the direction, over the
/// skirt's length where it then stands, no window. Below the lowest window all is wall.
/// @param direction  of the pressed side [rad round the bore]
[[nodiscard]] std::vector<double> wall_left(const geometry::WindowMap& map, double direction, const Skirt& skirt,
                                            const TurnGrid& grid);

/// Mean pressure of a thrust on what is left of the wall [Pa]: the force over the part of the skirt's projected width
/// (chord of 90 deg) that has wall under it. 0 without thrust; none where no wall is left is said as infinity.
[[nodiscard]] double wall_pressure(double thrust, double share, const Skirt& skirt, double bore);

}  // namespace portwright::bottom_end
