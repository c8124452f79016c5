// Ducts side by side against the code for one engine: the same steps, the same numbers to rounding, whatever stands in
// the other lanes and whatever vectors the machine has.

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "flow/boundary_open.hpp"
#include "flow/lanes/duct_lanes.hpp"
#include "flow/profile.hpp"
#include "reference/flow/rig.hpp"
#include "unit/support/every_machine.hpp"

namespace portwright::flow {
namespace {

using bench::on_every_machine;
using reference::gas_of;
constexpr double opening = 1.2e-4;  // [m²]

/// One engine's duct between two volumes, with what a step needs.
struct Single {
  gas::WorkingGas gas;
  Duct duct;
  Contents contents;
  Scratch scratch;
  DuctAccount account;
  double dt = 0.0;
  Reservoir near, far;
};

/// A duct of eight cells with friction, losses out of their order, wall heat; waves of all strengths in it.
Single drawn(std::mt19937_64& chance) {
  const auto between = [&](double a, double b) { return std::uniform_real_distribution<>(a, b)(chance); };
  Single out;
  out.gas = *gas::working_gas(between(11.0, 14.0), between(0.0, 0.02));
  const double from = between(1.5e-4, 4e-4), to = between(1.5e-4, 4e-4);
  const Station stations[] = {{0.0, from}, {0.02, between(1.2e-4, 4e-4)}, {0.04, to}};
  out.duct.grid = make_grid(stations, 0.005);
  out.duct.friction = between(0.02, 0.04);
  out.duct.heat_share = between(0.2, 1.0);
  out.duct.wall_temperature = between(300.0, 600.0);
  out.duct.losses = {{5, between(0.0, 2.0), between(0.0, 2.0), 0, 0.0}, {2, between(0.0, 2.0), 0.3, 0, 2e-4}};
  const auto n = static_cast<std::size_t>(out.duct.grid.cells());
  fill(out.gas, out.duct, gas_of(out.gas, 1.2e5, 400.0, 0.8, 0.04), out.contents, out.scratch);
  for (std::size_t i = 0; i < n; ++i) {
    const double denser = between(0.5, 2.0), hotter = between(0.8, 1.6);
    for (auto* kept : {&out.contents.mass, &out.contents.energy, &out.contents.fresh, &out.contents.fuel})
      (*kept)[i] *= denser;
    out.contents.energy[i] *= hotter;
    out.contents.momentum[i] = out.contents.mass[i] * between(-120.0, 250.0);
  }
  out.account.lost.resize(2);
  out.dt = between(3e-6, 5e-6);
  out.near = {between(0.8e5, 4e5), between(300.0, 1200.0), between(0.0, 1.0), 0.0};
  out.far = {between(0.5e5, 1.5e5), between(300.0, 600.0), 1.0, 0.06};
  return out;
}

/// The end against its volume, by the code for one engine.
EndFlow at_end(const Single& one, Primitive inner, int end) {
  const Grid& grid = one.duct.grid;
  if (end == near_end) inner.u = -inner.u;
  EndFlow out = boundary_open(one.gas, inner, end == near_end ? one.near : one.far,
                              end == near_end ? grid.area.front() : grid.area.back(), opening, 1e5);
  if (end == near_end) {
    Flux& f = out.flux;
    f = {-f.mass, f.momentum, -f.energy, -f.fresh, -f.fuel};
    out.gas.u = -out.gas.u;
  }
  return out;
}

void step(Single& one) {
  decode(one.gas, one.duct, one.contents, one.scratch);
  predict(one.gas, one.duct, one.contents, one.dt, one.scratch, one.account);
  for (const int end : {near_end, far_end}) {
    const EndFlow out = at_end(one, end == near_end ? one.scratch.left.front() : one.scratch.right.back(), end);
    (end == near_end ? one.scratch.flux.front() : one.scratch.flux.back()) = out.flux;
    one.contents.end[static_cast<std::size_t>(end)] = out.gas;
  }
  advance(one.gas, one.duct, one.dt, one.scratch, one.contents, one.account);
}

template <class T>
struct Beside {
  std::vector<Single> ends;  ///< for the ends alone: gas, volumes
  WorkingGasLanes<T> gas;
  DuctLanes<T> duct;
  ContentsLanes<T> contents;
  ScratchLanes<T> scratch;
  AccountLanes<T> account{2};
  Table<T> dt{1, 1, lanes_of_machine<T>()}, rate{1, 1, lanes_of_machine<T>()};

  explicit Beside(const std::vector<Single>& singles)
      : ends(singles),
        duct(singles[0].duct),
        contents(singles[0].duct.grid.cells()),
        scratch(singles[0].duct.grid.cells()) {
    for (int lane = 0; lane < lanes_of_machine<T>(); ++lane) {
      const Single& one = ends[static_cast<std::size_t>(lane)];
      EXPECT_TRUE(duct.takes(one.duct));
      duct.set(lane, one.duct);
      gas.set(lane, one.gas);
      contents.set(lane, one.contents);
      dt.at(0, 0, lane) = static_cast<T>(one.dt);
    }
  }

  void step() {
    decode(gas, duct, contents, scratch, rate);
    predict(gas, duct, contents, dt, scratch, account);
    for (int lane = 0; lane < lanes_of_machine<T>(); ++lane)
      for (const int end : {near_end, far_end}) pass(lane, end);
    advance(duct, dt, scratch, contents, account);
  }

