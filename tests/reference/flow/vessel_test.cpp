// Rooms and openings without ducts, marched as the engine marches them, against an independent solution of the same
// equations: Boost.Odeint, a gas of one ratio of heats, the textbook's nozzle.

#include <array>
#include <boost/numeric/odeint.hpp>
#include <numbers>

#include <gtest/gtest.h>

#include "cycle/openings.hpp"
#include "reference/flow/rig.hpp"

namespace portwright::reference {
namespace {

constexpr double g = 1.4, R = 287.0, cv = R / (g - 1.0);

/// Two rooms with an opening between them, their sizes over time; the second may be the outdoors, which keeps its
/// state for ever.
struct Rooms {
  double (*size_a)(double);
  double (*size_b)(double);  ///< null: outdoors
  flow::Reservoir a, b;
  double area;
};

/// Pressures of both rooms at a time.
using Pressures = std::array<double, 2>;

/// Textbook nozzle, Cengel & Boles, chapter on compressible flow.
double nozzle(double p0, double T0, double area, double p) {
  const double choked = std::pow(2.0 / (g + 1.0), g / (g - 1.0)), r = std::max(p / p0, choked);
  return area * p0 * std::sqrt(2.0 * g / ((g - 1.0) * R * T0)) *
         std::sqrt(std::max(0.0, std::pow(r, 2.0 / g) - std::pow(r, (g + 1.0) / g)));
}

/// Independent: mass and energy of both rooms, at the times asked for.
std::vector<Pressures> by_odeint(const Rooms& rooms, double dt, int steps) {
  using State = std::array<double, 4>;
  namespace odeint = boost::numeric::odeint;
  const auto fill = [](const flow::Reservoir& r, double size) { return r.p * size / (R * r.T); };
  const double size_b = rooms.size_b ? rooms.size_b(0.0) : 1.0;
  const double ma = fill(rooms.a, rooms.size_a(0.0)), mb = fill(rooms.b, size_b);
  State y{ma, ma * cv * rooms.a.T, mb, mb * cv * rooms.b.T};
  const auto gas = [&](const State& s, double t) {
    const double va = rooms.size_a(t), vb = rooms.size_b ? rooms.size_b(t) : 1.0;
    return std::array<double, 4>{(g - 1.0) * s[1] / va, s[1] / (s[0] * cv), (g - 1.0) * s[3] / vb, s[3] / (s[2] * cv)};
  };
  const auto rate = [&](const State& s, State& ds, double t) {
    const auto [pa, Ta, pb, Tb] = gas(s, t);
    const double m = pa >= pb ? nozzle(pa, Ta, rooms.area, pb) : -nozzle(pb, Tb, rooms.area, pa);
    const double h = m * (cv + R) * (pa >= pb ? Ta : Tb), e = 1e-7;
    const auto moving = [&](double (*size)(double)) { return size ? (size(t + e) - size(t - e)) / (2.0 * e) : 0.0; };
    ds = {-m, -h - pa * moving(rooms.size_a), m, h - pb * moving(rooms.size_b)};
    if (!rooms.size_b) ds[2] = ds[3] = 0.0;
  };
  std::vector<Pressures> out;
  const auto stepper = odeint::make_controlled<odeint::runge_kutta_dopri5<State>>(1e-13, 1e-10);
  for (int k = 0; k < steps; ++k) {
    odeint::integrate_adaptive(stepper, rate, y, k * dt, (k + 1) * dt, 0.2 * dt);
    const auto now = gas(y, (k + 1) * dt);
    out.push_back({now[0], now[2]});
  }
  return out;
}

/// As the engine does it: rooms half a step ahead by the last rates, flow between those, energy with the half step's
/// pressure on the walls.
std::vector<Pressures> by_rooms(const Rooms& rooms, double dt, int steps) {
  const gas::WorkingGas gas = perfect_gas(R);
  const auto size_b = [&](double t) { return rooms.size_b ? rooms.size_b(t) : 1.0; };
  flow::Volume a = flow::filled(gas, rooms.a, rooms.size_a(0.0)), b = flow::filled(gas, rooms.b, size_b(0.0));
  flow::Inflow into_a, into_b;
  const auto half_ahead = [&](const flow::Volume& v, const flow::Inflow& rate, double now, double half) {
    flow::Volume h = v;
    h.mass += 0.5 * dt * rate.mass;
    h.fresh += 0.5 * dt * rate.fresh;
    h.energy += 0.5 * dt * rate.energy - flow::reservoir(gas, v, now).p * (half - now);
    return flow::reservoir(gas, h, half);
  };
  const auto advance = [&](flow::Volume& v, const flow::Inflow& rate, double p, double grown) {
    v.mass += dt * rate.mass;
    v.fresh += dt * rate.fresh;
    v.energy += dt * rate.energy - p * grown;
  };
  std::vector<Pressures> out;
  for (int k = 0; k < steps; ++k) {
    const double t = k * dt, h = t + 0.5 * dt, n = (k + 1) * dt;
    const flow::Reservoir at_a = half_ahead(a, into_a, rooms.size_a(t), rooms.size_a(h));
    const flow::Reservoir at_b = rooms.size_b ? half_ahead(b, into_b, size_b(t), size_b(h)) : rooms.b;
    into_b = cycle::through_gap(gas, {at_a, rooms.size_a(h)}, {at_b, rooms.size_b ? size_b(h) : 1e9}, rooms.area, dt,
                                into_b.mass);
    into_a = {-into_b.mass, -into_b.energy, -into_b.fresh, -into_b.fuel};
    advance(a, into_a, at_a.p, rooms.size_a(n) - rooms.size_a(t));
    if (rooms.size_b) advance(b, into_b, at_b.p, size_b(n) - size_b(t));
    out.push_back(
        {flow::reservoir(gas, a, rooms.size_a(n)).p, rooms.size_b ? flow::reservoir(gas, b, size_b(n)).p : rooms.b.p});
  }
  return out;
}

/// Greatest relative difference of pressure.
double apart(const Rooms& rooms, double dt, double time) {
  const int steps = static_cast<int>(time / dt);
  const auto want = by_odeint(rooms, dt, steps), found = by_rooms(rooms, dt, steps);
  double worst = 0.0;
  for (std::size_t k = 0; k < want.size(); ++k)
    for (std::size_t i = 0; i < 2; ++i) worst = std::max(worst, std::abs(found[k][i] / want[k][i] - 1.0));
  return worst;
}

double case_size(double) { return 60e-6; }
double cylinder_size(double t) { return 45e-6 + 20e-6 * std::sin(2.0 * std::numbers::pi * 150.0 * t); }
double case_under_it(double t) { return 70e-6 - 20e-6 * std::sin(2.0 * std::numbers::pi * 150.0 * t); }

TEST(vessel, empties_through_a_choked_and_then_a_free_opening_as_the_independent_solution_says) {
  const Rooms rooms{case_size, nullptr, {5e5, 900.0, 1.0, 0.0}, {1e5, 300.0, 1.0, 0.0}, 0.6e-4};
  for (const double dt : {5e-6, 10e-6, 20e-6}) {
    const double worst = apart(rooms, dt, 6e-3);
    EXPECT_LT(worst, 1e-3) << dt;  // of pressure
  }
  const auto all = by_odeint(rooms, 20e-6, 300);
  EXPECT_GT(all.front()[0], 4e5);
  EXPECT_LT(all.back()[0], 1.01e5);
}

TEST(vessel, fills_from_outdoors_as_the_independent_solution_says) {
  const Rooms rooms{case_size, nullptr, {0.3e5, 300.0, 1.0, 0.0}, {1e5, 300.0, 1.0, 0.0}, 0.6e-4};
  for (const double dt : {5e-6, 10e-6, 20e-6}) {
    const double worst = apart(rooms, dt, 6e-3);
    EXPECT_LT(worst, 1e-3) << dt;  // of pressure
  }
}

TEST(vessel, two_rooms_with_a_wall_that_moves_between_them_follow_the_independent_solution) {
  const Rooms rooms{cylinder_size, case_under_it, {2.0e5, 700.0, 0.2, 0.0}, {1e5, 320.0, 1.0, 0.0}, 0.25e-4};
  for (const double dt : {5e-6, 10e-6, 20e-6}) {
    const double worst = apart(rooms, dt, 2.0 / 150.0);
    EXPECT_LT(worst, 1e-3) << dt;  // of pressure
  }
}

// Closed form besides: while it is choked, an adiabatic vessel of one ratio of heats falls as
// (1 + (g - 1)/2 k t)^(-2 g / (g - 1)), k = c0 A / V (2 / (g + 1))^((g + 1) / (2 (g - 1))). Own derivation.
TEST(vessel, choked_emptying_is_the_closed_form) {
  const Rooms rooms{case_size, nullptr, {5e5, 900.0, 1.0, 0.0}, {0.1e5, 300.0, 1.0, 0.0}, 0.6e-4};
  const double sound = std::sqrt(g * R * 900.0);
  const double k = sound * 0.6e-4 / 60e-6 * std::pow(2.0 / (g + 1.0), 0.5 * (g + 1.0) / (g - 1.0));
  const auto found = by_rooms(rooms, 10e-6, 100);
  for (int i = 0; i < 100; ++i) {
    const double want = 5e5 * std::pow(1.0 + 0.5 * (g - 1.0) * k * (i + 1) * 10e-6, -2.0 * g / (g - 1.0));
    EXPECT_NEAR(found[static_cast<std::size_t>(i)][0], want, 1e-3 * want);
  }
}

}  // namespace
}  // namespace portwright::reference
