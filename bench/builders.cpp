// Ten thousand simulated builders by the cut sheet, beside builders who cut straight to the number, and beside some
// that the sheet does not know: worse readings, a heavy hand, slips. What they leave is measured on true saws that
// differ from the ones that were read.

#include <cstdio>

#include <benchmark/benchmark.h>

#include "../tests/support/builders.hpp"
#include "plan/plan.hpp"
#include "saw/file.hpp"

namespace {

using namespace portwright;

constexpr int crew = 10000;

void print(const char* saw, const char* who, const bench::Tally& tally) {
  std::printf(
      "%-10s %-34s edges inside %6.2f %%  past %5.2f %%   saws all inside %6.2f %%  any past %5.2f %%  "
      "squish under limit %5.2f %%  readings a saw %.1f\n",
      saw, who, 100.0 * tally.share(tally.inside, tally.edges), 100.0 * tally.share(tally.past, tally.edges),
      100.0 * tally.share(tally.all_inside, tally.saws), 100.0 * tally.share(tally.any_past, tally.saws),
      100.0 * tally.share(tally.under_squish, tally.saws), tally.readings / tally.saws);
}

void crews(const char* saw, const char* wishes) {
  const auto file = saw::read_saw_file(std::string(PORTWRIGHT_SOURCE_DIR "/data/samples/") + saw + ".saw.toml");
  const geometry::Survey survey = geometry::survey(file->readings);
  const plan::Settings settings;
  const auto planned = plan::make_plan(*plan::parse_wishes(wishes), survey, settings);
  if (!planned) {
    std::printf("%s: %s\n", saw, planned.error().front().message.c_str());
    return;
  }
  const auto work = plan::work_of(planned->ways.front(), survey, settings, {});
  if (!work) {
    std::printf("%s: %s\n", saw, work.error().front().message.c_str());
    return;
  }
  const std::pair<const char*, bench::Builder> all[] = {{"by the sheet", {}},
                                                        {"straight to the number", {1.0, 0.0, 0.0, true}},
                                                        {"scatter 1.3 times what is assumed", {1.3, 0.0, 0.0, false}},
                                                        {"heavy hand, +0.03 mm a cut", {1.0, 0.03, 0.0, false}},
                                                        {"2 % of cuts slip by 0.3 mm", {1.0, 0.0, 0.02, false}}};
  for (const auto& [who, builder] : all) {
    bench::Workshop workshop(*work, survey, {}, 2024);
    bench::Tally tally;
    for (int i = 0; i < crew; ++i) workshop.port(builder, tally);
    print(saw, who, tally);
  }
}

void builders(benchmark::State& state) {
  for ([[maybe_unused]] auto _ : state) {
    crews("alder-60", "exhaust at 99 deg; transfers at 119 deg; squish 0.7 mm; intake at 72 deg; exhaust width 60 %");
    crews("larch-70", "exhaust at 99 deg; blowdown 21 deg; squish 0.6 mm");
    crews("spruce-92", "exhaust at 98 deg; transfers at 118 deg; squish 0.7 mm; exhaust width 62 %");
  }
}
BENCHMARK(builders)->Unit(benchmark::kSecond)->Iterations(1);

}  // namespace
