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

/// How much of the cut is gone where the figure reads so [mm].
double gone_at(const WorkStep& step, double value) {
  return step.per_mm == 0.0 ? 0.0 : std::max(0.0, (value - step.before) / step.per_mm);
}

/// The same place as the gauge of this step reads it: a height, or metal gone.
std::string as_read(const WorkStep& step, double value) {
  if (step.guard->reads == plan::Reads::height) {
    const double whole = step.target - step.before;
    const double share = whole == 0.0 ? 0.0 : (value - step.before) / whole;
    const double height = step.height_before + share * (step.height_after - step.height_before);
    return base::number_text(height, 2) + " mm high";
  }
  return step.guard->reads == plan::Reads::amount ? base::number_text(gone_at(step, value), 2) + " mm gone" : "";
}

std::string as_read_too(const WorkStep& step, double value) {
  const std::string read = as_read(step, value);
  return read.empty() ? read : " (" + read + ")";
}

/// A distance of angles as metal too, for who reads an angle.
std::string as_metal(const WorkStep& step, double distance, const char* word) {
  if (step.unit != "deg" || step.per_mm == 0.0 || step.guard->reads != plan::Reads::figure) return {};
  return ", " + base::number_text(distance / std::abs(step.per_mm), 2) + " mm " + word;
}

std::string put_down(const WorkStep& step) {
  const double near = step.target - way_of(step) * step.guard->put_down;
  const std::string read = as_read(step, near);
  return span(step, near, step.target) + (read.empty() ? "" : " (" + read + " to " + as_read(step, step.target) + ")") +
         ": put the tool down";
}

std::string never_past(const WorkStep& step) {
  return figure_text(step, step.never) + as_read_too(step, step.never) +
         as_metal(step, std::abs(step.never - step.target), "too far") +
         (step.never_why.empty() ? "" : ": there the limit of \u201C" + step.never_why + "\u201D is reached");
}

std::string before(const WorkStep& step) {
  return figure_text(step, step.before) +
         (step.guard->reads == plan::Reads::height ? as_read_too(step, step.before) : "") + "; outside " +
         span(step, step.start_low, step.start_high) + " stop and read again";
}

std::string stop_mark(const WorkStep& step, base::UnitStyle style) {
  if (step.stop_amount <= 0.0) return "none: fine all the way, in touches";
  const bool angle = step.unit == "deg";
  const double unit = angle ? 1.0 : 0.1;
  return length_text(step.stop_amount, style) + ", then it reads about " + figure_text(step, step.stop) +
         (step.guard->reads == plan::Reads::height ? as_read_too(step, step.stop) : "") + "; " +
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
  if (step.done)
    return step.expected.empty() ? std::vector<plan::Expected>()
                                 : std::vector<plan::Expected>{{"reads", expected(step)}};
  if (step.unit.empty())
    return {{"read then", "what this cut is for: no edge and no squish tells it"}, {"way back", step.no_return}};
  if (!step.guard)
    return {{"read then", step.label + " " + figure_text(step, step.target)},
            {"expect", expected(step)},
            {"way back", step.no_return}};
  const plan::Guard& guard = *step.guard;
  if (plan::is_near_enough(step))
    return {{"before", before(step)},
            {"leave it", "reads within the span where the tool is put down: nothing to cut"},
            {"read", times(guard.repeats) + ": " + guard.gauge}};
  return {{"before", before(step)},
          {"stop mark", stop_mark(step, style)},
          {"read", times(guard.repeats) + ", set up anew each time: " + guard.gauge},
          {"then", "touches toward " + figure_text(step, step.target - way_of(step) * guard.aim_short) + ", at most " +
                       std::to_string(plan::most_fine_passes) + ", reading after each"},
          {"enough", put_down(step) + as_metal(step, guard.put_down, "short")},
          {"never past", never_past(step)},
          {"expect", step.expected.empty() ? "waits for readings" : expected(step)},
          {"no return", step.no_return}};
}

std::vector<std::string> card_lines(const WorkStep& step, base::UnitStyle style) {
  std::vector<std::string> out;
  // The sheet's own words, so that card and sheet never say two things; what is expected and why is left to the sheet.
  for (const plan::Expected& line : step_lines(step, style))
    if (line.label != "then" && line.label != "expect" && line.label != "no return")
      out.push_back(line.label + ": " + line.text);
  return out;
}

}  // namespace portwright::sheet
