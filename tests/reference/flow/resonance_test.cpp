// Pitches of vessels and tubes, against the equations of small waves.

#include <numbers>

#include <gtest/gtest.h>

#include "reference/flow/rig.hpp"

namespace portwright::reference {
namespace {

constexpr double dt = 5e-6;

/// Pitch of a swinging signal [Hz]: whole periods between the first and the last upward crossing of 0.
double pitch(const std::vector<double>& signal) {
  double first = -1.0, last = -1.0;
  int periods = -1;
  for (std::size_t i = 1; i < signal.size(); ++i)
    if (signal[i - 1] < 0.0 && signal[i] >= 0.0) {
      last = (static_cast<double>(i) - signal[i] / (signal[i] - signal[i - 1])) * dt;
      if (first < 0.0) first = last;
      ++periods;
    }
  return periods > 0 ? periods / (last - first) : 0.0;
}

/// Lowest root of tan(k L) = A / (k V): a lumped vessel V that breathes through a tube L, A, its pressure zero at the
/// open end. From continuity in the vessel, V dp/dt = -rho c² A u, and p ~ sin k(L - x) in the tube.
double helmholtz(double V, double A, double L, double sound) {
  double low = 1e-9, high = 0.5 * std::numbers::pi / L * (1.0 - 1e-12);
  for (int i = 0; i < 200; ++i) {
    const double k = 0.5 * (low + high);
    (std::tan(k * L) < A / (k * V) ? low : high) = k;
  }
  return low * sound / (2.0 * std::numbers::pi);
}

double sound_of(const gas::WorkingGas& gas, const flow::Primitive& w) { return flow::thermo(gas, w).sound; }

/// A vessel with a neck into the open, a little pressed at first. The vessel is marched as an engine's rooms are: half
/// a step ahead by the last step's rates.
std::vector<double> vessel_with_neck(double size, double bore, double length, double time) {
  const gas::WorkingGas gas = engine_gas();
  const flow::Reservoir day{1e5, 300.0, 1.0, 0.0};
  flow::Duct duct;
  duct.grid = uniform_grid(12, length, 0.25 * std::numbers::pi * bore * bore);
  Rig rig(gas, duct, gas_of(gas, day.p, day.T));
  flow::Volume vessel = flow::filled(gas, {day.p * 1.003, day.T, 1.0, 0.0}, size);
  flow::Inflow rate;
  std::vector<double> signal;
  while (rig.time < time) {
    flow::Volume half = vessel;
    half.mass += 0.5 * dt * rate.mass;
    half.energy += 0.5 * dt * rate.energy;
    half.fresh += 0.5 * dt * rate.fresh;
    const flow::Reservoir inside = flow::reservoir(gas, half, size);
    rig.step(dt, [&](const flow::Primitive& a, const flow::Primitive& b) {
      const double area = rig.near_area();
      const auto near = flow::boundary_open(gas, a, inside, area, area, a.p);
      rate = {near.flux.mass * area, near.flux.energy * area, near.flux.fresh * area, 0.0};
      return std::pair{near, flow::boundary_open(gas, b, day, area, area, b.p)};
    });
    vessel.mass += dt * rate.mass;
    vessel.energy += dt * rate.energy;
    vessel.fresh += dt * rate.fresh;
    signal.push_back(flow::reservoir(gas, vessel, size).p - day.p);
  }
  return signal;
}

// Lengths as an engine's: the neck counts as long as it is and its open end's correction, .61 of the radius for a free
// end (memory, sure); the model knows no such correction by itself and is given the longer duct.
TEST(helmholtz, vessel_and_neck_swing_at_the_pitch_of_the_transcendental_equation) {
  const gas::WorkingGas gas = engine_gas();
  const double sound = sound_of(gas, gas_of(gas, 1e5, 300.0));
  for (const auto& [size, bore, bare] :
       {std::tuple{90e-6, 0.018, 0.060}, std::tuple{400e-6, 0.016, 0.030}, std::tuple{40e-6, 0.022, 0.120}}) {
    const double length = bare + 0.61 * 0.5 * bore, area = 0.25 * std::numbers::pi * bore * bore;
    const double want = helmholtz(size, area, length, sound);
    const double found = pitch(vessel_with_neck(size, bore, length, 8.0 / want));
    EXPECT_NEAR(found, want, 0.01 * want);
  }
}

// Without the tube's own compression: k² = A / (V L), the plain resonator; the oracle tends to it for a big vessel.
TEST(helmholtz, oracle_tends_to_the_lumped_resonator) {
  const double lumped = 340.0 / (2.0 * std::numbers::pi) * std::sqrt(1e-4 / (1.0 * 0.05));
  EXPECT_NEAR(helmholtz(1.0, 1e-4, 0.05, 340.0), lumped, 1e-5 * lumped);
}

TEST(quarter_wave, tube_shut_at_one_end_swings_at_a_quarter_of_the_wave) {
  const gas::WorkingGas gas = engine_gas();
  const flow::Primitive still = gas_of(gas, 1e5, 300.0);
  const flow::Reservoir day{1e5, 300.0, 1.0, 0.0};
  for (const double length : {0.10, 0.35}) {
    flow::Duct duct;
    duct.grid = uniform_grid(20, length, 3e-4);
    Rig rig(gas, duct, still);
    rig.set([&](double x) {
      const double swing = 1.0 + 0.003 * std::cos(0.5 * std::numbers::pi * x / length);
      return gas_of(gas, 1e5 * swing, 300.0 * std::pow(swing, 0.29));
    });
    std::vector<double> signal;
    const double want = sound_of(gas, still) / (4.0 * length);
    while (rig.time < 10.0 / want) {
      rig.step(dt, [&](const flow::Primitive& a, const flow::Primitive& b) {
        return std::pair{rig.closed(a), flow::boundary_open(gas, b, day, rig.far_area(), rig.far_area(), b.p)};
      });
      signal.push_back(rig.scratch.cell.front().p - 1e5);
    }
    const double found = pitch(signal);
    EXPECT_NEAR(found, want, 0.01 * want);
  }
}

}  // namespace
}  // namespace portwright::reference
