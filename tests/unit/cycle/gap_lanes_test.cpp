// Gaps side by side against through_gap, one engine at a time.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "cycle/lanes/gap_lanes.hpp"
#include "cycle/openings.hpp"
#include "reference/flow/rig.hpp"
#include "unit/support/every_machine.hpp"

namespace portwright::cycle {
namespace {

/// One gap as through_gap takes it.
struct Case {
  flow::Reservoir a, b;
  double size_a, size_b, area, before;
};

/// Rooms of any size at any pressure, level ones and shut gaps among them.
Case drawn(std::mt19937_64& chance) {
  const auto draw = [&](double from, double to) { return std::uniform_real_distribution<>(from, to)(chance); };
  const auto gas = [&](double p) {
    const double fresh = draw(0.0, 1.0);
    return flow::Reservoir{p, draw(280.0, 1500.0), fresh, 0.06 * fresh};
  };
  Case out{gas(draw(0.5e5, 3e5)), {}, draw(1e-5, 1e-3), draw(0.0, 1.0) < 0.3 ? 1e9 : draw(1e-6, 1e-3), 0.0, 0.0};
  const double near = draw(0.0, 1.0);
  out.b = gas(near < 0.1 ? out.a.p : near < 0.5 ? out.a.p * draw(0.999, 1.001) : draw(0.3e5, 5e5));
  out.area = draw(0.0, 1.0) < 0.1 ? 0.0 : std::pow(10.0, draw(-7.0, -3.0));
  out.before = draw(0.0, 1.0) < 0.3 ? 0.0 : draw(-0.02, 0.02);
  return out;
}

template <class T>
double worst_of(int draws, unsigned seed) {
  const int lanes = flow::lanes_of_machine<T>();
  const gas::WorkingGas gas = reference::engine_gas();
  flow::WorkingGasLanes<T> gases;
  flow::Table<T> gaps(2, gap_columns, lanes), dt(1, 1, lanes), flows(2, gap_flow_columns, lanes);
  std::vector<Case> cases(static_cast<std::size_t>(2 * lanes));
  std::mt19937_64 chance(seed);
  constexpr double step = 5e-6;
  for (int lane = 0; lane < lanes; ++lane) {
    gases.set(lane, gas);
    dt.at(0, 0, lane) = static_cast<T>(step);
  }
  double worst = 0.0;
  for (int i = 0; i < draws; ++i) {
    for (int row = 0; row < 2; ++row)
      for (int lane = 0; lane < lanes; ++lane) {
        const Case one = drawn(chance);
        const double in[] = {one.a.p, one.a.T,     one.a.fresh, one.a.fuel, one.size_a, one.b.p,
                             one.b.T, one.b.fresh, one.b.fuel,  one.size_b, one.area,   one.before};
        for (int column = 0; column < gap_columns; ++column) gaps.at(row, column, lane) = static_cast<T>(in[column]);
        cases[static_cast<std::size_t>(row * lanes + lane)] = one;
      }
    through_gaps(gases, gaps, dt, flows);
    for (int row = 0; row < 2; ++row)
      for (int lane = 0; lane < lanes; ++lane) {
        const Case& one = cases[static_cast<std::size_t>(row * lanes + lane)];
        const flow::Inflow in = through_gap(gas, {one.a, one.size_a}, {one.b, one.size_b}, one.area, step, one.before);
        // What would rush through the opening, or what the smaller room holds of a difference: the flow's greatest.
        const double p = std::max(one.a.p, one.b.p), most = std::max(one.area * p / 300.0 + std::abs(one.before), 1e-9);
        const double expected[] = {in.mass, in.energy / 1e6, in.fresh, in.fuel};
        const double scale[] = {1.0, 1e6, 1.0, 1.0};
        for (int column = 0; column < gap_flow_columns; ++column) {
          const double got = double{flows.at(row, column, lane)} / scale[column];
          const double off = std::abs(got - expected[column]) / most;
          worst = std::isfinite(off) ? std::max(worst, off) : 1e300;
        }
      }
  }
  return worst;
}

TEST(gaps_side_by_side, each_is_the_gap_by_itself_on_every_machine) {
  bench::on_every_machine([] {
    EXPECT_LT(worst_of<double>(2000, 1), 1e-12);
    EXPECT_LT(worst_of<float>(500, 2), 1e-4);
  });
}

}  // namespace
}  // namespace portwright::cycle
