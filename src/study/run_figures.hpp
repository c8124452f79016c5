#pragma once
// The one list of figures that a turning engine gives, and how each is shown: as a number, as an order of size, as a
// change that is told apart or not.

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/number_text.hpp"
#include "cycle/ensemble.hpp"
#include "study/figure.hpp"

namespace portwright::study {

/// One figure of a cycle::Point.
struct RunRow {
  const char* id;    ///< "run.power"
  const char* unit;  ///< of the contract
  double scale;      ///< figure in `unit` = offset plus this times the value [SI]
  double offset;
  double cycle::Point::*value;
  const char* label;
  const char* formula;
  const char* why;  ///< one sentence
  const char* source;
  bool absolute = false;    ///< shown as an order of size: rests on every assumption at once
  bool reed_only = false;   ///< there is none without petals
  bool headline = false;    ///< differences from stock are listed with their ranges
  bool needs_work = false;  ///< has no value where the engine gives no work

  [[nodiscard]] double shown(double si) const { return offset + scale * si; }
};
[[nodiscard]] std::span<const RunRow> run_rows();
[[nodiscard]] const RunRow* run_row(std::string_view id);

/// A figure that a whole curve or a pull of the starter has one of.
struct OnceRow {
  const char* id;
  const char* unit;
  double scale;  ///< figure in `unit` = SI value times this
  const char* label;
  const char* formula;
  const char* why;
  const char* source;
};
/// run.zero_torque_rpm, crank.gauge
[[nodiscard]] const OnceRow& zero_torque_row();
[[nodiscard]] const OnceRow& gauge_row();

/// Share of an absolute figure's doubt before anything narrows it, to either side: a trial over the assumptions says
/// about 30 %. An absolute figure that nothing anchors is never shown narrower.
inline constexpr double doubt_of_power = 0.3;

/// What is known of one figure beside its value [SI].
struct RunRange {
  std::optional<cycle::Band> band;  ///< over the assumptions
  bool anchored = false;            ///< they were weighed by what the saw is known to give
};

/// The figure of a row, with its text: three digits at most without a range, "about 1.5 to 3.0 kW" where it is absolute
/// and nothing anchors it.
[[nodiscard]] Figure run_figure(const RunRow& row, double value, const RunRange& range, base::UnitStyle style);

/// All rows that this engine has, at one point.
[[nodiscard]] std::vector<Figure> run_figures(const cycle::Point& point, bool has_reed,
                                              std::span<const RunRange> ranges, base::UnitStyle style);

/// Whether this engine has a row at this point.
[[nodiscard]] bool has_row(const RunRow& row, const cycle::Point& point, bool has_reed);

/// A figure of its own with a range [SI] or without.
[[nodiscard]] Figure once_figure(const OnceRow& row, double value, const std::optional<cycle::Band>& range,
                                 base::UnitStyle style);

/// "2.43 kW": three digits at most.
[[nodiscard]] std::string three_digits(double value, std::string_view unit, base::UnitStyle style);

/// "+0.12 kW (+4 %)": with its sign, digits by its range, the share of `stock` beside it where that means something.
[[nodiscard]] std::string signed_change(const base::Spread& change, double stock, std::string_view unit,
                                        base::UnitStyle style);

}  // namespace portwright::study
