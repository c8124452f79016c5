#pragma once
// A border by few points, as it is kept.

#include "rubbing/plane.hpp"

namespace portwright::rubbing {

inline constexpr std::size_t most_points = 48;
inline constexpr double usual_tolerance = 0.03;  ///< of the kept points' line from the border [mm]

/// The points that keep a line within `usual_tolerance`, or within more where they would be more than `most`
/// (Ramer 1972, Douglas and Peucker 1973); then drawn apart about their middle so that they enclose the same area.
[[nodiscard]] Loop kept_points(const Loop& border, std::size_t most = most_points);

}  // namespace portwright::rubbing
