#include <algorithm>
#include <cmath>

#include "desk/case.hpp"
#include "desk/checked.hpp"
#include "desk/desk.hpp"
#include "desk/shown.hpp"

namespace portwright::desk {
namespace {

constexpr double mm_per_m = 1e3;

base::Spread spread(double value, double sigma) {
  return {value, value - sigmas_of_95 * sigma, value + sigmas_of_95 * sigma};
}

wire::EdgeReading edge_reading(const geometry::EdgeCheck::Row& row, base::UnitStyle style) {
  wire::EdgeReading out;
  out.path = row.path;
  out.drop_mm = row.y * mm_per_m;
  const double sigma = row.sigma * mm_per_m;
  const base::Spread drop = spread(out.drop_mm, sigma);
  if (!row.height.known()) {
    out.text = base::value_text(drop, "mm", style) + " below the crown edge at TDC";
    return out;
  }
  const base::Spread height = spread(*row.height * mm_per_m, sigma);
  out.height_mm = height.value;
  out.low = height.low;
  out.high = height.high;
  out.text = base::value_text(height, "mm", style);
  return out;
}

// The gap is as sharp as the sharper of what it lies between.
double least_sigma(const geometry::EdgeCheck& check) {
  double least = check.rows.empty() ? 0.0 : check.rows.front().sigma;
  for (const auto& row : check.rows) least = std::min(least, row.sigma);
  return least * mm_per_m;
}

}  // namespace

wire::EdgeCheck checked_edge(const geometry::EdgeCheck& check, base::UnitStyle style) {
  wire::EdgeCheck out;
  out.port = check.port;
  out.edge = check.edge;
  for (const auto& row : check.rows) out.readings.push_back(edge_reading(row, style));
  out.agrees = check.agrees;
  out.gap_mm = check.gap * mm_per_m;
  out.gap_text = base::value_text(spread(out.gap_mm, least_sigma(check)), "mm", style);
  out.mend = check.mend;
  return out;
}

wire::ReadAs as_understood(const geometry::Input& input, base::UnitStyle style) {
  const base::ShownUnit shown = base::shown_unit(input.dimension);
  const double value = shown.of(input.value);
  const double sigma = input.sigma * shown.per_si;
  const base::Spread range = spread(value, sigma);
  std::string text = base::value_text(range, shown.unit, style);
  if (sigma > 0.0) text += " \u00B1 " + base::number_text(sigma, std::min(base::decimals_for(range, 2) + 1, 4));
  return {input.path, value, sigma, shown.unit, text, input.source};
}

base::ResultAll<wire::CheckAnswer> check(const CheckRequest& request) {
  auto opened = open_case(request.file, "", request.book);
  if (!opened) return tl::unexpected(opened.error());
  wire::CheckAnswer answer;
  answer.head = std::move(opened->head);
  for (const auto& edge : opened->survey.checks) answer.edges.push_back(checked_edge(edge, request.style));
  answer.wheel = opened->survey.wheel_verdict;
  for (const geometry::Input& input : opened->survey.inputs) {
    wire::ReadAs as = as_understood(input, request.style);
    if (!input.assumed) {
      answer.readings.push_back(std::move(as));
      continue;
    }
    const double half = sigmas_of_95 * as.sigma;
    answer.head.assumed.push_back({as.path, as.value, as.value - half, as.value + half, as.unit, as.source});
  }
  return answer;
}

}  // namespace portwright::desk
