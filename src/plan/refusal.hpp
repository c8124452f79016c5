#pragma once
// Why no way is offered, with numbers. Inside the module only.

#include "plan/plan.hpp"
#include "plan/ways.hpp"

namespace portwright::plan {

/// The same task from every gasket, with the hard limits of that start.
struct Start {
  Task task;
  std::vector<study::HardLimit> limits;
};

/// Wishes that cannot be met together: what each comes to at nearest while the others are met, and by how much that is
/// short; and the limits that a full meeting would pass. One error at least.
[[nodiscard]] base::Errors why_no_way(const std::vector<Start>& starts, const Wishes& wishes,
                                      const geometry::Survey& survey, const Settings& settings);

/// "working squish would be 0.41 mm; no less than 0.35 is asked, and with a chance of 12 % it is": one limit after
/// cuts.
/// @param by_doubt say how far off the limit the value should lie, not the chance
[[nodiscard]] std::string passed_text(const study::HardLimit& limit, const Settings& settings, bool by_doubt = false);

/// The readings to take first so that a limit can be told: those with the greatest shares of the figure's doubt.
[[nodiscard]] std::vector<std::string> readings_first(const geometry::Survey& survey, const cuts::Prepared* cuts,
                                                      const std::string& figure, const Settings& settings);

}  // namespace portwright::plan
