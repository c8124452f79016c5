#include "study/samples.hpp"

#include <algorithm>

namespace portwright::study {

const numerics::NormalDraws& standard_draws(std::size_t sources, int count) {
  static thread_local std::optional<numerics::NormalDraws> kept;
  const int dimension = std::max(1, static_cast<int>(sources));
  if (!kept || kept->dimension() != dimension || kept->count() != count) kept.emplace(dimension, count, sample_seed);
  return *kept;
}

std::size_t Column::count_known() const {
  return static_cast<std::size_t>(std::count(known.begin(), known.end(), char{1}));
}

void draw_values(const geometry::Survey& survey, std::span<const double> normals, std::span<double> values) {
  for (std::size_t i = 0; i < survey.inputs.size(); ++i) {
    const geometry::Input& input = survey.inputs[i];
    double value = input.value;
    for (const geometry::Input::Part& part : input.parts) {
      const auto source = static_cast<std::size_t>(part.source);
      value += part.factor * survey.sources[source].sigma * normals[source];
    }
    values[i] = value;
  }
}

Samples::Samples(Case& study_case, std::span<const cuts::Prepared* const> lists, const numerics::NormalDraws& draws,
                 int first_draw)
    : entries_(study_case.entries().size()), columns_(lists.size() * entries_), as_read_(lists.size()) {
  const geometry::Survey& survey = study_case.survey();
  const auto count = static_cast<std::size_t>(draws.count());
  for (Column& column : columns_) column = {std::vector<double>(count), std::vector<char>(count)};
  std::vector<Measures> measures(lists.size());
  std::vector<double> values = survey.values();
  study_case.measure_at(values, lists, as_read_);
  std::vector<Contests> contests;
  for (const Measures& one : as_read_) contests.emplace_back(survey, one, values);
  for (std::size_t k = 0; k < count; ++k) {
    draw_values(survey, draws.row(static_cast<int>(k)).subspan(static_cast<std::size_t>(first_draw)), values);
    study_case.measure_at(values, lists, measures, as_read_);
    for (std::size_t list = 0; list < lists.size(); ++list) {
      contests[list].add(measures[list], values);
      for (std::size_t e = 0; e < entries_; ++e) {
        const Known value = study_case.entries()[e].value(measures[list]);
        Column& column = columns_[list * entries_ + e];
        column.known[k] = value.known() ? 1 : 0;
        column.values[k] = value.value_or(0.0);
      }
    }
  }
  for (const Contests& one : contests)
    for (const Entry& entry : study_case.entries()) tails_.push_back(one.tails(entry));
}

std::optional<numerics::Range> Samples::range(std::size_t list, std::size_t entry) const {
  return range_of(column(list, entry), tails_[list * entries_ + entry]);
}

Column difference(const Column& a, const Column& b) {
  Column out{std::vector<double>(a.values.size()), std::vector<char>(a.values.size())};
  for (std::size_t k = 0; k < a.values.size(); ++k) {
    out.known[k] = a.known[k] && b.known[k];
    out.values[k] = out.known[k] ? b.values[k] - a.values[k] : 0.0;
  }
  return out;
}

std::optional<numerics::Range> range_of(const Column& column, const numerics::Tails& tails) {
  constexpr std::size_t fewest = 16;
  const std::size_t count = column.count_known();
  if (count < fewest || 2 * count < column.values.size()) return std::nullopt;
  std::vector<double> values;
  values.reserve(count);
  for (std::size_t k = 0; k < column.values.size(); ++k)
    if (column.known[k]) values.push_back(column.values[k]);
  const auto [least, greatest] = std::minmax_element(values.begin(), values.end());
  if (*least == *greatest) return std::nullopt;
  static thread_local std::optional<numerics::RangeEstimator>
      whole;  // the estimator's weights depend on the count alone
  static thread_local std::size_t whole_count = 0;
  if (count != whole_count) {
    whole.emplace(static_cast<int>(count));
    whole_count = count;
  }
  return whole->between(values, tails);
}

}  // namespace portwright::study
