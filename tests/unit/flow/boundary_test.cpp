// The end of a duct against a room: limits, bounds and ten thousands of random states.

#include <random>

#include <gtest/gtest.h>

#include "flow/wave.hpp"
#include "gas/isentropic.hpp"
#include "gas/opening.hpp"
#include "reference/flow/rig.hpp"

namespace portwright::flow {
namespace {

constexpr double duct_area = 3e-4;

Primitive inner_gas(const gas::WorkingGas& gas, double p, double T, double mach, double fresh = 1.0) {
  Primitive w = reference::gas_of(gas, p, T, fresh, 0.05 * fresh);
  w.u = mach * thermo(gas, w).sound;
  return w;
}

TEST(boundary_open, without_an_opening_is_a_wall) {
  const gas::WorkingGas gas = reference::engine_gas();
  for (const double mach : {-1.5, -0.3, 0.0, 0.3, 1.5}) {
    const Primitive w = inner_gas(gas, 1e5, 400.0, mach);
    const EndFlow end = boundary_open(gas, w, {2e5, 300.0, 1.0, 0.0}, duct_area, 0.0, w.p);
    EXPECT_EQ(end.flux.mass, 0.0);
    EXPECT_EQ(end.flux.energy, 0.0);
    EXPECT_EQ(end.flux.fresh, 0.0);
    EXPECT_EQ(end.flux.fuel, 0.0);
    EXPECT_EQ(end.gas.u, 0.0);
    EXPECT_DOUBLE_EQ(end.flux.momentum, rest_pressure(w, thermo(gas, w)));
  }
}

TEST(boundary_open, tends_to_the_wall_as_the_opening_shuts) {
  const gas::WorkingGas gas = reference::engine_gas();
  for (const double room : {0.4e5, 2.5e5})
    for (const double mach : {-0.6, 0.0, 0.7}) {
      const Primitive w = inner_gas(gas, 1e5, 400.0, mach);
      const Reservoir r{room, 300.0, 1.0, 0.0};
      const double wall = boundary_open(gas, w, r, duct_area, 0.0, w.p).flux.momentum;
      double last = 1e300;
      for (const double opening : {1e-2, 1e-3, 1e-4, 1e-6, 1e-9}) {
        const EndFlow end = boundary_open(gas, w, r, duct_area, opening * duct_area, w.p);
        const double off = std::abs(end.flux.momentum / wall - 1.0);
        EXPECT_LT(off, 5.0 * opening);
        EXPECT_LE(off, last);
        last = off;
      }
    }
}

TEST(boundary_open, full_opening_lets_gas_out_at_the_rooms_pressure_unless_it_reaches_sound) {
  const gas::WorkingGas gas = reference::engine_gas();
  int choked = 0;
  for (const double mach : {-0.05, 0.0, 0.3, 0.8})
    for (const double room : {0.8e5, 0.95e5, 1.0e5}) {
      const Primitive w = inner_gas(gas, 1.1e5, 600.0, mach);
      const EndFlow end = boundary_open(gas, w, {room, 300.0, 1.0, 0.0}, duct_area, duct_area, w.p);
      ASSERT_GT(end.flux.mass, 0.0);
      // A wave that would draw the gas below its sonic pressure ends there: a throat at the end.
      const double sonic = sonic_pressure(w, thermo(gas, w)), at = std::max(room, sonic);
      choked += sonic > room;
      EXPECT_NEAR(end.gas.p, at, 1e-9 * room);
      EXPECT_NEAR(end.flux.momentum, at + end.flux.mass * end.gas.u, 1e-9 * room);
    }
  EXPECT_GE(choked, 1);
  EXPECT_LE(choked, 4);
}

TEST(boundary_open, inflow_keeps_the_rooms_total_enthalpy_and_brings_its_composition) {
  const gas::WorkingGas gas = reference::engine_gas();
  for (const double opening : {0.05, 0.5, 1.0})
    for (const double p : {0.5e5, 0.9e5, 0.99e5}) {
      const Primitive w = inner_gas(gas, p, 900.0, -0.2, 0.1);
      const Reservoir room{1e5, 330.0, 0.9, 0.06};
      const EndFlow end = boundary_open(gas, w, room, duct_area, opening * duct_area, w.p);
      ASSERT_LT(end.flux.mass, 0.0);
      const double enthalpy = gas::enthalpy(gas::blend(gas, 0.9, 0.06), gas.c, 330.0);
      const Thermo t = thermo(gas, end.gas);
      EXPECT_NEAR(end.flux.energy / end.flux.mass, enthalpy, 1e-12 * enthalpy);
      EXPECT_NEAR(t.e + end.gas.p / end.gas.rho + 0.5 * end.gas.u * end.gas.u, enthalpy, 1e-9 * enthalpy);
      EXPECT_DOUBLE_EQ(end.flux.fresh / end.flux.mass, 0.9);
      EXPECT_DOUBLE_EQ(end.flux.fuel / end.flux.mass, 0.06);
    }
}

TEST(boundary_open, a_wide_opening_counts_as_the_ducts_own_area) {
  const gas::WorkingGas gas = reference::engine_gas();
  for (const double room : {0.7e5, 1.4e5}) {
    const Primitive w = inner_gas(gas, 1e5, 400.0, 0.1);
    const Reservoir r{room, 300.0, 1.0, 0.0};
    EXPECT_EQ(boundary_open(gas, w, r, duct_area, duct_area, w.p).flux.mass,
              boundary_open(gas, w, r, duct_area, 3.0 * duct_area, w.p).flux.mass);
  }
}

// A nearly full opening in front of supersonic outflow: there is no wave that could run back.
TEST(boundary_open, supersonic_outflow_through_a_nearly_full_opening_takes_the_inner_flux) {
  const gas::WorkingGas gas = reference::engine_gas();
  for (const double mach : {1.001, 1.2, 1.5, 2.0})
    for (const double opening : {0.9999, 0.99999999, 1.0}) {
      const Primitive w = inner_gas(gas, 1e5, 700.0, mach, 0.3);
      const EndFlow end = boundary_open(gas, w, {0.6e5, 300.0, 1.0, 0.0}, duct_area, opening * duct_area, 0.9e5);
      const Thermo t = thermo(gas, w);
      if (opening < 1.0 && mach < 1.01) continue;  // the opening chokes it
      EXPECT_DOUBLE_EQ(end.flux.mass, w.rho * w.u);
      EXPECT_DOUBLE_EQ(end.flux.momentum, w.rho * w.u * w.u + w.p);
      EXPECT_DOUBLE_EQ(end.flux.energy, w.rho * w.u * (t.e + w.p / w.rho + 0.5 * w.u * w.u));
    }
}

// Choked over the whole end: sonic, as a convergent nozzle's exit is, and no faster whatever the duct draws.
TEST(boundary_open, inflow_through_a_full_opening_is_never_faster_than_sound) {
  const gas::WorkingGas gas = reference::perfect_gas(287.0);
  for (const double p : {0.2e5, 0.4e5, 0.8e5}) {
    const Primitive w = inner_gas(gas, p, 1500.0, -0.5);
    const EndFlow end = boundary_open(gas, w, {4e5, 600.0, 1.0, 0.0}, duct_area, duct_area, p);
    EXPECT_NEAR(-end.gas.u, thermo(gas, end.gas).sound, 1e-4 * -end.gas.u);
    EXPECT_NEAR(end.gas.p / 4e5, gas::choking_ratio(1.4), 1e-4);
    EXPECT_EQ(end.floors, 0);
  }
}

TEST(boundary_open, supersonic_outflow_that_the_opening_cannot_take_is_slowed_by_a_shock) {
  const gas::WorkingGas gas = reference::engine_gas();
  const Primitive w = inner_gas(gas, 1e5, 700.0, 1.5, 0.3);
  const EndFlow end = boundary_open(gas, w, {0.6e5, 300.0, 1.0, 0.0}, duct_area, 0.5 * duct_area, w.p);
  EXPECT_GT(end.gas.p, w.p);
  EXPECT_GT(end.flux.mass, 0.0);
  EXPECT_LT(end.flux.mass, w.rho * w.u);
  EXPECT_LT(end.gas.u, thermo(gas, end.gas).sound);
}

/// The nozzle's own mass flow [kg/s] from the state at the duct's end; by gas/isentropic.hpp, not by the code tested.
double nozzle_out(const Primitive& at, double g, double opening, double p_out) {
  const double c = std::sqrt(g * at.p / at.rho), mach = at.u / c;
  const gas::Isentropic rest = gas::isentropic(std::max(mach, 1e-12), g);
  const double p0 = at.p / rest.pressure, rho0 = at.rho / rest.density;
  const double ratio = std::max(std::min(p_out / p0, 1.0), gas::choking_ratio(g));
  const double m = gas::mach_of_pressure(ratio, g);
  if (!(m > 0.0)) return 0.0;
  const gas::Isentropic jet = gas::isentropic(m, g);
  return opening * rho0 * jet.density * m * std::sqrt(g * p0 / rho0 * jet.temperature);
}

double nozzle_in(const gas::WorkingGas& gas, const Reservoir& r, double opening, double p) {
  const gas::Caloric k = gas::blend(gas, r.fresh, r.fuel);
  return nozzle_out({r.p / (k.R * r.T), 0.0, r.p, r.fresh, r.fuel}, gas::gamma(k, gas.c, r.T), opening, p);
}

TEST(boundary_open, a_hundred_thousand_random_states_are_finite_and_meet_wave_and_nozzle_to_the_stated_accuracy) {
  const gas::WorkingGas gas = reference::engine_gas();
  std::mt19937 random(3);
  std::uniform_real_distribution<double> share(0.0, 1.0);
  int outward = 0, inward = 0, faster = 0, full = 0, floors = 0, jets = 0;
  double worst_out = 0.0, worst_in = 0.0, worst_wave = 0.0;
  for (int k = 0; k < 100000; ++k) {
    const Primitive w = inner_gas(gas, 1e5 * std::pow(10.0, share(random) - 0.5), 250.0 + 2000.0 * share(random),
                                  4.0 * share(random) - 2.0, share(random));
    const double fresh = share(random), ratio = 0.05 * std::pow(400.0, share(random));
    const Reservoir r{w.p * ratio, 250.0 + 2000.0 * share(random), fresh, 0.07 * fresh};
    const int kind = k % 10;
    const double opening = duct_area * (kind == 0 ? 1.0 : kind == 1 ? 1e-6 * share(random) : share(random));
    const EndFlow end = boundary_open(gas, w, r, duct_area, opening, w.p * std::pow(10.0, 2.0 * share(random) - 1.0));
    const Flux& f = end.flux;
    ASSERT_TRUE(std::isfinite(f.mass) && std::isfinite(f.momentum) && std::isfinite(f.energy) &&
                std::isfinite(f.fresh) && std::isfinite(f.fuel));
    ASSERT_TRUE(end.gas.rho > 0.0 && end.gas.p > 0.0 && std::isfinite(end.gas.u));
    const Thermo t = thermo(gas, w);
    const double unit = w.rho * t.sound * duct_area;
    const double off_wave = std::abs(behind_wave(w, t, end.gas.p).u - end.gas.u) / t.sound;
    if (f.mass < 0.0 && off_wave > 1e-12) {
      // A jet that outruns the wave: it comes without losses, and as fast as sound or faster.
      ++jets;
      const gas::Caloric c = gas::blend(gas, r.fresh, r.fuel);
      const double g = gas::gamma(c, gas.c, r.T), T = r.T * std::pow(end.gas.p / r.p, (g - 1.0) / g);
      ASSERT_NEAR(end.gas.rho * c.R * T / end.gas.p, 1.0, 1e-9);
      ASSERT_LE(end.gas.p, gas::choking_ratio(g) * r.p * (1.0 + 1e-9));
    } else {
      worst_wave = std::max(worst_wave, off_wave);
    }
    if (end.floors > 0) ++floors;
    if (f.mass > 0.0) {
      ++outward;
      const double sound = std::sqrt(t.gamma * end.gas.p / end.gas.rho);
      if (end.gas.u >= sound * (1.0 - 1e-9)) {
        ++faster;
        continue;
      }
      const double through = nozzle_out(end.gas, t.gamma, opening, r.p);
      if (f.mass * duct_area < through && end.gas.p == r.p)
        ++full;
      else
        worst_out = std::max(worst_out, std::abs(f.mass * duct_area - through) / unit);
    } else if (f.mass < 0.0) {
      ++inward;
      worst_in = std::max(worst_in, std::abs(-f.mass * duct_area - nozzle_in(gas, r, opening, end.gas.p)) / unit);
    }
  }
  EXPECT_GT(outward, 10000);
  EXPECT_GT(inward, 10000);
  EXPECT_GT(faster, 1000);
  EXPECT_GT(full, 100);
  EXPECT_GT(jets, 100);
  EXPECT_LT(floors, 1000);  // inflow into a duct that runs away faster than sound
  EXPECT_LT(worst_out, 1.01e-10);
  EXPECT_LT(worst_in, 1.01e-10);
  EXPECT_LT(worst_wave, 1e-12);
}

}  // namespace
}  // namespace portwright::flow
