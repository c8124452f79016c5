#include "base/number_text.hpp"
#include "desk/figure_findings.hpp"
#include "desk/gaps.hpp"
#include "desk/heat_parts.hpp"
#include "tables/limits.hpp"

namespace portwright::desk {

namespace {

constexpr double zero_celsius = 273.15;

/// A temperature as limits and persons have it; anything else as it is.
study::Figure in_degrees(study::Figure figure) {
  if (figure.unit != "K" || !figure.value) return figure;
  figure.unit = "C";
  for (std::optional<double>* one : {&figure.value, &figure.low, &figure.high})
    if (*one) **one -= zero_celsius;
  return figure;
}

/// A change for the worse that is told apart, of a figure that has no value yet.
std::optional<study::Finding> worse_by_cuts(const tables::LimitRow& limit, const study::Figure& figure) {
  if (limit.figure != figure.id || figure.value || !figure.change || !figure.change->distinguishable)
    return std::nullopt;
  const bool worse = limit.side == tables::Side::at_most ? figure.change->value > 0.0 : figure.change->value < 0.0;
  if (!worse) return std::nullopt;
  study::Finding out;
  out.rule = limit.rule;
  out.figure = figure.id;
  out.state = study::State::note;
  out.value = figure.change->value;
  out.unit = figure.unit;
  out.chance = 1.0;
  out.text = figure.label + ": the cuts change it by " + figure.change_text + "; no number is agreed.";
  out.why = limit.why;
  out.fix = limit.fix;
  out.source = limit.source;
  return out;
}

}  // namespace

std::vector<study::Finding> heat_findings(const std::vector<study::Figure>& figures, base::UnitStyle style) {
  std::vector<study::Figure> held;
  for (const study::Figure& figure : figures) held.push_back(in_degrees(figure));
  std::vector<study::Finding> out = findings_on(held, style);
  for (const tables::LimitRow& limit : tables::limits())
    for (const study::Figure& figure : figures)
      if (auto finding = worse_by_cuts(limit, figure)) out.push_back(std::move(*finding));
  fill_letters(out);
  return out;
}

}  // namespace portwright::desk
