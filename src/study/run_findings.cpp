#include "study/run_findings.hpp"

#include <algorithm>

#include "study/findings.hpp"
#include "tables/limits.hpp"
#include "tables/pattern.hpp"

namespace portwright::study {

namespace {

using tables::LimitRow;
using tables::Side;

/// The point where the figure fares worst; null where none has it.
const cycle::Point* worst(const LimitRow& limit, const RunRow& row, std::span<const cycle::Point> points,
                          bool has_reed) {
  const cycle::Point* out = nullptr;
  for (const cycle::Point& point : points) {
    if (!has_row(row, point, has_reed)) continue;
    const double now = row.shown(point.*row.value), least = out != nullptr ? row.shown(out->*row.value) : now;
    if (out == nullptr || (limit.side == Side::at_least ? now < least : now > least)) out = &point;
  }
  return out;
}

}  // namespace

std::vector<Finding> find_run(std::span<const cycle::Point> points, bool has_reed, base::UnitStyle style) {
  std::vector<Finding> out;
  for (const LimitRow& limit : tables::limits()) {
    for (const RunRow& row : run_rows()) {
      if (!tables::matches(limit.figure, row.id, {})) continue;
      const cycle::Point* point = worst(limit, row, points, has_reed);
      if (point == nullptr) continue;
      const double value = row.shown(point->*row.value);
      const std::string at = " at " + base::number_text(point->speed * 60.0, 0) + " rpm";
      // One set of assumptions says yes or no; how likely it is would take them all.
      const auto chance = [&](double threshold) {
        return (limit.side == Side::at_least ? value < threshold : value > threshold) ? 1.0 : 0.0;
      };
      out.push_back(hold_value(limit, {row.id, row.label + at, value}, chance, style));
    }
  }
  std::stable_sort(out.begin(), out.end(), [](const Finding& a, const Finding& b) { return a.state > b.state; });
  return out;
}

}  // namespace portwright::study
