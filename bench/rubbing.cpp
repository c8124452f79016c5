// How often a rubbing's own range holds the true area, over drawn photos with every edge known, and what one costs.
//   bench_rubbing --benchmark_filter=lines
#include <benchmark/benchmark.h>

#include <chrono>

#include "../tests/support/drawn_rubbing.hpp"
#include "rubbing/measure.hpp"

namespace {

using namespace portwright::rubbing;
using portwright::testing_support::Drawn;
using portwright::testing_support::DrawnSheet;
using portwright::testing_support::Shot;

constexpr int cases = 200;

struct Case {
  DrawnSheet sheet;
  Shot shot;
  Hints hints;
};

/// `hard`: lines and grey ground, the true edge anywhere under the line, strips up to 4 mm off the sheet, prints that
/// shrank and were read to 0.08 mm, a second coefficient of the lens, cut photos. Else printed flat shapes.
Case drawn(unsigned seed, bool hard) {
  std::mt19937 random(seed);
  const auto between = [&](double a, double b) { return std::uniform_real_distribution<double>(a, b)(random); };
  Case out;
  Shot& s = out.shot;
  s.tilt = between(0, 30), s.tilt_toward = between(0, 360), s.turn = between(0, 360);
  s.width = s.height = 1250 + static_cast<int>(18.0 * s.tilt);
  s.distance = 165.0 + 0.4 * s.tilt;
  s.k1 = between(-0.05, 0.05), s.k2 = hard ? between(-0.02, 0.02) : 0.0;
  s.uneven = between(1, 2), s.light_from = between(0, 360), s.blur = between(0.5, 1.2), s.noise = between(0.5, 3);
  s.quality = 85, s.seed = seed, s.off_x = hard ? between(-20, 20) : 0.0, s.off_y = hard ? between(-20, 20) : 0.0;
  DrawnSheet& d = out.sheet;
  d.window = {between(16, 34), between(9, 16), between(1, 4), between(-6, 6), between(-3, 3), between(-10, 10)};
  if (hard) {
    d.how = seed % 2 == 0 ? Drawn::line : Drawn::ground;
    d.line_width = between(0.3, 0.8), d.line_off = between(-0.5, 0.5) * d.line_width;
    d.raggedness = between(0, 0.12), d.graphite = between(0.15, 0.4), d.rubbed = between(0.55, 0.8);
    d.lift = between(0, 4), d.print_x = between(0.95, 1.02), d.print_y = between(0.95, 1.02);
  }
  out.hints.across = square_side * d.print_x + (hard ? between(-0.08, 0.08) : 0.0);
  out.hints.down = square_side * d.print_y + (hard ? between(-0.08, 0.08) : 0.0);
  out.hints.taped = !hard;
  out.hints.bore = 1000.0;  // what is drawn was never bent
  return out;
}

void coverage(benchmark::State& state, bool hard) {
  for (auto _ : state) {
    double measured = 0, held = 0, within_1 = 0, worst = 0, range = 0;
    double refused = 0;
    std::chrono::duration<double, std::milli> square_time{}, measure_time{};
    for (unsigned i = 0; i < cases; ++i) {
      const Case one = drawn(1000 + i, hard);
      const auto photo = photo_of(one.sheet, one.shot);
      const auto start = std::chrono::steady_clock::now();
      const auto square = find_square(photo);
      const auto middle = std::chrono::steady_clock::now();
      square_time += middle - start;
      if (!square) {
        ++refused;
        continue;
      }
      const Rubbing rubbing = measure(photo, *square, one.hints);
      measure_time += std::chrono::steady_clock::now() - middle;
      if (!rubbing.measured) {
        ++refused;
        continue;
      }
      const double area = one.sheet.window.area(), off = std::abs(rubbing.measured->area.value - area);
      ++measured;
      held += off <= rubbing.measured->area.plus_minus ? 1 : 0;
      within_1 += off <= 0.01 * area ? 1 : 0;
      worst = std::max(worst, off / area);
      range += rubbing.measured->area.plus_minus / area;
    }
    state.counters["measured"] = measured;
    state.counters["refused"] = refused;
    state.counters["held_%"] = 100.0 * held / measured;
    state.counters["within_1_%"] = within_1;
    state.counters["worst_%"] = 100.0 * worst;
    state.counters["range_%"] = 100.0 * range / measured;
    state.counters["square_ms"] = square_time.count() / cases;
    state.counters["measure_ms"] = measure_time.count() / cases;
  }
}
BENCHMARK_CAPTURE(coverage, printed, false)->Iterations(1)->Unit(benchmark::kSecond);
BENCHMARK_CAPTURE(coverage, lines, true)->Iterations(1)->Unit(benchmark::kSecond);

}  // namespace
