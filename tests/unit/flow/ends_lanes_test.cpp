// Ends side by side against the code for one engine: flux and gas of the same end, whatever stands in the other lanes
// and whatever vectors the machine has.

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "flow/boundary_open.hpp"
#include "flow/lanes/ends_lanes.hpp"
#include "flow/profile.hpp"
#include "reference/flow/rig.hpp"
#include "unit/support/every_machine.hpp"

namespace portwright::flow {
namespace {

using bench::on_every_machine;

constexpr int passed_gas_u = int{passed_gas} + at_u, passed_gas_p = int{passed_gas} + at_p;

/// One end as boundary_open takes it.
struct End {
  Primitive inner;
  Reservoir room;
  double opening, guess;
};

/// Ends of ducts with one area, as many as a vector takes and one at either side.
template <class T>
struct Ends {
  gas::WorkingGas gas = reference::engine_gas();
  Duct duct;
  WorkingGasLanes<T> gases;
  DuctLanes<T> ducts;
  ScratchLanes<T> scratch{2};
  ContentsLanes<T> contents{2};
  Table<T> doors{2, door_columns, lanes_of_machine<T>()}, passed{2, passed_columns, lanes_of_machine<T>()};
  std::vector<End> ends = std::vector<End>(2 * static_cast<std::size_t>(lanes_of_machine<T>()));

  static Duct pipe() {
    const Station stations[] = {{0.0, 2e-4}, {0.02, 2e-4}};
    Duct out;
    out.grid = make_grid(stations, 0.01);
    return out;
  }
  Ends() : duct(pipe()), ducts(duct) {
    for (int lane = 0; lane < lanes_of_machine<T>(); ++lane) gases.set(lane, gas);
  }

  /// Kept in the numbers that the lanes hold, so that float is asked of what it was given.
  void set(int lane, int end, End one) {
    const int side = end == near_end ? 0 : 3;
    const auto put = [lane](Table<T>& table, int row, int column, double& number) {
      table.at(row, column, lane) = static_cast<T>(number);
      number = double{table.at(row, column, lane)};
    };
    double u = end == near_end ? -one.inner.u : one.inner.u;
    put(scratch.side, side, side_rho, one.inner.rho);
    put(scratch.side, side, side_u, u);
    one.inner.u = end == near_end ? -u : u;
    put(scratch.side, side, side_p, one.inner.p);
    put(scratch.side, side, side_fresh, one.inner.fresh);
    put(scratch.side, side, side_fuel, one.inner.fuel);
    put(doors, end, door_p, one.room.p);
    put(doors, end, door_T, one.room.T);
    put(doors, end, door_fresh, one.room.fresh);
    put(doors, end, door_fuel, one.room.fuel);
    put(doors, end, door_opening, one.opening);
    put(doors, end, door_guess, one.guess);
    ends[static_cast<std::size_t>(2 * lane + end)] = one;
  }
  void pass() { pass_ends(gases, ducts, doors, scratch, contents, passed); }

  [[nodiscard]] EndFlow alone(int lane, int end) const {
    const End& one = ends[static_cast<std::size_t>(2 * lane + end)];
    return boundary_open(gas, one.inner, one.room, duct.grid.area.front(), one.opening, one.guess);
  }
  [[nodiscard]] double out(int end, int column, int lane) const { return double{passed.at(end, column, lane)}; }