  void pass(int lane, int end) {
    const int side = end == near_end ? 0 : 2 * duct.cells - 1, face = end == near_end ? 0 : duct.cells;
    const auto number = [&](int column) { return double{scratch.side.at(side, column, lane)}; };
    const EndFlow out =
        at_end(ends[static_cast<std::size_t>(lane)],
               {number(side_rho), number(side_u), number(side_p), number(side_fresh), number(side_fuel)}, end);
    const double flux[] = {out.flux.mass, out.flux.momentum, out.flux.energy, out.flux.fresh, out.flux.fuel};
    const double gas_there[] = {out.gas.rho, out.gas.u, out.gas.p, out.gas.fresh, out.gas.fuel};
    for (int column = 0; column < flux_columns; ++column) {
      scratch.flux.at(face, column, lane) = static_cast<T>(flux[column]);
      contents.end.at(end, column, lane) = static_cast<T>(gas_there[column]);
    }
  }

  [[nodiscard]] Contents of(int lane) const {
    Contents out = ends[static_cast<std::size_t>(lane)].contents;
    contents.get(lane, out);
    return out;
  }
};

/// Greatest difference of two numbers of one kind, over the greatest of that kind.
double apart(const Contents& a, const Contents& b) {
  double worst = 0.0;
  const auto look = [&](const std::vector<double>& x, const std::vector<double>& y) {
    double greatest = 0.0, differ = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
      greatest = std::max(greatest, std::abs(x[i]));
      differ = std::isfinite(y[i]) ? std::max(differ, std::abs(x[i] - y[i])) : 1e300;
    }
    worst = std::max(worst, differ / greatest);
  };
  look(a.mass, b.mass);
  look(a.momentum, b.momentum);
  look(a.energy, b.energy);
  look(a.fresh, b.fresh);
  look(a.fuel, b.fuel);
  return worst;
}

std::vector<Single> some(unsigned seed) {
  std::mt19937_64 chance(seed);
  std::vector<Single> out;
  for (int i = 0; i < std::max(lanes_of_machine<double>(), lanes_of_machine<float>()); ++i)
    out.push_back(drawn(chance));
  return out;
}

TEST(lanes, each_is_the_engine_by_itself_to_rounding_on_every_machine) {
  on_every_machine([] {
    std::vector<Single> singles = some(1);
    Beside<double> beside(singles);
    Beside<float> coarse(singles);
    // In double the steps' rounding adds up; float is held over the first steps alone, its waves drift after that.
    for (int i = 1; i <= 600; ++i) {
      for (Single& one : singles) step(one);
      beside.step();
      if (i <= 40) coarse.step();
      if (i != 40 && i != 600) continue;
      for (int lane = 0; lane < lanes_of_machine<double>(); ++lane)
        EXPECT_LT(apart(singles[static_cast<std::size_t>(lane)].contents, beside.of(lane)), 1e-12) << lane;
      for (int lane = 0; i == 40 && lane < lanes_of_machine<float>(); ++lane)
        EXPECT_LT(apart(singles[static_cast<std::size_t>(lane)].contents, coarse.of(lane)), 1e-4) << lane;
    }
    for (int lane = 0; lane < lanes_of_machine<double>(); ++lane) {
      const DuctAccount& account = singles[static_cast<std::size_t>(lane)].account;
      EXPECT_NEAR(beside.account.sum.at(0, account_wall_heat, lane) / account.wall_heat, 1.0, 1e-9);
      EXPECT_NEAR(beside.account.sum.at(0, account_wall_friction, lane) / account.wall_friction, 1.0, 1e-9);
      EXPECT_EQ(beside.account.sum.at(0, account_floors, lane), account.floors);
      for (int j = 0; j < 2; ++j)
        EXPECT_NEAR(beside.account.lost.at(0, j, lane) / account.lost[static_cast<std::size_t>(j)], 1.0, 1e-9);
    }
  });
}

TEST(lanes, of_the_machines_agree_to_rounding) {
  std::vector<Contents> first;
  on_every_machine([&] {
    std::mt19937_64 chance(3);
    Single one = drawn(chance);
    const std::vector<Single> alike(64, one);
    Beside<double> beside(alike);
    for (int i = 0; i < 600; ++i) beside.step();
    first.push_back(beside.of(0));
    EXPECT_LT(apart(first.front(), first.back()), 1e-11);
  });
  EXPECT_GE(first.size(), 1u);
}

TEST(lanes, do_not_feel_their_neighbours) {
  std::vector<Single> singles = some(5);
  Beside<double> before(singles);
  std::vector<Single> others = some(6);
  others[0] = singles[0];
  Beside<double> after(others);
  for (int i = 0; i < 300; ++i) {
    before.step();
    after.step();
  }
  const Contents a = before.of(0), b = after.of(0);
  EXPECT_EQ(a.mass, b.mass);
  EXPECT_EQ(a.momentum, b.momentum);
  EXPECT_EQ(a.energy, b.energy);
  EXPECT_EQ(a.fuel, b.fuel);
}

TEST(lanes, take_ducts_of_one_pattern_alone) {
  std::mt19937_64 chance(7);
  const Single one = drawn(chance);
  const DuctLanes<double> lanes(one.duct);
  EXPECT_TRUE(lanes.takes(one.duct));
  Duct other = one.duct;
  other.friction = 0.0;
  EXPECT_FALSE(lanes.takes(other));
  other = one.duct;
  other.losses[0].cell = 4;
  EXPECT_FALSE(lanes.takes(other));
  other = one.duct;
  other.losses.pop_back();
  EXPECT_FALSE(lanes.takes(other));
  const Station longer[] = {{0.0, 2e-4}, {0.08, 2e-4}};
  other = one.duct;
  other.grid = make_grid(longer, 0.005);
  EXPECT_FALSE(lanes.takes(other));
}

}  // namespace
}  // namespace portwright::flow
