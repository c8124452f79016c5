#pragma once
// A figure's numbers put into words. Inside the module only.

#include "study/case.hpp"
#include "study/samples.hpp"

namespace portwright::study {

/// The figure in its own unit with its text, reason and source; `from` and what comes with cuts are left to the caller.
[[nodiscard]] Figure make_figure(const Case& study_case, const Entry& entry, const Known& value, const Column& samples,
                                 const std::optional<numerics::Range>& range, base::UnitStyle style);

/// "8.90 cc", "yes", "0.0145 s/m (0.000145 s cm2/cm3)".
[[nodiscard]] std::string figure_text(const Entry& entry, const base::Spread& spread, base::UnitStyle style);

/// Value and range in the figure's own unit.
[[nodiscard]] base::Spread spread_of(const Entry& entry, double value, const std::optional<numerics::Range>& range);

/// What the cuts moved, from one value to the other [SI], with its own range from the differences of each sample.
[[nodiscard]] Change make_change(const Entry& entry, double value, const Column& differences);

}  // namespace portwright::study
