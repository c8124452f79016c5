// Engines drawn inside the allowed box, turned, and counted. bench_random_engines [engines [seed]]; 2,000 and 1
// without.
#include <time.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <string>

#include "../tests/property/random_engines.hpp"

namespace {

using namespace portwright;

constexpr const char* labels[] = {"stable", "alternating", "two-solution", "steep", "not settled"};

double seconds() {
  timespec now{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

struct Greatest {
  double value = 0.0;
  int draw = -1;
  void see(double x, int at) {
    if (std::abs(x) <= value) return;
    value = std::abs(x);
    draw = at;
  }
};

}  // namespace

int main(int count, char** words) {
  const int engines = count > 1 ? std::atoi(words[1]) : 2000;
  bench::RandomEngines random(count > 2 ? std::strtoull(words[2], nullptr, 10) : 1);
  std::map<std::string, int> label, refusal;
  int built = 0, not_numbers = 0, with_floors = 0;
  long floors = 0;
  Greatest mass, energy, fresh, fuel, time;
  for (int i = 0; i < engines; ++i) {
    const bench::Drawn drawn = random.next();
    const double from = seconds();
    const bench::Outcome out = bench::turn_it(drawn, random.needs(), {5e-4, 60, 6, 3});
    time.see(seconds() - from, i);
    if (!out.built) {
      ++refusal[out.refusal];
      continue;
    }
    ++built;
    ++label[labels[static_cast<int>(out.point.label)]];
    floors += out.point.floors;
    with_floors += out.point.floors > 0 ? 1 : 0;
    if (!out.finite) {
      ++not_numbers;
      std::printf("not a number: draw %d, %s at %.0f rpm\n", i, drawn.sample.c_str(), 60.0 * drawn.speed);
      continue;
    }
    mass.see(out.point.mass_residual, i);
    energy.see(out.point.energy_residual, i);
    fresh.see(out.fresh_residual, i);
    fuel.see(out.fuel_residual, i);
  }
  std::printf("%d drawn, %d turned, %d not a number; floors %ld in %d\n", engines, built, not_numbers, floors,
              with_floors);
  for (const auto& [name, n] : label) std::printf("  %-14s %d\n", name.c_str(), n);
  std::printf("greatest of content: mass %.1e (draw %d), energy %.1e (%d), fresh %.1e (%d), fuel %.1e (%d)\n",
              mass.value, mass.draw, energy.value, energy.draw, fresh.value, fresh.draw, fuel.value, fuel.draw);
  std::printf("longest %.2f s of computing (draw %d), mean %.2f s\n", time.value, time.draw,
              seconds() / std::max(1, engines));
  for (const auto& [text, n] : refusal) std::printf("  refused %5d  %s\n", n, text.c_str());
  return not_numbers == 0 ? 0 : 1;
}
