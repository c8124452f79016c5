#pragma once
// The limits held against the figures of a turning engine.

#include <span>
#include <vector>

#include "base/number_text.hpp"
#include "cycle/point.hpp"
#include "study/finding.hpp"
#include "study/run_figures.hpp"

namespace portwright::study {

/// Every limit that speaks of a run figure, each at the point where it fares worst, worst first. The speed stands in
/// the sentence. A row without a threshold shows the greatest value and says that no number is agreed.
/// @param points of the range of speeds that the findings speak of
[[nodiscard]] std::vector<Finding> find_run(std::span<const cycle::Point> points, bool has_reed, base::UnitStyle style);

}  // namespace portwright::study
