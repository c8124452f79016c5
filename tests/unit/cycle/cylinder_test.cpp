// What leaves the cylinder, what burns in it, what the wall takes.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "cycle/cylinder.hpp"

namespace portwright::cycle {
namespace {

/// A network with no more than the cylinder's laws ask for.
Network plain() {
  Network net;
  net.assumptions = middle_assumptions();
  net.assumptions.short_circuit = net.assumptions.short_circuit_rise = 0.0;
  net.gas = *gas::working_gas(13.0, 0.0);
  net.burning.air_fuel = 13.0;
  net.burning.lambda = 13.0 / net.gas.stoichiometric;
  net.burning.octane = 95.0;
  net.burning.advance = 25.0 * std::numbers::pi / 180.0;
  net.bore = 0.047;
  net.stroke = 0.034;
  net.piston_area = 0.25 * std::numbers::pi * net.bore * net.bore;
  net.swept = net.piston_area * net.stroke;
  net.chamber = 7e-6;
  net.exhaust_opens = 1.8;
  return net;
}

flow::Reservoir at(double fresh) { return {1.1e5, 500.0, fresh, fresh / 14.0}; }

TEST(exhaust_exit, lies_between_nothing_and_the_cylinder_for_every_bias) {
  Network net = plain();
  for (const double law : {0.0, 0.5, 1.0})
    for (const double s : {0.0, 0.2, 0.5, 0.8, 1.0})
      for (const double delivered : {0.0, 0.2, 0.4, 1.0, 2.0})
        for (double y = 0.0; y <= 1.0; y += 0.05) {
          net.assumptions.second_law = law;
          net.assumptions.exit_bias = s;
          Charge charge;
          charge.delivered = delivered;
          const flow::Reservoir out = exhaust_exit(net, charge, at(y));
          EXPECT_GE(out.fresh, 0.0);
          EXPECT_LE(out.fresh, y + 1e-15);
          EXPECT_NEAR(out.fuel, out.fresh / 14.0, 1e-15);
          EXPECT_EQ(out.p, 1.1e5);
          EXPECT_EQ(out.T, 500.0);
        }
}

TEST(exhaust_exit, is_the_cylinder_itself_without_bias) {
  Network net = plain();
  net.assumptions.exit_bias = net.assumptions.second_law = 0.0;
  for (double y = 0.0; y <= 1.0; y += 0.1) EXPECT_DOUBLE_EQ(exhaust_exit(net, {}, at(y)).fresh, y);
}

TEST(exhaust_exit, is_fresh_once_the_cylinder_is) {
  const Network net = plain();
  EXPECT_DOUBLE_EQ(exhaust_exit(net, {}, at(1.0)).fresh, 1.0);
}

TEST(exhaust_exit, takes_what_goes_straight_across_and_no_more) {
  Network net = plain();
  net.assumptions.short_circuit = net.assumptions.short_circuit_rise = 0.1;
  Charge charge;
  charge.in_rate = 0.02;
  charge.in_fresh = 1.0;
  charge.in_fuel = 1.0 / 14.0;
  charge.out_rate = 0.02;
  const double without = exhaust_exit(plain(), charge, at(0.5)).fresh, with = exhaust_exit(net, charge, at(0.5)).fresh;
  EXPECT_GT(with, without);
  EXPECT_NEAR(with, without + 0.1 / 1.1 * (1.0 - without), 1e-14);
  charge.delivered = 1.0;
  EXPECT_GT(exhaust_exit(net, charge, at(0.5)).fresh, with) << "more crosses the more has come in";
  charge.out_rate = 0.0;
  EXPECT_LT(exhaust_exit(net, charge, at(0.5)).fresh, with) << "nothing leaves for it to cross to";
}

/// Fresh share of a cylinder of constant volume and temperature after so many volumes went through it.
double scavenged(const Network& net, double volumes, double* trapped = nullptr) {
  constexpr int steps = 20000;
  const double h = volumes / steps;
  double y = 0.0;
  Charge charge;
  const auto slope = [&](double share, double delivered) {
    charge.delivered = delivered;
    return 1.0 - exhaust_exit(net, charge, at(share)).fresh;
  };
  for (int i = 0; i < steps; ++i) {  // Heun
    const double a = slope(y, i * h);
    y += 0.5 * h * (a + slope(y + h * a, (i + 1) * h));
  }
  if (trapped != nullptr) *trapped = y / volumes;
  return y;
}

// Perfect mixing SE = 1 - exp(-SR), perfect displacement SE = SR: the two limits of every text on scavenging.
TEST(exhaust_exit, mixes_perfectly_without_bias) {
  Network net = plain();
  net.assumptions.exit_bias = net.assumptions.second_law = 0.0;
  for (const double sr : {0.1, 0.5, 0.93, 1.5}) EXPECT_NEAR(scavenged(net, sr), 1.0 - std::exp(-sr), 1e-8);
}

TEST(exhaust_exit, displaces_perfectly_where_all_is_displaced) {
  Network net = plain();
  net.assumptions.second_law = 1.0;
  net.assumptions.displaced = 1.2;
  for (const double sr : {0.1, 0.5, 0.9, 1.0}) EXPECT_NEAR(scavenged(net, sr), sr, 1e-12);
}

TEST(exhaust_exit, scavenges_between_the_two_limits) {
  Network net = plain();
  for (const double law : {0.0, 1.0}) {
    net.assumptions.second_law = law;
    for (const double sr : {0.3, 0.7, 1.2}) {
      const double se = scavenged(net, sr);
      EXPECT_GT(se, 1.0 - std::exp(-sr));
      EXPECT_LT(se, std::min(sr, 1.0) + 1e-12);
    }
  }
}

TEST(exhaust_exit, a_stronger_bias_keeps_more_of_the_charge) {
  Network net = plain();
  double last = 0.0;
  for (const double s : {0.0, 0.2, 0.5, 0.8}) {
    net.assumptions.exit_bias = s;
    const double se = scavenged(net, 0.8);
    EXPECT_GT(se, last);
    last = se;
  }
}

TEST(wall_heat, goes_from_hot_to_cold) {
  const Network net = plain();
  Charge charge;
  charge.trapped_pressure = 1.1e5;
  charge.trapped_temperature = 450.0;
  charge.trapped_size = 50e-6;
  const double wall = net.assumptions.cylinder_wall;
  EXPECT_GT(wall_heat(net, charge, {5e5, wall + 500.0, 0.7, 0.05}, 2e-5, 150.0, -1.0), 0.0);
  EXPECT_LT(wall_heat(net, charge, {1e5, wall - 100.0, 0.7, 0.05}, 6e-5, 150.0, 2.5), 0.0);
  EXPECT_EQ(wall_heat(net, charge, {1e5, wall, 0.7, 0.05}, 6e-5, 150.0, 2.5), 0.0);
}

TEST(wall_heat, grows_with_speed_with_what_burnt_and_with_its_factor) {
  Network net = plain();
  Charge charge;
  charge.trapped_pressure = 1.1e5;
  charge.trapped_temperature = 450.0;
  charge.trapped_size = 50e-6;
  const flow::Reservoir hot{30e5, 2000.0, 0.3, 0.02};
  const double base = wall_heat(net, charge, hot, 1e-5, 100.0, 0.2);
  EXPECT_NEAR(wall_heat(net, charge, hot, 1e-5, 200.0, 0.2) / base, std::pow(2.0, 0.8), 1e-9);
  charge.burnt = 0.7;
  EXPECT_GT(wall_heat(net, charge, hot, 1e-5, 100.0, 0.2), base);
  charge.burnt = 0.0;
  net.assumptions.woschni_factor *= 2.0;
  EXPECT_NEAR(wall_heat(net, charge, hot, 1e-5, 100.0, 0.2), 2.0 * base, 1e-9 * base);
}

struct Fired {
  double fuel = 0.0, fresh = 0.0, heat = 0.0;
  Charge charge;
  flow::Volume left;
};

/// Burns a charge of the given purity in half degrees; `leak` is the share of the contents lost with each step after
/// 90 deg.
Fired fire(double purity, double leak = 0.0, const Draw& draw = {}) {
  const Network net = plain();
  constexpr double half_degree = std::numbers::pi / 360.0;
  Fired out;
  out.left = flow::filled(net.gas, {1.2e5, 450.0, purity, purity / 14.0}, 50e-6);
  out.charge = trapped(net, out.left, {1.2e5, 450.0, purity, purity / 14.0}, 50e-6);
  for (int i = -240; i < 360; ++i) {
    const double to = (i + 1) * half_degree;
    if (to > 1.57) {
      out.left.mass *= 1.0 - leak;
      out.left.fresh *= 1.0 - leak;
      out.left.fuel *= 1.0 - leak;
    }
    const Burnt burnt =
        burn(net, out.charge, out.left, {20e5, 800.0, purity, purity / 14.0}, 150.0, to, half_degree / 942.0, draw);
    EXPECT_GE(burnt.fuel, 0.0);
    EXPECT_LE(burnt.fuel, out.left.fuel * (1.0 + 1e-12));
    EXPECT_LE(burnt.fresh, out.left.fresh * (1.0 + 1e-12));
    out.left.fuel -= burnt.fuel;
    out.left.fresh -= burnt.fresh;
    out.fuel += burnt.fuel;
    out.fresh += burnt.fresh;
    out.heat += burnt.heat;
  }
  return out;
}

TEST(burn, burns_what_was_planned_when_it_was_lit) {
  const Fired f = fire(0.8);
  ASSERT_TRUE(f.charge.lit);
  EXPECT_GT(f.charge.fuel_to_burn, 0.0);
  EXPECT_NEAR(f.fuel, f.charge.burnt * f.charge.fuel_to_burn, 1e-12 * f.fuel);
  EXPECT_GT(f.charge.burnt, 0.995);
  const Network net = plain();
  EXPECT_NEAR(f.heat, f.fuel * net.gas.heat_per_fuel, 1e-9 * f.heat);
  EXPECT_NEAR(f.fresh, f.fuel * (1.0 + net.gas.air_per_fuel), 1e-12);
}

TEST(burn, never_burns_more_than_is_left_when_gas_is_lost) {
  for (const double leak : {0.01, 0.1, 0.5, 1.0}) {
    const Fired f = fire(0.75, leak);
    EXPECT_TRUE(std::isfinite(f.heat));
    EXPECT_GE(f.left.fuel, -1e-20);
    EXPECT_LE(f.fuel, f.charge.fuel_to_burn * (1.0 + 1e-12));
  }
}

TEST(burn, a_dilute_charge_does_not_burn) {
  EXPECT_LT(fire(0.25).fuel / fire(0.8).fuel, 1e-3);
  EXPECT_EQ(fire(0.0).fuel, 0.0);
}

TEST(burn, draws_move_how_much_burns_and_how_long_it_takes) {
  EXPECT_NEAR(fire(0.8, 0.0, {1.0, 0.9, 1.0}).fuel / fire(0.8).fuel, 0.9, 1e-9);
  EXPECT_NEAR(fire(0.8, 0.0, {1.3, 1.0, 1.0}).charge.burn.duration / fire(0.8).charge.burn.duration, 1.3, 1e-12);
}

TEST(burn, follows_the_knock_integral_upward_only_while_shut) {
  const Fired f = fire(0.8);
  EXPECT_GT(f.charge.end_gas.integral, 0.0);
  EXPECT_GT(f.charge.end_gas.T, 450.0);
}

TEST(trapped, keeps_the_charge_as_it_was_shut_in) {
  const Network net = plain();
  const flow::Reservoir gas{1.3e5, 480.0, 0.7, 0.05};
  const flow::Volume v = flow::filled(net.gas, gas, 60e-6);
  const Charge c = trapped(net, v, gas, 60e-6);
  EXPECT_EQ(c.trapped_mass, v.mass);
  EXPECT_NEAR(c.purity, 0.7, 1e-15);
  EXPECT_FALSE(c.lit);
  EXPECT_EQ(c.delivered, 0.0);
}

}  // namespace
}  // namespace portwright::cycle
