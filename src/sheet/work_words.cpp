#include "sheet/work_words.hpp"

#include <algorithm>
#include <cmath>

#include "plan/guard.hpp"

namespace portwright::sheet {
namespace {

using plan::WorkStep;

std::string length_text(double metres, base::UnitStyle style) {
  const double mm = 1e3 * metres;
  std::string out = base::number_text(mm, 2) + " mm";
  if (style == base::UnitStyle::shop) out += " = " + base::number_text(mm / 0.0254, 0) + " thou";
  return out;
}

std::string times(int repeats) { return repeats == 1 ? "once" : std::to_string(repeats) + " times"; }

/// Nearest to the target and farthest from it, in the order of the numbers.
std::string span(const WorkStep& step, double from, double to) {
  return figure_text(step, std::min(from, to)) + " to " + figure_text(step, std::max(from, to));
}

double way_of(const WorkStep& step) { return step.per_mm >= 0.0 ? 1.0 : -1.0; }

/// A distance of angles as metal too, for who reads a height.
std::string as_metal(const WorkStep& step, double distance, const char* word) {
  if (step.unit != "deg" || step.per_mm == 0.0) return {};
  return ", " + base::number_text(distance / std::abs(step.per_mm), 2) + " mm " + word;
}

std::string put_down(const WorkStep& step) {
  return span(step, step.target - way_of(step) * step.guard->put_down, step.target) + ": put the tool down";
}

std::string never_past(const WorkStep& step) {
  return figure_text(step, step.target + way_of(step) * step.guard->half_band) +
         as_metal(step, step.guard->half_band, "too far");
}

std::string stop_mark(const WorkStep& step, base::UnitStyle style) {
  if (step.stop_amount <= 0.0) return "none: fine all the way, in touches";
  const bool angle = step.unit == "deg";
  const double unit = angle ? 1.0 : 0.1;
  return length_text(step.stop_amount, style) + ", then it reads about " + figure_text(step, step.stop) + "; " +
         base::number_text(unit / std::abs(step.per_mm), 2) + " mm less for each " + (angle ? "deg" : "0.1 mm") +
         " that it stands nearer before";
}

std::string expected(const WorkStep& step) {
  std::string out;
  for (const plan::Expected& one : step.expected) out += (out.empty() ? "" : "; ") + one.label + " " + one.text;
  return out;
}

}  // namespace

std::string title_of(const WorkStep& step, base::UnitStyle style) {
  if (step.amount <= 0.0) return step.what;
  const bool both = step.cut.act == cuts::Act::widen && step.cut.side.empty();
  return step.what + " by " + length_text(step.amount, style) + (both ? " each side" : "");
}

std::string figure_text(const WorkStep& step, double value) {
  return base::number_text(value, step.unit == "deg" ? 1 : 2) + " " + step.unit;
}

std::vector<plan::Expected> step_lines(const WorkStep& step, base::UnitStyle style) {
  if (step.done) return {{"now", expected(step)}};
  if (!step.guard)
    return {{"read then", step.label + " " + figure_text(step, step.target)},
            {"expect", expected(step)},
            {"way back", step.no_return}};
  const plan::Guard& guard = *step.guard;
  if (std::abs(step.before - step.target) <= guard.put_down)
    return {{"leave it", "reads within the span where the tool is put down: nothing to cut"},
            {"read", times(guard.repeats) + ": " + guard.gauge}};
  return {{"before", figure_text(step, step.before) + "; outside " + span(step, step.start_low, step.start_high) +
                         " stop and read again"},
          {"stop mark", stop_mark(step, style)},
          {"read", times(guard.repeats) + ", set up anew each time: " + guard.gauge},
          {"then", "touches toward " + figure_text(step, step.target - way_of(step) * guard.aim_short) + ", at most " +
                       std::to_string(plan::most_fine_passes) + ", reading after each"},
          {"enough", put_down(step) + as_metal(step, guard.put_down, "short")},
          {"never past", never_past(step)},
          {"expect", expected(step)},
          {"no return", step.no_return}};
}

std::vector<std::string> card_lines(const WorkStep& step, base::UnitStyle style) {
  if (step.done) return {"done"};
  if (!step.guard) return {step.no_return};
  return {"stop mark: " + stop_mark(step, style), "read " + times(step.guard->repeats) + ": " + step.guard->gauge,
          "enough: " + put_down(step), "never past " + never_past(step)};
}

}  // namespace portwright::sheet
