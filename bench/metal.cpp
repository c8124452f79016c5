// What the metal stands, beyond the turns of the cycle: loads and ladder, the wall, its ranges, one reading, a stop.
// 20 ms were allowed for all of it, 5 for a wall.
#include <benchmark/benchmark.h>

#include <memory>

#include "../tests/unit/support/sample_engines.hpp"
#include "desk/revs_figures.hpp"
#include "heat/estimate.hpp"

namespace {

using namespace portwright;

constexpr const char* saw = PORTWRIGHT_SOURCE_DIR "/data/samples/larch-70.saw.toml";
constexpr double speed = 8500.0 / 60.0;

struct Warm {
  bench::SampleEngine sample = bench::sample_engine("larch-70");
  heat::Body body = heat::body_of(sample.engine);
  heat::Body coarse = heat::body_of(sample.engine, heat::coarse_around, heat::coarse_rows);
  heat::Cooling cooling;
  heat::GasSide gas;
  Warm() {
    cooling.sectors.push_back({60.0 / 57.29578, 300.0 / 57.29578, {0.018, 0.006, 0.002}});
    const cycle::Network network = bench::network_of(sample);
    gas = heat::gas_side(network, cycle::run_traced(network, speed, cycle::CurvePlan{}));
  }
  [[nodiscard]] heat::Load load() const { return {body, cooling, gas, &coarse}; }
};
const Warm& warm() {
  static const Warm out;
  return out;
}

void wall(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(heat::steady(warm().load(), heat::middle_assumptions()));
}
BENCHMARK(wall)->Unit(benchmark::kMillisecond);

void wall_with_ranges(benchmark::State& state) {
  const heat::Sets sets = heat::sets_for(static_cast<int>(state.range(0)), nullptr, nullptr);
  for (auto _ : state) benchmark::DoNotOptimize(heat::see_all(warm().load(), sets));
}
BENCHMARK(wall_with_ranges)->Arg(16)->Arg(32)->Unit(benchmark::kMillisecond);

void brought_to_one_reading(benchmark::State& state) {
  heat::Spot spot = *heat::spot_of("plug seat");
  spot.T = 273.15 + 190.0;
  spot.sigma = 5.0;
  const heat::Load load = warm().load();
  for (auto _ : state) benchmark::DoNotOptimize(heat::sets_for(static_cast<int>(state.range(0)), &spot, &load));
}
BENCHMARK(brought_to_one_reading)->Arg(16)->Arg(32)->Unit(benchmark::kMillisecond);

void stopped_hot(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(heat::soak(warm().load(), heat::middle_assumptions()));
}
BENCHMARK(stopped_hot)->Unit(benchmark::kMillisecond);

/// Loads at both speeds with their ranges, and the ladder.
void loads_and_ladder(benchmark::State& state) {
  const auto opened = desk::open_turning(saw, "", "");
  const auto sides = desk::revs_sides(*opened);
  const desk::Watch nobody;
  desk::Progress progress(nobody, 1.0);
  desk::add_gas(**sides, speed, progress);
  const bottom_end::Question question{speed, 13500.0 / 60.0, bottom_end::usual_duty()};
  for (auto _ : state) {
    const bottom_end::Draws draws;
    benchmark::DoNotOptimize(bottom_end::sample((*sides)->subject(), question, draws));
    benchmark::DoNotOptimize(bottom_end::ladder_of((*sides)->subject(), draws));
  }
}
BENCHMARK(loads_and_ladder)->Unit(benchmark::kMillisecond);

}  // namespace
