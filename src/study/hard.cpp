#include "study/hard.hpp"

#include <algorithm>
#include <cmath>

#include "study/findings.hpp"
#include "tables/limits.hpp"
#include "tables/pattern.hpp"

namespace portwright::study {
namespace {

/// The samples of a figure in the limit's unit.
std::vector<double> shown_samples(const Column& column, double scale) {
  std::vector<double> out;
  for (std::size_t k = 0; k < column.values.size(); ++k)
    if (column.known[k]) out.push_back(scale * column.values[k]);
  return out;
}

/// How far the sample that so many others lie beyond is worse than the value.
double doubt_of(std::vector<double> samples, double value, double chance, bool at_least) {
  if (samples.empty()) return 0.0;
  std::sort(samples.begin(), samples.end());
  if (!at_least) std::reverse(samples.begin(), samples.end());
  const auto k =
      std::min(samples.size() - 1, static_cast<std::size_t>(std::floor(chance * static_cast<double>(samples.size()))));
  return std::max(0.0, at_least ? value - samples[k] : samples[k] - value);
}

HardLimit hold(const tables::LimitRow& row, const Entry& entry, double value, const Column& column, double chance) {
  HardLimit out;
  out.rule = row.rule;
  out.figure = entry.id;
  out.label = filled(entry.row->label, entry.name, 0.0);
  out.unit = row.unit;
  out.port = entry.port_kind.empty() ? std::string() : entry.name;
  out.at_least = row.side == tables::Side::at_least;
  out.value = value * entry.row->scale;
  out.stop = *row.stop;
  const std::vector<double> samples = shown_samples(column, entry.row->scale);
  const double slack = 1e-9 * std::max(1.0, std::abs(out.stop));
  const auto beyond = std::count_if(samples.begin(), samples.end(), [&](double v) {
    return out.at_least ? v < out.stop - slack : v > out.stop + slack;
  });
  if (!samples.empty()) out.chance = static_cast<double>(beyond) / static_cast<double>(samples.size());
  out.doubt = doubt_of(samples, out.value, chance, out.at_least);
  out.why = row.why;
  out.fix = row.fix;
  out.source = row.source;
  return out;
}

}  // namespace

std::vector<std::vector<HardLimit>> hard_limits(const geometry::Survey& survey,
                                                std::span<const cuts::Prepared* const> lists, const Options& options,
                                                double chance) {
  Case study_case(survey, options);
  const Samples samples(study_case, lists, standard_draws(survey.sources.size(), options.samples));
  std::vector<std::vector<HardLimit>> out(lists.size());
  for (const tables::LimitRow& row : tables::limits()) {
    if (!row.hard || !row.stop || row.side == tables::Side::is) continue;
    for (std::size_t e = 0; e < study_case.entries().size(); ++e) {
      const Entry& entry = study_case.entries()[e];
      if (!tables::matches(row.figure, entry.match, entry.port_kind) || !speaks_of(row.when, entry, survey)) continue;
      for (std::size_t list = 0; list < lists.size(); ++list)
        if (const Known value = entry.value(samples.as_read(list)))
          out[list].push_back(hold(row, entry, *value, samples.column(list, e), chance));
    }
  }
  return out;
}

}  // namespace portwright::study
