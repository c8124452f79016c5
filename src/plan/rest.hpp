#pragma once
// What is left of a list of cuts when some of it is done. Inside the module only.

#include "plan/plan.hpp"

namespace portwright::plan {

struct Rest {
  cuts::CutList cuts;             ///< still to be cut
  std::vector<std::string> told;  ///< what done cuts brought within its band, or past it; each a sentence
};

/// Of turned and widened metal what is left of the amount; of an edge that a roof, floor or skirt times, what brings it
/// where the whole list would have had it, so that a base cut that came to more is made up at the roofs. What is left
/// within its band of the settings is left alone. Nothing done: the list as it is.
[[nodiscard]] Rest rest_of(const cuts::CutList& list, const geometry::Survey& survey, const Settings& settings);

/// Entry whose opening a cut times: a roof of a port that the crown opens, a floor of one that the skirt opens, the
/// intake skirt's first window; -1 for none.
[[nodiscard]] int timed_by(const cuts::Cut& cut, const geometry::Survey& survey);

}  // namespace portwright::plan
