#pragma once
// Files that a run leaves behind. Inside the module only.

#include <functional>
#include <string>
#include <vector>

#include "cycle/curve.hpp"
#include "desk/turning.hpp"

namespace portwright::desk {

/// Pressures and flows over a turn as CSV: a header row with units, one row an instant, one block a speed. Point for
/// the decimal, comma between, angles from the turn's start on.
[[nodiscard]] std::string traces_csv(const std::vector<cycle::Traced>& traces);

/// Traces of one engine at every speed [rpm]; those that were ready when it was stopped.
[[nodiscard]] std::vector<cycle::Traced> traces_of(const cycle::Network& network, const std::vector<double>& rpm,
                                                   const cycle::CurvePlan& plan, Progress& progress, double weight);

}  // namespace portwright::desk
