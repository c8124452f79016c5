#pragma once
// The whole of it: from an engine wish to a few cut lists worth choosing between, with how far each gain can be told.

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "cycle/ensemble.hpp"
#include "plan/ground.hpp"
#include "seek/judge.hpp"
#include "seek/search.hpp"

namespace portwright::seek {

struct SeekPlan {
  SearchPlan search;
  double seconds = 25.0;  ///< of searching; 0: until it ends by itself
  int members = 16;       ///< sets of assumptions for the ranges; 0: none
  double step = 0.05e-3;  ///< what a hand can cut [m]; 0: not rounded
  int threads = 2;
  cycle::Fineness fineness{};
};

/// One gain, as a change over stock's own [-].
struct Gain {
  double value = 0.0;  ///< mean of the sets of assumptions; where they were not run, under the middles
  /// Within which one more set would lie 19 times of 20. @source{student1908}
  std::optional<cycle::Band> range;
  /// Whether the range leaves out no change at all.
  [[nodiscard]] bool told_apart() const { return range && (range->low > 0.0 || range->high < 0.0); }
};

/// One answer. Cuts that bring less than `idle_gain` are left out of it, and what is left is rounded.
struct Answer {
  std::string why;            ///< "most pull", "least heat", "between them"
  Design shares;              ///< of the knobs
  cuts::CutList cuts;         ///< rounded
  Outcome outcome;            ///< under the middle assumptions
  std::array<Gain, 4> gains;  ///< aim, pull, most power, less heat
};

/// A cut is left out of an answer when that loses less of any gain than this [-]: own judgement, well under any range.
inline constexpr double idle_gain = 0.003;

/// One cut by itself, as far as it goes.
struct Alone {
  std::size_t knob = 0;
  double share = 0.0;
  std::array<double, 4> gains{};  ///< under the middle assumptions
};

struct Sought {
  Asked asked;
  Outcome stock;
  std::vector<Tried> tried;
  End end = End::stopped;
  bool out_of_time = false, stopped = false;
  std::vector<Alone> alone;     ///< empty where the saw as it is does not meet the wishes
  std::vector<Answer> answers;  ///< best aim first
  std::size_t points_turned = 0;
  std::vector<std::string>
      against;  ///< why designs that were tried are not possible, each sentence once, commonest first
};

/// How far a search is. Gains as in Judged; `best` is the place in `tried`, tried.size() for none yet.
struct Progress {
  double share = 0.0;
  const char* doing = "";
  std::span<const Tried> tried;
  std::size_t best = 0;
};
/// Told after every round and while ranges are run; returns whether to stop. May be empty.
using TellSeek = std::function<bool(const Progress&)>;

/// Searches. @param before  what an earlier search of the same wish, saw and knobs tried; it goes on from there
/// Stopped early, the answers are those of what was tried, without ranges. Errors: what a simulation misses, as build.
[[nodiscard]] base::ResultAll<Sought> seek(const plan::Ground& ground, const EngineWish& wish,
                                           const geometry::Survey& survey, const SeekPlan& plan,
                                           std::vector<Tried> before = {}, const TellSeek& tell = {});

/// "Nothing found that can be told from stock: ..", or what the best answer gives, in one sentence.
[[nodiscard]] std::string sentence(const Sought& sought);

}  // namespace portwright::seek
