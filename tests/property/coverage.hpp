#pragma once
// How often a figure's 95 % range holds the truth: a saw is taken for true, read with errors again and again, and
// studied from those readings.

#include <cmath>
#include <memory>
#include <string>
#include <vector>

#include "study/case.hpp"
#include "study/samples.hpp"

namespace portwright::study {

struct Coverage {
  std::string id;
  bool one_sided = false;
  int held = 0, ranges = 0;  ///< ranges that held the truth, and all ranges
  [[nodiscard]] double share() const { return ranges == 0 ? 0.0 : static_cast<double>(held) / ranges; }
};

/// The places of squish that are least and greatest on the readings.
inline void choose_places(geometry::Survey& survey) {
  const auto clearance = [&](std::size_t k) {
    return survey.inputs[static_cast<std::size_t>(survey.squish[k].input)].value;
  };
  survey.squish_least = survey.squish_greatest = 0;
  for (std::size_t k = 1; k < survey.squish.size(); ++k) {
    if (clearance(k) < clearance(survey.squish_least)) survey.squish_least = k;
    if (clearance(k) > clearance(survey.squish_greatest)) survey.squish_greatest = k;
  }
}

/// Readings scatter about the true saw; an assumption stays where it is and the true saw scatters about it. A least
/// wall and its like are judged for the very one that the readings name.
inline std::vector<Coverage> cover(const geometry::Survey& truth, int trials, int samples) {
  geometry::Survey read = truth;
  Options options;
  options.speed = 150.0;
  Case study_case(read, options);
  const std::vector<Entry>& entries = study_case.entries();
  std::vector<Coverage> out;
  for (const Entry& entry : entries) out.push_back({entry.id, entry.row->one_sided, 0, 0});
  const numerics::NormalDraws errors(static_cast<int>(truth.sources.size()), trials, 7u);
  const numerics::NormalDraws& draws = standard_draws(truth.sources.size(), samples);
  std::vector<double> moved(truth.inputs.size()), real(truth.inputs.size());
  const auto measured = std::make_unique<Measures>();
  const std::vector<const cuts::Prepared*> as_is{nullptr};
  for (int t = 0; t < trials; ++t) {
    draw_values(truth, errors.row(t), moved);
    for (std::size_t i = 0; i < moved.size(); ++i) {
      const geometry::Input& input = truth.inputs[i];
      real[i] = input.assumed ? moved[i] : input.value;
      read.inputs[i].value = input.assumed ? input.value : moved[i];
    }
    choose_places(read);
    const Samples sampled(study_case, as_is, draws);
    study_case.measure_at(real, nullptr, *measured, &sampled.as_read(0));
    for (std::size_t e = 0; e < entries.size(); ++e) {
      const Known value = entries[e].value(*measured);
      const auto range = sampled.range(0, e);
      if (!value || !range) continue;
      ++out[e].ranges;
      if (*value >= range->low && *value <= range->high) ++out[e].held;
    }
  }
  return out;
}

}  // namespace portwright::study
