#pragma once
// Hard limits of the study as bounds of levels. Inside the module only.

#include <span>
#include <vector>

#include "geometry/survey.hpp"
#include "plan/ways.hpp"
#include "study/hard.hpp"

namespace portwright::plan {

/// Bounds are kept for four fifths of the chance that is allowed: a quantile of 512 samples is known to about a fifth.
inline constexpr double aimed_share_of_chance = 0.8;

/// Hard limits as bounds of levels, each held off by what the readings leave open; and contact of the spigot.
/// @param start levels that the limits were read at
[[nodiscard]] std::vector<Bound> bounds_of(const std::vector<study::HardLimit>& limits, const geometry::Survey& survey,
                                           const Frame& frame, const Levels& start);

}  // namespace portwright::plan