  /// Greatest differences from the one engine's end, of what each quantity is there at most: flux, and the gas there.
  struct Apart {
    double flux = 0.0, gas = 0.0;
  };
  [[nodiscard]] Apart apart(int lane, int end) const {
    const End& one = ends[static_cast<std::size_t>(2 * lane + end)];
    const Thermo t = thermo(gas, one.inner);
    const double stream = std::max(one.inner.rho * t.sound, one.room.p / std::sqrt(287.0 * one.room.T));
    const double p = one.inner.p + one.room.p, heat = 1e6, dense = one.inner.rho + one.room.p / (287.0 * one.room.T);
    const EndFlow e = alone(lane, end);
    const double expected[] = {e.flux.mass, e.flux.momentum, e.flux.energy, e.flux.fresh, e.flux.fuel,
                               e.gas.rho,   e.gas.u,         e.gas.p,       e.gas.fresh,  e.gas.fuel};
    const double most[] = {stream, p, stream * heat, stream, stream, dense, t.sound, p, 1.0, 1.0};
    Apart worst;
    if (out(end, passed_floors, lane) != e.floors) worst.flux = 1e300;
    for (int k = 0; k < 10; ++k) {
      const double off = std::abs(out(end, k, lane) - expected[k]) / most[k];
      double& kept = k < passed_gas ? worst.flux : worst.gas;
      kept = std::isfinite(off) ? std::max(kept, off) : 1e300;
    }
    return worst;
  }
};

double between(std::mt19937_64& chance, double a, double b) { return std::uniform_real_distribution<>(a, b)(chance); }

/// Any gas against any room: at rest and faster than sound either way, level and choked, shut and wider than the duct.
End drawn(std::mt19937_64& chance) {
  const auto draw = [&](double a, double b) { return between(chance, a, b); };
  End out;
  const double fresh = draw(0.0, 1.0), in_room = draw(0.0, 1.0);
  const bool slow = draw(0.0, 1.0) < 0.5;
  out.inner = {draw(0.2, 4.0), slow ? draw(-50.0, 50.0) : draw(-400.0, 700.0), draw(4e4, 5e5), fresh, 0.06 * fresh};
  const bool near = draw(0.0, 1.0) < 0.3, hot = draw(0.0, 1.0) < 0.3;
  out.room = {near ? out.inner.p * draw(0.98, 1.02) : draw(3e4, hot ? 4e6 : 4e5), draw(280.0, 2200.0), in_room,
              0.05 * in_room};
  const double wide = draw(0.0, 1.0);
  out.opening = wide < 0.1 ? 0.0 : wide < 0.3 ? 2e-4 : wide < 0.6 ? draw(0.0, 2e-4) : draw(0.0, 3e-4);
  out.guess = out.inner.p * (draw(0.0, 1.0) < 0.1 ? draw(0.1, 10.0) : draw(0.8, 1.2));
  return out;
}

/// Greatest differences of all lanes over so many draws.
template <class T>
Ends<double>::Apart worst_of(int draws, unsigned seed) {
  std::mt19937_64 chance(seed);
  Ends<T> ends;
  Ends<double>::Apart worst;
  for (int i = 0; i < draws; ++i) {
    for (int lane = 0; lane < lanes_of_machine<T>(); ++lane)
      for (const int end : {near_end, far_end}) ends.set(lane, end, drawn(chance));
    ends.pass();
    for (int lane = 0; lane < lanes_of_machine<T>(); ++lane)
      for (const int end : {near_end, far_end}) {
        const auto apart = ends.apart(lane, end);
        worst = {std::max(worst.flux, apart.flux), std::max(worst.gas, apart.gas)};
      }
  }
  return worst;
}

/// Flux, as near as the searches' own bounds. The gas there is known less well: where the duct carries its most, at its
/// sound, the flow hardly tells one pressure from another.
constexpr double flux_alike = 1e-12, gas_alike = 1e-11, coarse_flux_alike = 1e-4, coarse_gas_alike = 2e-3;

TEST(ends_lanes, each_is_the_end_by_itself_on_every_machine) {
  on_every_machine([] {
    const auto fine = worst_of<double>(1500, 1);
    EXPECT_LT(fine.flux, flux_alike);
    EXPECT_LT(fine.gas, gas_alike);
    const auto coarse = worst_of<float>(500, 2);
    EXPECT_LT(coarse.flux, coarse_flux_alike);
    EXPECT_LT(coarse.gas, coarse_gas_alike);
  });
}

TEST(ends_lanes, leave_flux_and_gas_where_the_duct_takes_them) {
  Ends<double> ends;
  std::mt19937_64 chance(4);
  for (int lane = 0; lane < lanes_of_machine<double>(); ++lane)
    for (const int end : {near_end, far_end}) ends.set(lane, end, drawn(chance));
  ends.pass();
  for (int lane = 0; lane < lanes_of_machine<double>(); ++lane)
    for (const int end : {near_end, far_end}) {
      const int face = end == near_end ? 0 : 2;
      const double outward = end == near_end ? -1.0 : 1.0;
      EXPECT_EQ(ends.scratch.flux.at(face, flux_mass, lane), outward * ends.out(end, passed_mass, lane));
      EXPECT_EQ(ends.scratch.flux.at(face, flux_momentum, lane), ends.out(end, passed_momentum, lane));
      EXPECT_EQ(ends.scratch.flux.at(face, flux_energy, lane), outward * ends.out(end, passed_energy, lane));
      EXPECT_EQ(ends.contents.end.at(end, at_u, lane), outward * ends.out(end, passed_gas_u, lane));
      EXPECT_EQ(ends.contents.end.at(end, at_p, lane), ends.out(end, passed_gas_p, lane));
    }
}

TEST(ends_lanes, hold_at_their_edges) {
  const Primitive w{1.2, 0.0, 1e5, 0.9, 0.05};
  const double sound = thermo(reference::engine_gas(), w).sound;
  const auto moving = [&](double mach) {
    Primitive out = w;
    out.u = mach * sound;
    return out;
  };
  const Reservoir level{1e5, 300.0, 1.0, 0.0}, low{2e4, 300.0, 1.0, 0.0}, high{9e5, 600.0, 1.0, 0.0};
  const End edges[] = {
      {w, level, 1e-4, 1e5},          // at rest and level
      {w, high, 0.0, 1e5},            // shut
      {w, level, 0.0, 1e5},           // shut and level
      {moving(0.3), low, 2e-4, 1e5},  // leaves at its sound through a full opening
      {moving(0.3), low, 1e-4, 5e4},  // the opening chokes
      {moving(1.4), low, 2e-4, 1e5},  // outruns every wave
      {moving(1.4), low, 1e-5, 1e5},  // would, but for the opening
      {moving(0.999999999), low, 2e-4, 1e5},
      {moving(-0.2), high, 2e-4, 2e5},  // comes in at its sound
      {moving(-0.5), high, 2e-5, 1e5},  // a jet that spreads
      {moving(-3.0), high, 1e-6, 1e5},  // into a duct that all but empties itself
      {moving(1e-9), level, 2e-4, 1e5},
      {moving(0.1), {1e5, 300.0, 1.0, 0.0}, 1e-12, 1e9},  // all but shut, a start from nowhere
  };
  // Each beside the others, in every lane once.
  Ends<double> ends;
  for (std::size_t turned = 0; turned < std::size(edges); ++turned) {
    const auto edge = [&](int lane, int end) -> const End& {
      return edges[(turned + static_cast<std::size_t>(2 * lane + end)) % std::size(edges)];
    };
    for (int lane = 0; lane < lanes_of_machine<double>(); ++lane)
      for (const int end : {near_end, far_end}) ends.set(lane, end, edge(lane, end));
    ends.pass();
    for (int lane = 0; lane < lanes_of_machine<double>(); ++lane)
      for (const int end : {near_end, far_end}) {
        const auto apart = ends.apart(lane, end);
        EXPECT_LT(apart.flux, flux_alike) << "u " << edge(lane, end).inner.u << " room " << edge(lane, end).room.p;
        EXPECT_LT(apart.gas, gas_alike) << "u " << edge(lane, end).inner.u << " room " << edge(lane, end).room.p;
      }
  }
}

TEST(ends_lanes, hold_where_the_opening_is_all_but_as_wide_as_the_duct) {
  Ends<double> ends;
  const double sound = thermo(ends.gas, {1.2, 0.0, 1e5, 0.9, 0.05}).sound;
  int lane = 0;
  for (const double share : {0.9, 0.99, 0.9999, 1.0 - 1e-9, 1.0 - 1e-13})
    for (const double mach : {1e-6, 1e-3, 0.1, 0.5, 0.9})
      for (const double room : {0.98e5, 1.0e5, 1.1e5}) {
        const End one{{1.2, mach * sound, 1e5, 0.9, 0.05}, {room, 300.0, 1.0, 0.0}, share * 2e-4, 1.02e5};
        lane = (lane + 1) % lanes_of_machine<double>();
        ends.set(lane, near_end, one);
        ends.set(lane, far_end, one);
        ends.pass();
        EXPECT_LT(ends.apart(lane, far_end).flux, flux_alike) << share << " " << mach << " " << room;
        // The flow's slope falls toward nothing there: the pressure is known to its root.
        EXPECT_LT(ends.apart(lane, near_end).gas, 1e-7) << share << " " << mach << " " << room;
      }
}

TEST(ends_lanes, hang_neither_on_the_start_nor_on_their_neighbours) {
  std::mt19937_64 chance(6);
  Ends<double> ends, other;
  for (int i = 0; i < 500; ++i) {
    for (int lane = 0; lane < lanes_of_machine<double>(); ++lane)
      for (const int end : {near_end, far_end}) {
        const End one = drawn(chance);
        ends.set(lane, end, one);
        other.set(lane, end, lane == 0 ? one : drawn(chance));
      }
    ends.pass();
    other.pass();
    for (const int end : {near_end, far_end})
      for (int column = 0; column < passed_columns; ++column)
        EXPECT_EQ(ends.out(end, column, 0), other.out(end, column, 0)) << column;
    End again = ends.ends[1];
    again.guess = 1.0;
    other.set(0, far_end, again);
    other.pass();
    EXPECT_NEAR(other.out(far_end, passed_gas_p, 0), ends.out(far_end, passed_gas_p, 0),
                1e-12 * (again.inner.p + again.room.p));
  }
}

}  // namespace
}  // namespace portwright::flow
