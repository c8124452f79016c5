// What a duct keeps, what friction, losses and walls do to it.

#include <numbers>
#include <numeric>

#include <gtest/gtest.h>

#include "flow/losses.hpp"
#include "reference/flow/rig.hpp"

namespace portwright::flow {
namespace {

using reference::Rig;

Duct tube(double length, double bore, int cells) {
  Duct duct;
  duct.grid = reference::uniform_grid(cells, length, 0.25 * std::numbers::pi * bore * bore);
  return duct;
}

Duct horn() {
  const Station stations[] = {{0.0, 4e-4}, {0.04, 1e-4}, {0.05, 1e-4}, {0.12, 7e-4}};
  Duct duct;
  duct.grid = make_grid(stations, 0.004);
  return duct;
}

/// A bang at one end, hot burned gas beside cold mixture.
void bang(Rig& rig) {
  for (std::size_t i = 0; i < rig.cells(); ++i)
    rig.set_cell(i, 3 * i < rig.cells() ? reference::gas_of(rig.gas, 4e5, 1400.0, 0.2, 0.01)
                                        : reference::gas_of(rig.gas, 1e5, 300.0, 1.0, 0.07));
}

double apart(double a, double b) { return std::abs(a / b - 1.0); }

TEST(conservation, closed_duct_keeps_mass_energy_fresh_and_fuel_over_ten_thousand_steps) {
  for (const double friction : {0.0, 0.04}) {
    Duct duct = horn();
    duct.friction = friction;
    if (friction > 0.0) duct.losses = {{3, 1.0, 0.5, 0}};
    Rig rig(reference::engine_gas(), duct);
    bang(rig);
    const Totals before = totals(rig.contents);
    for (int k = 0; k < 10000; ++k) rig.step(3e-6, rig.both_closed());
    const Totals after = totals(rig.contents);
    EXPECT_LT(apart(after.mass, before.mass), 1e-13);
    EXPECT_LT(apart(after.energy, before.energy), 1e-13);
    EXPECT_LT(apart(after.fresh, before.fresh), 1e-13);
    EXPECT_LT(apart(after.fuel, before.fuel), 1e-13);
    EXPECT_GT(std::abs(rig.gases()[5].p - 4e5), 1e4);
  }
}

TEST(conservation, what_passes_the_ends_is_what_the_duct_gains) {
  Rig rig(reference::engine_gas(), horn());
  bang(rig);
  const Totals before = totals(rig.contents);
  Totals gained;
  const Reservoir a{1.5e5, 900.0, 0.1, 0.0}, b{1e5, 300.0, 1.0, 0.06};
  for (int k = 0; k < 10000; ++k) {
    rig.step(3e-6, [&](const Primitive& l, const Primitive& r) {
      const double opening = 2e-4 * std::abs(std::sin(2e-3 * k));
      const EndFlow near = boundary_open(rig.gas, l, a, rig.near_area(), opening, l.p);
      const EndFlow far = boundary_open(rig.gas, r, b, rig.far_area(), 6e-4, r.p);
      const double dt = 3e-6, na = rig.near_area(), fa = rig.far_area();
      gained.mass -= dt * (near.flux.mass * na + far.flux.mass * fa);
      gained.energy -= dt * (near.flux.energy * na + far.flux.energy * fa);
      gained.fresh -= dt * (near.flux.fresh * na + far.flux.fresh * fa);
      gained.fuel -= dt * (near.flux.fuel * na + far.flux.fuel * fa);
      return std::pair{near, far};
    });
  }
  const Totals after = totals(rig.contents);
  EXPECT_NEAR(after.mass - before.mass, gained.mass, 1e-12 * before.mass);
  EXPECT_NEAR(after.energy - before.energy, gained.energy, 1e-12 * before.energy);
  EXPECT_NEAR(after.fresh - before.fresh, gained.fresh, 1e-12 * before.fresh);
  EXPECT_NEAR(after.fuel - before.fuel, gained.fuel, 1e-12 * before.fuel);
  EXPECT_GT(std::abs(gained.mass), 0.1 * before.mass);
}

/// Kinetic energy of the contents [J].
double kinetic(const Rig& rig) {
  double sum = 0.0;
  for (std::size_t i = 0; i < rig.cells(); ++i) {
    const double u = rig.contents.momentum[i] / rig.contents.mass[i];
    sum += 0.5 * rig.duct.grid.kinetic[i] * rig.contents.mass[i] * u * u;
  }
  return sum;
}

// One advance without fluxes isolates the drag: the walls' push is the areas' difference times the pressure alone.
TEST(friction, takes_from_the_kinetic_energy_what_its_account_says_and_leaves_the_energy) {
  Duct duct = horn();
  duct.friction = 0.05;
  duct.losses = {{4, 2.0, 0.3, 0}, {20, 0.8, 0.9, 1}};
  Rig rig(reference::engine_gas(), duct);
  for (std::size_t i = 0; i < rig.cells(); ++i)
    rig.set_cell(i, reference::gas_of(rig.gas, 1.2e5, 350.0, 1.0, 0.06, i % 3 == 0 ? -120.0 : 90.0));
  const double energy = totals(rig.contents).energy, motion = kinetic(rig);
  decode(rig.gas, duct, rig.contents, rig.scratch);
  for (auto* v : {&rig.scratch.total, &rig.scratch.push}) std::fill(v->begin(), v->end(), 0.0);
  std::fill(rig.scratch.flux.begin(), rig.scratch.flux.end(), Flux{});
  advance(rig.gas, duct, 1e-5, rig.scratch, rig.contents, rig.account);
  const double taken = rig.account.wall_friction + rig.account.lost[0] + rig.account.lost[1];
  EXPECT_EQ(totals(rig.contents).energy, energy);
  EXPECT_NEAR(motion - kinetic(rig), taken, 1e-10 * taken);
  EXPECT_GT(rig.account.wall_friction, 0.0);
  EXPECT_GT(rig.account.lost[0], 0.0);
  EXPECT_GT(rig.account.lost[1], 0.0);
  for (const Primitive& w : rig.gases()) EXPECT_LT(std::abs(w.u), 120.0);
}

TEST(friction, never_turns_the_flow_however_long_the_step) {
  Duct duct = tube(0.1, 0.01, 10);
  duct.friction = 5.0;
  Rig rig(reference::engine_gas(), duct);
  for (std::size_t i = 0; i < 10; ++i) rig.set_cell(i, reference::gas_of(rig.gas, 1e5, 300.0, 1.0, 0.0, 80.0));
  decode(rig.gas, duct, rig.contents, rig.scratch);
  for (auto* v : {&rig.scratch.total, &rig.scratch.push}) std::fill(v->begin(), v->end(), 0.0);
  std::fill(rig.scratch.flux.begin(), rig.scratch.flux.end(), Flux{});
  advance(rig.gas, duct, 1.0, rig.scratch, rig.contents, rig.account);
  for (const Primitive& w : rig.gases()) {
    EXPECT_GT(w.u, 0.0);
    EXPECT_LT(w.u, 0.1);
  }
}

/// A steady stream from `from` to `to` through the duct; the mass flow [kg/s].
double settle(Rig& rig, const Reservoir& from, const Reservoir& to, double until) {
  rig.march(until, 0.8, [&](const Primitive& a, const Primitive& b) {
    return std::pair{boundary_open(rig.gas, a, from, rig.near_area(), rig.near_area(), a.p),
                     boundary_open(rig.gas, b, to, rig.far_area(), rig.far_area(), b.p)};
  });
  const auto& flux = rig.scratch.flux;
  return std::accumulate(flux.begin(), flux.end(), 0.0, [](double s, const Flux& f) { return s + f.mass; }) /
         static_cast<double>(flux.size()) * rig.near_area();
}

// A stream from a space through a passage into a space, nearly without compression (Mach 0.05): the drop of pressure
// is the dynamic one, once for the jet that is lost and K times for the loss. Handbook definition of K.
TEST(local_loss, costs_k_times_the_dynamic_pressure) {
  const Reservoir from{100200.0, 300.0, 1.0, 0.0}, to{100000.0, 300.0, 1.0, 0.0};
  for (const double K : {0.5, 2.0, 10.0}) {
    Duct duct = tube(0.08, 0.016, 16);
    duct.losses = {{8, K, 0.0, 0}};
    Rig rig(reference::engine_gas(), duct, reference::gas_of(reference::engine_gas(), 1e5, 300.0, 1.0, 0.0, 8.0));
    const double mass = settle(rig, from, to, 0.25), area = rig.near_area(), rho = rig.gases()[8].rho;
    EXPECT_NEAR((1.0 + K) * 0.5 * mass * mass / (rho * area * area), 200.0, 0.01 * 200.0) << K;
    // Where it sits: before and behind, total pressure is even.
    const auto head = [&](std::size_t i) {
      const Primitive& w = rig.gases()[i];
      return w.p + 0.5 * w.rho * w.u * w.u;
    };
    const double dynamic = 0.5 * mass * mass / (rho * area * area);
    EXPECT_NEAR(head(3) - head(13), K * dynamic, 0.02 * K * dynamic) << K;
    EXPECT_NEAR(head(3) - head(6), 0.0, 0.02 * K * dynamic) << K;
  }
}

TEST(local_loss, has_its_own_value_each_way) {
  const Reservoir high{100200.0, 300.0, 1.0, 0.0}, low{100000.0, 300.0, 1.0, 0.0};
  Duct duct = tube(0.08, 0.016, 16);
  duct.losses = {{8, 0.5, 4.0, 0}};
  const Primitive still = reference::gas_of(reference::engine_gas(), 1e5, 300.0);
  Rig forward(reference::engine_gas(), duct, still), backward = forward;
  const double out = settle(forward, high, low, 0.25), back = settle(backward, low, high, 0.25);
  EXPECT_NEAR(out / -back, std::sqrt(5.0 / 1.5), 0.01 * std::sqrt(5.0 / 1.5));
}

// A mouth half covered by a ledge and the same mouth opened: the flows stand as 1 / sqrt(1 + K), K by Borda and Carnot.
TEST(local_loss, half_covered_mouth_and_open_one_pass_two_flows) {
  const Reservoir from{100300.0, 300.0, 1.0, 0.0}, to{100000.0, 300.0, 1.0, 0.0};
  double mass[2], K[2];
  for (int i = 0; i < 2; ++i) {
    K[i] = loss_mouth(1.0, i == 0 ? 0.5 : 1.0, 0.75);
    Duct duct = tube(0.06, 0.014, 12);
    duct.losses = {{0, K[i], 0.5, 0}};
    Rig rig(reference::engine_gas(), duct, reference::gas_of(reference::engine_gas(), 1e5, 300.0, 1.0, 0.0, 5.0));
    mass[i] = settle(rig, from, to, 0.2);
  }
  const double want = std::sqrt((1.0 + K[1]) / (1.0 + K[0]));
  EXPECT_LT(want, 0.6);
  EXPECT_NEAR(mass[0] / mass[1], want, 0.01 * want);
}

// Darcy: drop = f L / D times the dynamic pressure.
TEST(friction, steady_drop_is_darcys) {
  const Reservoir from{100200.0, 300.0, 1.0, 0.0}, to{100000.0, 300.0, 1.0, 0.0};
  Duct duct = tube(0.2, 0.010, 20);
  duct.friction = 0.10;
  Rig rig(reference::engine_gas(), duct, reference::gas_of(reference::engine_gas(), 1e5, 300.0, 1.0, 0.0, 8.0));
  const double mass = settle(rig, from, to, 0.3), area = rig.near_area(), rho = rig.gases()[10].rho;
  EXPECT_NEAR((1.0 + 0.10 * 20.0) * 0.5 * mass * mass / (rho * area * area), 200.0, 2.0);
}

TEST(wall_heat, gas_at_rest_tends_to_the_walls_temperature_and_never_past_it) {
  for (const double wall : {250.0, 500.0}) {
    Duct duct = tube(0.06, 0.005, 6);
    duct.heat_share = 1.0;
    duct.wall_temperature = wall;
    const gas::WorkingGas gas = reference::engine_gas();
    Rig rig(gas, duct, reference::gas_of(gas, 1e5, 350.0));
    const double before = totals(rig.contents).energy;
    double last = 350.0;
    bool straight = true;
    for (int k = 0; k < 30000; ++k) {
      rig.step(2e-5, rig.both_closed());
      const double T = rig.scratch.thermo[3].T;
      straight = straight && (wall > 350.0 ? T >= last - 1e-9 && T <= wall : T <= last + 1e-9 && T >= wall);
      last = T;
    }
    EXPECT_TRUE(straight);
    EXPECT_NEAR(last, wall, 0.05);
    EXPECT_NEAR(totals(rig.contents).energy - before, rig.account.wall_heat, 1e-12 * before);
  }
}

// Incropera: mean temperature along a tube of constant wall temperature, (Tw - T) / (Tw - T0) = exp(-h P x / (m cp));
// h by Reynolds' analogy (f / 8) and a laminar floor, as the model states.
TEST(wall_heat, stream_warms_along_the_tube_as_the_analogy_says) {
  const Reservoir from{101000.0, 300.0, 1.0, 0.0}, to{100000.0, 300.0, 1.0, 0.0};
  Duct duct = tube(0.3, 0.012, 30);
  duct.friction = 0.04;
  duct.heat_share = 1.0;
  duct.wall_temperature = 400.0;
  const gas::WorkingGas gas = reference::engine_gas();
  Rig rig(gas, duct, reference::gas_of(gas, 1e5, 300.0, 1.0, 0.0, 20.0));
  const double mass = settle(rig, from, to, 0.3), area = rig.near_area();
  const gas::Caloric k = gas::blend(gas, 1.0, 0.0);
  const double cp = gas::cv(k, gas.c, 330.0) + k.R;
  const double film = 0.04 / 8.0 * mass / area * cp + 3.66 * 0.03 / 0.012;
  const double share = std::exp(-film * std::numbers::pi * 0.012 * 0.3 / (mass * cp));
  // What flows out over what flows in, as temperatures at rest.
  const double out =
      gas::temperature_of_enthalpy(k, gas.c, rig.scratch.flux.back().energy / rig.scratch.flux.back().mass);
  EXPECT_NEAR(400.0 - out, 100.0 * share, 0.02 * 100.0 * (1.0 - share));
  EXPECT_GT(out, 310.0);
}

TEST(duct, one_cell_alone_is_marched) {
  const Station stations[] = {{0.0, 1e-4}, {0.01, 2e-4}};
  Duct duct;
  duct.grid = make_grid(stations, 0.05);
  ASSERT_EQ(duct.grid.cells(), 1);
  Rig rig(reference::engine_gas(), duct, reference::gas_of(reference::engine_gas(), 1e5, 300.0));
  const double mass = settle(rig, {101000.0, 300.0, 1.0, 0.0}, {100000.0, 300.0, 1.0, 0.0}, 0.02);
  EXPECT_GT(mass, 0.0);
  EXPECT_GT(rig.gases()[0].u, 10.0);
}

}  // namespace
}  // namespace portwright::flow
