// Gas that stands still stays so, and mirrored gas moves mirrored.

#include <algorithm>
#include <cstring>
#include <random>

#include <gtest/gtest.h>

#include "reference/flow/rig.hpp"

namespace portwright::flow {
namespace {

using reference::Rig;

/// A duct of steps and cones, wide and narrow.
Grid uneven_grid() {
  const Station stations[] = {{0.0, 4e-4},  {0.03, 4e-4}, {0.03, 1e-4}, {0.05, 1e-4},
                              {0.09, 6e-4}, {0.12, 2e-4}, {0.12, 5e-4}, {0.16, 5e-4}};
  return make_grid(stations, 0.005);
}

/// Every cell another temperature and composition, one pressure.
void jumble(Rig& rig, double p, unsigned seed) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> share(0.0, 1.0);
  for (std::size_t i = 0; i < rig.cells(); ++i) {
    const double fresh = share(random);
    rig.set_cell(i, reference::gas_of(rig.gas, p, 280.0 + 1500.0 * share(random), fresh, 0.08 * fresh));
  }
  rig.contents.end = {rig.scratch.cell.front(), rig.scratch.cell.back()};
  rig.contents.end = {rig.gases().front(), rig.gases().back()};
}

struct Stir {
  double pressure = 0.0, mach = 0.0;
};
Stir stir(Rig& rig, double p) {
  Stir most;
  const auto& gases = rig.gases();
  for (std::size_t i = 0; i < rig.cells(); ++i) {
    most.pressure = std::max(most.pressure, std::abs(gases[i].p / p - 1.0));
    most.mach = std::max(most.mach, std::abs(gases[i].u) / rig.scratch.thermo[i].sound);
  }
  return most;
}

constexpr double bar = 1.3e5;

TEST(rest, gas_between_closed_ends_stays_over_jumps_of_area_temperature_and_composition) {
  Duct duct;
  duct.grid = uneven_grid();
  duct.friction = 0.03;
  duct.losses = {{5, 0.7, 1.3, 0}};
  for (const unsigned seed : {1u, 2u, 3u}) {
    Rig rig(reference::engine_gas(), duct);
    jumble(rig, bar, seed);
    for (int k = 0; k < 2000; ++k) rig.step(4e-6, rig.both_closed());
    const Stir most = stir(rig, bar);
    EXPECT_LT(most.pressure, 1e-12);
    EXPECT_LT(most.mach, 1e-12);
  }
}

TEST(rest, gas_that_is_open_to_rooms_of_its_own_pressure_stays) {
  Duct duct;
  duct.grid = uneven_grid();
  for (const double opening : {1.0, 0.3, 1e-6}) {
    Rig rig(reference::engine_gas(), duct);
    jumble(rig, bar, 4);
    const Reservoir cold{bar, 290.0, 1.0, 0.07}, hot{bar, 1100.0, 0.1, 0.0};
    for (int k = 0; k < 2000; ++k)
      rig.step(4e-6, [&](const Primitive& a, const Primitive& b) {
        return std::pair{boundary_open(rig.gas, a, cold, rig.near_area(), opening * rig.near_area(), a.p),
                         boundary_open(rig.gas, b, hot, rig.far_area(), opening * rig.far_area(), b.p)};
      });
    const Stir most = stir(rig, bar);
    EXPECT_LT(most.pressure, 1e-12) << opening;
    EXPECT_LT(most.mach, 1e-12) << opening;
  }
}

// Not at rest, for contrast: the measure sees a step of pressure of a part in a million.
TEST(rest, a_slight_step_of_pressure_stirs) {
  Duct duct;
  duct.grid = uneven_grid();
  Rig rig(reference::engine_gas(), duct);
  jumble(rig, bar, 5);
  rig.set_cell(7, reference::gas_of(rig.gas, bar * (1.0 + 1e-6), 400.0));
  for (int k = 0; k < 20; ++k) rig.step(4e-6, rig.both_closed());
  EXPECT_GT(stir(rig, bar).mach, 1e-9);
}

TEST(contact, a_jump_of_temperature_and_composition_is_carried_without_a_wave_in_a_gas_of_one_ratio_of_heats) {
  Duct duct;
  duct.grid = reference::uniform_grid(50);
  Rig rig(reference::perfect_gas(), duct);
  for (std::size_t i = 0; i < 50; ++i)
    rig.set_cell(i, Primitive{i < 20 ? 1.0 : 0.2, 0.3, 1.0, i < 20 ? 1.0 : 0.0, 0.0});
  for (int k = 0; k < 60; ++k)
    rig.step(0.005, [&](const Primitive& a, const Primitive& b) {
      return std::pair{rig.against(a, a), rig.against(b, b)};
    });
  for (const Primitive& w : rig.gases()) {
    EXPECT_NEAR(w.p, 1.0, 1e-12);
    EXPECT_NEAR(w.u, 0.3, 1e-12);
    EXPECT_GE(w.fresh, -1e-13);
    EXPECT_LE(w.fresh, 1.0 + 1e-13);
  }
}

template <class T>
void reverse(std::vector<T>& v) {
  std::reverse(v.begin(), v.end());
}

/// The same thing seen from the other side.
Rig mirrored(const Rig& rig) {
  Rig other = rig;
  Grid& grid = other.duct.grid;
  for (auto* v : {&grid.length, &grid.volume, &grid.area, &grid.wall, &grid.kinetic, &grid.bore}) reverse(*v);
  for (Loss& loss : other.duct.losses) {
    loss.cell = grid.cells() - 1 - loss.cell;
    std::swap(loss.forward, loss.backward);
  }
  Contents& c = other.contents;
  for (auto* v : {&c.mass, &c.momentum, &c.energy, &c.fresh, &c.fuel}) reverse(*v);
  for (double& m : c.momentum) m = -m;
  c.end = {reference::turned(rig.contents.end[far_end]), reference::turned(rig.contents.end[near_end])};
  return other;
}

bool same_bits(double a, double b) {
  // A zero has no direction.
  return std::memcmp(&a, &b, sizeof a) == 0 || (a == 0.0 && b == 0.0);
}

TEST(mirror, mirrored_duct_contents_and_rooms_give_the_same_bits) {
  Duct duct;
  duct.grid = uneven_grid();
  duct.friction = 0.03;
  duct.heat_share = 1.0;
  duct.wall_temperature = 420.0;
  duct.losses = {{5, 0.7, 1.3, 0}, {20, 0.2, 0.0, 1, 2e-4}};
  Rig rig(reference::engine_gas(), duct);
  std::mt19937 random(11);
  std::uniform_real_distribution<double> share(0.0, 1.0);
  for (std::size_t i = 0; i < rig.cells(); ++i) {
    const double fresh = share(random);
    rig.set_cell(i, reference::gas_of(rig.gas, 1e5 * (0.7 + share(random)), 280.0 + 900.0 * share(random), fresh,
                                      0.08 * fresh, 200.0 * (share(random) - 0.5)));
  }
  Rig other = mirrored(rig);
  const Reservoir a{1.6e5, 900.0, 0.2, 0.0}, b{0.8e5, 300.0, 1.0, 0.07};
  const auto door = [](const Rig& r, const Primitive& w, const Reservoir& room, double area, double opening) {
    return boundary_open(r.gas, w, room, area, opening, w.p);
  };
  for (int k = 0; k < 500; ++k) {
    rig.step(3e-6, [&](const Primitive& l, const Primitive& r) {
      return std::pair{door(rig, l, a, rig.near_area(), 3e-4), door(rig, r, b, rig.far_area(), 5e-4)};
    });
    other.step(3e-6, [&](const Primitive& l, const Primitive& r) {
      return std::pair{door(other, l, b, other.near_area(), 5e-4), door(other, r, a, other.far_area(), 3e-4)};
    });
  }
  const Rig back = mirrored(other);
  double moved = 0.0;
  for (std::size_t i = 0; i < rig.cells(); ++i) {
    EXPECT_TRUE(same_bits(rig.contents.mass[i], back.contents.mass[i])) << i;
    EXPECT_TRUE(same_bits(rig.contents.momentum[i], back.contents.momentum[i])) << i;
    EXPECT_TRUE(same_bits(rig.contents.energy[i], back.contents.energy[i])) << i;
    EXPECT_TRUE(same_bits(rig.contents.fresh[i], back.contents.fresh[i])) << i;
    EXPECT_TRUE(same_bits(rig.contents.fuel[i], back.contents.fuel[i])) << i;
    moved = std::max(moved, std::abs(rig.contents.momentum[i] / rig.contents.mass[i]));
  }
  EXPECT_GT(moved, 30.0);
  EXPECT_EQ(rig.account.floors, other.account.floors);
}

}  // namespace
}  // namespace portwright::flow
