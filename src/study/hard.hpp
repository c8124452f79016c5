#pragma once
// Limits that no plan may pass, held against several cut lists of one saw by the same samples.

#include <span>
#include <string>
#include <vector>

#include "cuts/cut.hpp"
#include "geometry/survey.hpp"
#include "study/study.hpp"

namespace portwright::study {

/// One hard row of data/limits and the figure it holds, after one cut list.
struct HardLimit {
  std::string rule, figure, label, unit;
  std::string port;      ///< whose figure it is; empty for the whole saw
  bool at_least = true;  ///< the figure must not fall under `stop`; else must not rise over it
  double value = 0.0;    ///< in `unit`
  double stop = 0.0;     ///< in `unit`
  double chance = 0.0;   ///< that the true value lies beyond `stop`, 0..1
  double doubt = 0.0;  ///< how far inside `stop` the value must lie for that chance to be the one asked for, in `unit`
  std::string why, fix, source;

  /// What is left, in `unit`; negative: passed.
  [[nodiscard]] double margin() const { return at_least ? value - stop : stop - value; }
};

/// Every hard limit that speaks of a figure with a value, for each list (null: as it is).
/// @param chance that a `doubt` is for, 0 < chance < 0.5
[[nodiscard]] std::vector<std::vector<HardLimit>> hard_limits(const geometry::Survey& survey,
                                                              std::span<const cuts::Prepared* const> lists,
                                                              const Options& options, double chance);

}  // namespace portwright::study
