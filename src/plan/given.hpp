#pragma once
// What every way is told with, and when it is not offered, wherever its cuts come from. Inside the module only.

#include "plan/plan.hpp"

namespace portwright::plan {

/// Fills what the rounded cuts of a way cost and what to know before them: metal, warnings, whether all comes back.
void fill_cost(Way& way, const geometry::Survey& survey, const geometry::Engine& stock, const Settings& settings);

/// The limit that is passed by value, or with more than the stated chance; of several the likeliest. Null: none.
[[nodiscard]] const study::HardLimit* worst_passed(const std::vector<study::HardLimit>& limits, double chance);

/// What no engine can have after a list, and this one had not before.
[[nodiscard]] base::Errors newly_impossible(const cuts::Prepared& list, const geometry::Survey& survey,
                                            const geometry::Engine& stock);

}  // namespace portwright::plan
