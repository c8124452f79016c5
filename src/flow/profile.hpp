#pragma once
// From a duct's sizes to its grid.

#include <span>

#include "flow/duct.hpp"

namespace portwright::flow {

/// Area at a place along the duct [m], [m²]. Between two stations the bore goes straight (a cone).
struct Station {
  double place = 0.0, area = 0.0;
};

/// Cells about `cell` [m] long, a whole number between every two stations, so that every station lies on a face and a
/// throat keeps its exact area; volumes exact. Two stations at one place make a step, and the face there takes the
/// smaller area.
/// @param count  equal ducts side by side: areas, volumes and walls count so often, the bore once
/// Contract: places ascend, areas above 0, at least one stretch of some length.
[[nodiscard]] Grid make_grid(std::span<const Station> stations, double cell, double count = 1.0);

/// Cell whose middle is nearest a place [m].
[[nodiscard]] int cell_at(const Grid& grid, double place);

}  // namespace portwright::flow
