// The ends of a duct against published nozzles and shocks.

#include <gtest/gtest.h>

#include "flow/wave.hpp"
#include "gas/isentropic.hpp"
#include "reference/flow/rig.hpp"

namespace portwright::reference {
namespace {

constexpr double g = 1.4, R = 287.0;

/// Gas that moves outward at a Mach number, its pressure and temperature at rest given.
flow::Primitive moving(const gas::WorkingGas& gas, double p0, double T0, double mach) {
  const double warm = 1.0 + 0.5 * (g - 1.0) * mach * mach;
  flow::Primitive w = gas_of(gas, p0 * std::pow(warm, -g / (g - 1.0)), T0 / warm);
  w.u = mach * std::sqrt(g * R * T0 / warm);
  return w;
}

// NACA Report 1135, isentropic flow, ratio of heats 1.4: M, p/p0, rho/rho0, T/T0, A/A*; seen.
constexpr double isentropic_rows[][5] = {{0.10, .9930, .9950, .9980, 5.8218},
                                         {0.50, .8430, .8852, .9524, 1.3398},
                                         {0.90, .5913, .6870, .8606, 1.0089},
                                         {1.00, .5283, .6339, .8333, 1.0000}};
// Same, normal shock: M1, M2, p2/p1, rho2/rho1, T2/T1; seen.
constexpr double shock_rows[][5] = {{1.5, .7011, 2.4583, 1.8621, 1.3202}, {2.0, .5774, 4.5, 2.6667, 1.6875}};

// Gas drawn from a space through a full opening stands in the duct as the row says, and no wave runs.
TEST(naca_1135, gas_drawn_from_a_space_follows_the_isentropic_rows) {
  const gas::WorkingGas gas = perfect_gas(R);
  const flow::Reservoir from{1e5, 300.0, 1.0, 0.0};
  for (const auto& row : isentropic_rows) {
    const double sound = std::sqrt(g * R * 300.0 * row[3]);
    // The duct's gas already has the row's pressure and speed, whatever its temperature.
    flow::Primitive w = gas_of(gas, 1e5 * row[1], 500.0);
    w.u = -row[0] * sound;
    const flow::EndFlow end = flow::boundary_open(gas, w, from, 2e-4, 2e-4, w.p);
    EXPECT_NEAR(end.gas.p / 1e5, row[1], 1e-4);
    EXPECT_NEAR(end.gas.rho * R * 300.0 / 1e5, row[2], 2e-4);
    EXPECT_NEAR(-end.gas.u / sound, row[0], 2e-4);
  }
}

// Gas that leaves through a sonic throat A* of a duct A moves as the row of A/A* says, and no wave runs.
TEST(naca_1135, gas_that_leaves_through_a_choked_throat_follows_the_rows_of_area) {
  const gas::WorkingGas gas = perfect_gas(R);
  for (const auto& row : isentropic_rows) {
    const flow::Primitive w = moving(gas, 1e5, 300.0, row[0]);
    const flow::EndFlow end = flow::boundary_open(gas, w, {0.3e5, 300.0, 1.0, 0.0}, 2e-4, 2e-4 / row[4], 0.5e5);
    EXPECT_NEAR(end.gas.p / 1e5, row[1], 2e-4);
    // Own arithmetic on the published inputs: m sqrt(R T0) / (p0 A*) = .684731.
    EXPECT_NEAR(end.flux.mass * row[4] * std::sqrt(R * 300.0) / 1e5, 0.684731, 2e-4);
  }
}

// A shock that runs back into gas of the speed u1 - u2 brings it to rest: seen from the shock, the rows.
TEST(naca_1135, a_shock_behind_a_shut_end_follows_the_rows) {
  const gas::WorkingGas gas = perfect_gas(R);
  for (const auto& row : shock_rows) {
    flow::Primitive w = gas_of(gas, 1e5, 300.0);
    const double sound = std::sqrt(g * R * 300.0);
    w.u = sound * (row[0] - row[1] * std::sqrt(row[4]));
    const flow::Thermo t = flow::thermo(gas, w);
    EXPECT_NEAR(flow::rest_pressure(w, t) / 1e5, row[2], 4e-4);
    const flow::Behind behind = flow::behind_wave(w, t, 1e5 * row[2]);
    EXPECT_NEAR(behind.u / sound, 0.0, 2e-4);
    EXPECT_NEAR(behind.rho / w.rho, row[3], 1e-4);
    const flow::EndFlow shut = flow::boundary_open(gas, w, {1e5, 300.0, 1.0, 0.0}, 1.0, 0.0, 1e5);
    EXPECT_NEAR(shut.flux.momentum / 1e5, row[2], 4e-4);
  }
}

// A rarefaction is isentropic and keeps u + 2 c / (g - 1); at rest it stands against the rows p/p0 and T/T0.
TEST(naca_1135, a_rarefaction_follows_the_isentropic_rows) {
  const gas::WorkingGas gas = perfect_gas(R);
  const flow::Primitive w = gas_of(gas, 1e5, 300.0);
  const flow::Thermo t = flow::thermo(gas, w);
  for (const auto& row : isentropic_rows) {
    const flow::Behind behind = flow::behind_wave(w, t, 1e5 * row[1]);
    EXPECT_NEAR(behind.rho / w.rho, row[2], 1e-4);
    EXPECT_NEAR(behind.u, 2.0 * t.sound / (g - 1.0) * (1.0 - std::sqrt(row[3])), 2e-4 * t.sound);
    // And back: gas of that speed inward falls to the row's pressure when its end is shut.
    flow::Primitive inward = w;
    inward.u = -behind.u;
    EXPECT_NEAR(flow::rest_pressure(inward, flow::thermo(gas, inward)) / 1e5, row[1], 1e-4);
  }
}

/// Mass flow [kg/s] out of a chamber so wide that its gas hardly moves, through an opening into a space.
double out_of_a_chamber(double p0, double T0, double area, double back) {
  const gas::WorkingGas gas = perfect_gas(R);
  const flow::Primitive w = gas_of(gas, p0, T0);
  const double wide = 1e4 * area;
  return flow::boundary_open(gas, w, {back, T0, 1.0, 0.0}, wide, area, p0).flux.mass * wide;
}

/// And into such a chamber from a space.
double into_a_chamber(double p0, double T0, double area, double back) {
  const gas::WorkingGas gas = perfect_gas(R);
  const flow::Primitive w = gas_of(gas, back, T0);
  const double wide = 1e4 * area;
  return -flow::boundary_open(gas, w, {p0, T0, 1.0, 0.0}, wide, area, back).flux.mass * wide;
}

// Cengel & Boles ex. 17-5: air 150 m/s, 600 C, 1 MPa, convergent, throat 50 cm2, cp 1.005, k 1.4: back pressure 0.7 MPa
// 6.77 kg/s (exact 6.785), 0.4 MPa choked 7.11 kg/s; seen.
TEST(cengel_boles_17_5, convergent_nozzle_at_the_end_of_a_chamber) {
  const double T0 = 873.0 + 150.0 * 150.0 / 2.0 / 1005.0, p0 = 1e6 * std::pow(T0 / 873.0, 3.5);
  for (const auto& passes : {out_of_a_chamber, into_a_chamber}) {
    EXPECT_NEAR(passes(p0, T0, 50e-4, 0.7e6), 6.785, 0.003);
    EXPECT_NEAR(passes(p0, T0, 50e-4, 0.7e6), 6.77, 0.02);
    EXPECT_NEAR(passes(p0, T0, 50e-4, 0.4e6), 7.11, 0.015);
    EXPECT_NEAR(passes(p0, T0, 50e-4, 0.1e6) / passes(p0, T0, 50e-4, 0.4e6), 1.0, 1e-5);
  }
}

// Fox & McDonald, Introduction to Fluid Mechanics, ex. p. 634: 1000 kPa, 333 K, back 591 kPa, exit .001 m2: M 0.90,
// 2.20 kg/s; seen.
TEST(fox_mcdonald_p634, convergent_nozzle_at_the_end_of_a_chamber) {
  EXPECT_NEAR(out_of_a_chamber(1e6, 333.0, 1e-3, 591e3), 2.20, 0.005);
  EXPECT_NEAR(into_a_chamber(1e6, 333.0, 1e-3, 591e3), 2.20, 0.005);
  // The same as a duct of that exit, full open: its gas moves at M 0.90.
  const gas::WorkingGas gas = perfect_gas(R);
  const flow::Primitive w = moving(gas, 1e6, 333.0, 0.90);
  const flow::EndFlow end = flow::boundary_open(gas, w, {591e3, 333.0, 1.0, 0.0}, 1e-3, 1e-3, w.p);
  EXPECT_NEAR(end.flux.mass * 1e-3, 2.20, 0.005);
  EXPECT_NEAR(end.gas.u / std::sqrt(g * end.gas.p / end.gas.rho), 0.90, 0.002);
}

}  // namespace
}  // namespace portwright::reference
