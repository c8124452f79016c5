// Openings' areas and what flows between two rooms.
#include <gtest/gtest.h>

#include <cmath>

#include "cycle/openings.hpp"
#include "gas/opening.hpp"

namespace portwright::cycle {
namespace {

const gas::WorkingGas& working() {
  static const gas::WorkingGas gas = *gas::working_gas(13.0, 0.0);
  return gas;
}

TEST(through_gap, is_the_same_flow_seen_from_the_other_side) {
  for (const double p : {0.4e5, 0.9e5, 1.0e5, 1.001e5, 1.3e5, 6e5})
    for (const double dt : {1e-7, 1e-5, 1e-3}) {
      const flow::Reservoir a{p, 400.0, 0.8, 0.05}, b{1e5, 900.0, 0.1, 0.0};
      const flow::Inflow one = through_gap(working(), {a, 1e-4}, {b, 5e-5}, 2e-4, dt);
      const flow::Inflow other = through_gap(working(), {b, 5e-5}, {a, 1e-4}, 2e-4, dt);
      if (p != 1e5) {
        EXPECT_EQ(one.mass, -other.mass);
        EXPECT_EQ(one.energy, -other.energy);
        EXPECT_EQ(one.fresh, -other.fresh);
        EXPECT_EQ(one.fuel, -other.fuel);
      } else {
        EXPECT_EQ(one.mass, 0.0);
        EXPECT_EQ(other.mass, 0.0);
      }
    }
}

TEST(through_gap, carries_the_upstream_gas) {
  const flow::Reservoir a{2e5, 500.0, 0.7, 0.04}, b{1e5, 300.0, 1.0, 0.0};
  const flow::Inflow in = through_gap(working(), {a, 1e-4}, {b, 1e-4}, 1e-5, 1e-7);
  EXPECT_NEAR(in.fresh, 0.7 * in.mass, 1e-15);
  EXPECT_NEAR(in.fuel, 0.04 * in.mass, 1e-15);
  const gas::Caloric k = gas::blend(working(), 0.7, 0.04);
  EXPECT_NEAR(in.energy, in.mass * gas::enthalpy(k, working().c, 500.0), 1e-9 * std::abs(in.energy));
}

TEST(through_gap, is_the_nozzle_where_the_flow_goes_on_as_before) {
  const flow::Reservoir a{1.6e5, 350.0, 1.0, 0.0}, b{1e5, 350.0, 1.0, 0.0};
  const gas::Caloric k = gas::blend(working(), 1.0, 0.0);
  const double free = gas::opening_flow(a.p, a.T, k.R, gas::gamma(k, working().c, a.T), 1e-5, b.p);
  EXPECT_NEAR(through_gap(working(), {a, 1e-4}, {b, 1e-4}, 1e-5, 1e-6, free).mass, free, 1e-6 * free);
  EXPECT_NEAR(through_gap(working(), {a, 1e-4}, {b, 1e-4}, 1e-5, 1e-9).mass, free, 1e-6 * free);
}

/// Two rooms joined for one step.
struct Pair {
  flow::Volume a, b;
  double size_a, size_b;
  [[nodiscard]] double drop() const {
    return flow::reservoir(working(), a, size_a).p - flow::reservoir(working(), b, size_b).p;
  }
};

double share_left(double p, double size_b, double area, double dt) {
  Pair pair{flow::filled(working(), {p, 600.0, 0.5, 0.02}, 1e-4),
            flow::filled(working(), {1e5, 320.0, 1.0, 0.05}, size_b), 1e-4, size_b};
  const double before = pair.drop();
  const flow::Reservoir a = flow::reservoir(working(), pair.a, pair.size_a),
                        b = flow::reservoir(working(), pair.b, size_b);
  const flow::Inflow in = through_gap(working(), {a, pair.size_a}, {b, size_b}, area, dt);
  pair.a = {pair.a.mass - dt * in.mass, pair.a.energy - dt * in.energy, pair.a.fresh - dt * in.fresh,
            pair.a.fuel - dt * in.fuel};
  pair.b = {pair.b.mass + dt * in.mass, pair.b.energy + dt * in.energy, pair.b.fresh + dt * in.fresh,
            pair.b.fuel + dt * in.fuel};
  return pair.drop() / before;
}

TEST(through_gap, never_passes_level_however_long_the_step) {
  // The upstream gas's heat capacity stands for both rooms' in it: 4.0 % beyond level at most, and nothing swings up.
  for (const double p : {0.6e5, 0.95e5, 0.999e5, 1.0001e5, 1.01e5, 1.2e5})
    for (const double size : {2e-6, 1e-4, 1e-2})
      for (const double area : {1e-6, 1e-4, 1e-2})
        for (const double dt : {1e-7, 1e-6, 1e-5, 1e-4, 1e-3, 1.0}) {
          const double left = share_left(p, size, area, dt);
          EXPECT_GT(left, -0.045) << p << " " << size << " " << area << " " << dt;
          EXPECT_LE(left, 1.0 + 1e-12);
        }
}

TEST(through_gap, a_longer_step_never_moves_less) {
  const flow::Reservoir a{1.3e5, 500.0, 0.5, 0.0}, b{1e5, 320.0, 1.0, 0.0};
  double last = 0.0;
  for (double dt = 1e-8; dt < 1e-1; dt *= 1.7) {
    const double moved = dt * through_gap(working(), {a, 1e-4}, {b, 5e-5}, 3e-5, dt).mass;
    EXPECT_GE(moved, last * (1.0 - 1e-12));
    last = moved;
  }
}

TEST(opening_area, of_a_fixed_hole_is_area_times_discharge_times_count) {
  Opening o;
  o.area = 2e-4;
  o.discharge = 0.7;
  o.count = 3.0;
  EXPECT_DOUBLE_EQ(opening_area(o, 0.01, 0.0), 4.2e-4);
}

geometry::Window square() {
  return geometry::Window::from_shape({.roof = 0.020, .floor = 0.030, .width = 0.015}, 0.050);
}

TEST(opening_area, of_a_window_is_what_crown_or_skirt_leaves_open) {
  Opening o;
  o.by = OpenedBy::crown;
  o.window = square();
  o.discharge = 0.5;
  o.count = 2.0;
  EXPECT_EQ(opening_area(o, 0.020, 0.0), 0.0);
  EXPECT_DOUBLE_EQ(opening_area(o, 0.030, 0.0), o.window.area());
  EXPECT_NEAR(opening_area(o, 0.025, 0.0), 0.5 * o.window.area(), 1e-12);
  o.by = OpenedBy::skirt;
  o.skirt = 0.022;
  EXPECT_EQ(opening_area(o, 0.008, 0.0), 0.0);                           // skirt's edge at the floor
  EXPECT_NEAR(opening_area(o, 0.0, 0.0), 0.8 * o.window.area(), 1e-12);  // 8 of 10 mm open at TDC
}

TEST(opening_area, of_a_table_goes_straight_between_its_rows_and_meets_them) {
  Opening o;
  o.by = OpenedBy::skirt_table;
  o.table = {4e-5, 3e-5, 1e-5, 0.0};
  o.table_step = 1e-4;
  EXPECT_DOUBLE_EQ(opening_area(o, 0.0, 0.0), 4e-5);
  EXPECT_NEAR(opening_area(o, 1e-4, 0.0), 3e-5, 1e-19);
  EXPECT_NEAR(opening_area(o, 1.5e-4, 0.0), 2e-5, 1e-17);
  EXPECT_EQ(opening_area(o, 0.02, 0.0), 0.0);
}

TEST(opening_area, of_petals_is_their_own_times_discharge) {
  Opening o;
  o.by = OpenedBy::reed;
  o.discharge = 0.8;
  EXPECT_DOUBLE_EQ(opening_area(o, 0.01, 3e-4), 2.4e-4);
}

}  // namespace
}  // namespace portwright::cycle
