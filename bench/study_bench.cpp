// What a study costs: one resolve, one measure, and the whole, as it is and with cuts. The saw is the contract's.
#include <benchmark/benchmark.h>

#include "../tests/unit/study/larch.hpp"
#include "numerics/sampling.hpp"
#include "study/measure.hpp"

namespace {

using namespace portwright;

void resolve(benchmark::State& state) {
  const geometry::Survey survey = study::survey_of(study::larch_text);
  const std::vector<double> values = survey.values();
  const auto engine = std::make_unique<geometry::Engine>();
  for (auto _ : state) geometry::resolve(survey, values, *engine);
}
BENCHMARK(resolve)->Unit(benchmark::kMicrosecond);

void measure(benchmark::State& state) {
  const geometry::Engine engine = geometry::resolve(study::survey_of(study::larch_text));
  const auto out = std::make_unique<study::Measures>();
  for (auto _ : state) study::measure(engine, 150.0, {}, *out);
}
BENCHMARK(measure)->Unit(benchmark::kMicrosecond);

void whole_study(benchmark::State& state) {
  const geometry::Survey survey = study::survey_of(study::larch_text);
  for (auto _ : state) benchmark::DoNotOptimize(study::study(survey, {}, nullptr, {}));
}
BENCHMARK(whole_study)->Unit(benchmark::kMillisecond);

void whole_study_with_cuts(benchmark::State& state) {
  const geometry::Survey survey = study::survey_of(study::larch_text);
  const cuts::CutList list = cuts::parse_cuts("base -0.5 mm; roof exhaust +0.5 mm; widen exhaust +1 mm").value();
  const auto prepared = cuts::prepare(list, survey, "").value();
  for (auto _ : state) benchmark::DoNotOptimize(study::study(survey, list, prepared.get(), {}));
}
BENCHMARK(whole_study_with_cuts)->Unit(benchmark::kMillisecond);

void draws(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(numerics::NormalDraws(65, 512, 1));
}
BENCHMARK(draws)->Unit(benchmark::kMillisecond);

}  // namespace
