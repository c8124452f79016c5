#pragma once
// What is to be measured within the square: found without a touch, or by one. Inside the module only.

#include <vector>

#include "base/error.hpp"
#include "rubbing/outline.hpp"

namespace portwright::rubbing {

/// The borders of the openings, one for each touch, or the one that is plainly meant. Errors, each a sentence:
/// not_found (nothing there, open, reaching the ring), contradiction (two could be meant).
/// @param touches on the sheet [mm as drawn]
[[nodiscard]] base::Result<std::vector<Border>> find_borders(const Light& light, const Camera& camera,
                                                             const std::vector<Point>& touches);

}  // namespace portwright::rubbing
