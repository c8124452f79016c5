#pragma once
// A limit held against a figure.

#include <optional>
#include <string>

namespace portwright::study {

enum class State { ok, note, caution, stop };

struct Where {
  std::string port;
  std::string side;  ///< left | right | exhaust | intake ... or empty
  std::optional<double> height_mm, angle_deg;
};

struct Finding {
  std::string rule;    ///< id of the row in data/limits
  std::string figure;  ///< figure it holds
  State state = State::ok;
  double value = 0.0;
  std::optional<double> limit;   ///< the threshold that set the state, or the strictest when ok; none: no agreed number
  std::optional<double> margin;  ///< positive: what is left
  std::string unit;
  double chance = 0.0;  ///< that the limit is passed, 0..1
  Where where;
  std::string text;  ///< one sentence for a person: "Skirt covers the exhaust floor by 2.20 mm, 1.00 is asked."
  std::string why, fix, source;
  bool hard = false;
  bool accepted = false;
  std::string letter = {};  ///< that stands for it on a drawing; empty for one that holds; the desk fills it
};

}  // namespace portwright::study
