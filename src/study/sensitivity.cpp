#include "study/sensitivity.hpp"

#include <algorithm>
#include <cmath>

namespace portwright::study {

Sensitivity::Sensitivity(Case& study_case, const cuts::Prepared* cuts) : survey_(&study_case.survey()) {
  const std::vector<Entry>& entries = study_case.entries();
  std::vector<double> values = survey_->values();
  Measures as_read, below, above;
  study_case.measure_at(values, cuts, as_read);
  for (std::size_t i = 0; i < values.size(); ++i) {
    const geometry::Input& input = survey_->inputs[i];
    const double step = input.sigma > 0.0 ? input.sigma : std::max(1e-6 * std::abs(input.value), 1e-9);
    const double low = std::max(input.value - step, input.least), high = std::min(input.value + step, input.greatest);
    std::vector<double>& row = slopes_.emplace_back(entries.size(), 0.0);
    if (!(high > low)) continue;
    values[i] = low;
    study_case.measure_at(values, cuts, below, &as_read);
    values[i] = high;
    study_case.measure_at(values, cuts, above, &as_read);
    values[i] = input.value;
    for (std::size_t e = 0; e < entries.size(); ++e) {
      const Known a = entries[e].value(below), b = entries[e].value(above);
      if (a && b) row[e] = (*b - *a) / (high - low);
    }
  }
}

double Sensitivity::of_source(std::size_t source, std::size_t entry) const {
  double sum = 0.0;
  for (std::size_t i = 0; i < survey_->inputs.size(); ++i)
    for (const geometry::Input::Part& part : survey_->inputs[i].parts)
      if (static_cast<std::size_t>(part.source) == source) sum += part.factor * slopes_[i][entry];
  return sum * survey_->sources[source].sigma;
}

double Sensitivity::variance(std::size_t entry) const {
  double sum = 0.0;
  for (std::size_t s = 0; s < survey_->sources.size(); ++s) {
    const double one = of_source(s, entry);
    sum += one * one;
  }
  return sum;
}

}  // namespace portwright::study
