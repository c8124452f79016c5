#include "study/drawn.hpp"

#include "study/samples.hpp"

namespace portwright::study {

std::vector<std::vector<double>> drawn_values(const geometry::Survey& survey, int count) {
  const numerics::NormalDraws& draws = standard_draws(survey.sources.size(), count);
  std::vector<std::vector<double>> out(static_cast<std::size_t>(count), std::vector<double>(survey.inputs.size()));
  for (int k = 0; k < count; ++k) draw_values(survey, draws.row(k), out[static_cast<std::size_t>(k)]);
  return out;
}

}  // namespace portwright::study
