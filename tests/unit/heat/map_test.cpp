// Order and sign, as docs/models/heat.md had them before the first run; what came out otherwise stands there too.
#include <gtest/gtest.h>

#include <chrono>
#include <cmath>

#include "cycle/cylinder.hpp"
#include "unit/heat/warm.hpp"

namespace portwright::heat {
namespace {

int hottest_cell(const Map& map) {
  return static_cast<int>(std::max_element(map.wall.begin(), map.wall.end()) - map.wall.begin());
}
double degrees(const Shell& shell, int cell) { return shell.angle(cell % shell.around) / rad; }

TEST(gas_side, its_exposures_give_the_heat_that_the_cycle_itself_summed) {
  const GasSide& gas = alder().gas;
  double heat = cycle::ends_of_piston_area * gas.piston_area * (gas.ends.pull - gas.ends.film * gas.wall);
  for (const Exposure& slice : gas.slices)
    heat += std::numbers::pi * gas.bore * gas.slice * (slice.pull - slice.film * gas.wall);
  // Films are read at the end of a step, the cycle has them in its middle: a step is under one degree.
  EXPECT_NEAR(heat / gas.into_wall, 1.0, 0.01);
}

TEST(gas_side, the_wall_gets_less_the_lower_it_lies) {
  const GasSide& gas = alder().gas;
  for (std::size_t i = 0; i + 1 < gas.slices.size(); ++i) EXPECT_GE(gas.slices[i].film, gas.slices[i + 1].film);
  EXPECT_GE(gas.ends.film, gas.slices.front().film);
  EXPECT_DOUBLE_EQ(gas.over(-0.01, 0.0).film, gas.ends.film);
  EXPECT_EQ(gas.over(gas.stroke + 0.002, gas.stroke + 0.01).film, 0.0);
}

TEST(map, heat_in_is_heat_out) {
  const Map map = map_of(alder().body, alder().gas, fins_but(150, 210));
  EXPECT_LT(std::abs(map.balance.residual()), 1e-10);
  const HeatFlows& f = map.flows;
  const double in = f.gas_to_head + f.gas_to_bore + f.gas_to_crown + f.ducts_to_wall + f.rubbed;
  const double out = f.wall_to_air + f.head_to_air + f.flange_to_case + f.piston_to_charge;
  EXPECT_NEAR(in / out, 1.0, 1e-10);
  EXPECT_NEAR((f.gas_to_crown + 0.5 * f.rubbed) / (f.piston_to_wall + f.piston_to_charge), 1.0, 1e-9);
}

TEST(map, evenly_finned_it_is_hottest_by_the_exhaust_or_above_it) {
  for (const char* name : {"alder-60", "larch-70", "oak-110"}) {
    const bench::SampleEngine engine = bench::sample_engine(name);
    const Body body = body_of(engine.engine);
    const GasSide gas = changed([](geometry::Engine&) {}, 9000.0, name);
    const Map map = map_of(body, gas, fins_but(0, 0));
    EXPECT_LT(std::abs(degrees(body.shell, hottest_cell(map))), 45.0) << name;
    EXPECT_LT(body.shell.drop(hottest_cell(map) / body.shell.around), body.exhaust_floor) << name;
    // Round the bore at every height of the exhaust the metal beside it is hotter than that of the far side.
    const int far = body.shell.around / 2, row = static_cast<int>(body.exhaust_roof / body.shell.row_height()) - 1;
    EXPECT_GT(map.wall[static_cast<std::size_t>(body.shell.cell(row, 0))],
              map.wall[static_cast<std::size_t>(body.shell.cell(row, far))])
        << name;
  }
}

TEST(map, fins_missing_on_the_far_side_turn_the_heat_there) {
  const Body& body = alder().body;
  const Map even = map_of(body, alder().gas, fins_but(0, 0)), gap = map_of(body, alder().gas, fins_but(150, 210));
  double greatest_rise = 0.0, across = 0.0;
  int where = 0;
  for (int i = 0; i < body.shell.cells(); ++i) {
    const double rise = gap.wall[static_cast<std::size_t>(i)] - even.wall[static_cast<std::size_t>(i)];
    EXPECT_GT(rise, 0.0);
    if (rise > greatest_rise) greatest_rise = rise, where = i;
    if (std::abs(degrees(body.shell, i)) < 5.0) across = std::max(across, rise);
  }
  EXPECT_GT(std::abs(degrees(body.shell, where)), 150.0);
  EXPECT_GT(greatest_rise, across);
  EXPECT_GT(greatest_rise, 5.0);
  EXPECT_LT(greatest_rise, 60.0);
  EXPECT_GT(greatest(gap.wall), greatest(even.wall) + 5.0);
}

// The hottest place of the whole bore, evenly finned by the exhaust, on every sample and for a gap on every other side.
TEST(map, fins_missing_over_sixty_degrees_turn_the_hottest_place_into_the_gap) {
  for (const char* name : {"alder-60", "larch-70", "oak-110", "spruce-92"}) {
    const bench::SampleEngine sample = bench::sample_engine(name);
    const Body body = body_of(sample.engine);
    const GasSide gas = changed([](geometry::Engine&) {}, 60.0 * *sample.engine.in_cut, name);
    const Map even = map_of(body, gas, fins_but(0, 0));
    EXPECT_LT(std::abs(degrees(body.shell, hottest_cell(even))), 60.0) << name;
    for (const double middle : {90.0, 180.0, 270.0}) {
      const Map gap = map_of(body, gas, fins_but(middle - 30.0, middle + 30.0));
      const double off = std::remainder(degrees(body.shell, hottest_cell(gap)) - middle, 360.0);
      EXPECT_LT(std::abs(off), 30.0) << name << ' ' << middle;
      const double rise = greatest(gap.wall) - greatest(even.wall);
      EXPECT_GT(rise, 5.0) << name << ' ' << middle;
      EXPECT_LT(rise, 60.0) << name << ' ' << middle;
    }
  }
}

TEST(map, fins_missing_at_the_exhaust_keep_the_hottest_place_there_and_raise_it) {
  const Body& body = alder().body;
  const Map even = map_of(body, alder().gas, fins_but(0, 0)), gap = map_of(body, alder().gas, fins_but(-30, 30));
  EXPECT_LT(std::abs(degrees(body.shell, hottest_cell(gap))), 60.0);
  EXPECT_GT(greatest(gap.wall) - greatest(even.wall), 5.0);
  EXPECT_LT(greatest(gap.wall) - greatest(even.wall), 60.0);
}

TEST(map, a_mirrored_gap_gives_a_mirrored_map) {
  // Larch is the same on both sides; alder's second transfers are a degree apart.
  const Body body = body_of(bench::sample_engine("larch-70").engine);
  const GasSide gas = changed([](geometry::Engine&) {}, 9000.0, "larch-70");
  const Map one = map_of(body, gas, fins_but(60, 120)), other = map_of(body, gas, fins_but(-120, -60));
  for (int row = 0; row < body.shell.rows; ++row)
    for (int column = 0; column < body.shell.around; ++column)
      EXPECT_NEAR(one.wall[static_cast<std::size_t>(body.shell.cell(row, column))],
                  other.wall[static_cast<std::size_t>(body.shell.cell(row, -1 - column))], 1e-6);
}

TEST(map, a_leaner_mixture_is_hotter) {
  const Cooling fins = fins_but(0, 0);
  const auto mixed = [&](double air_fuel) {
    return map_of(alder().body, changed([&](geometry::Engine& e) { e.breathing.air_fuel = air_fuel; }), fins);
  };
  const Map rich = mixed(12.8), lean = mixed(13.8);
  EXPECT_GT(lean.head, rich.head);
  EXPECT_GT(lean.piston.crown, rich.piston.crown);
  EXPECT_GT(greatest(lean.wall), greatest(rich.wall));
}

TEST(map, more_advance_is_hotter_and_less_sends_heat_out_with_the_exhaust) {
  const Cooling fins = fins_but(0, 0);
  const auto sparked = [&](double later) {
    return changed([&](geometry::Engine& e) { e.advance = e.advance.value_or(26.0 * rad) - later * rad; });
  };
  const GasSide early = sparked(-4.0), late = sparked(4.0), &stock = alder().gas;
  const Map hot = map_of(alder().body, early, fins), was = map_of(alder().body, stock, fins);
  EXPECT_GT(hot.head, was.head);
  EXPECT_GT(hot.piston.crown, was.piston.crown);
  EXPECT_GT(hot.wall[0], was.wall[0]);
  EXPECT_LT(late.into_wall / late.burnt, stock.into_wall / stock.burnt);
  EXPECT_GT(late.exhaust_temperature, stock.exhaust_temperature);
}

TEST(map, an_earlier_exhaust_sends_heat_out_instead_of_into_the_wall) {
  const GasSide raised = changed([](geometry::Engine& e) {
    for (geometry::Port& port : e.ports)
      if (port.kind == geometry::PortKind::exhaust) {
        port.roof = port.roof - geometry::Known(0.002);
        geometry::shift_timing(port, geometry::Known(-0.002));
        ASSERT_EQ(geometry::rebuild_window(port, e.bore), geometry::ShapeFault::none);
      }
  });
  const GasSide& stock = alder().gas;
  EXPECT_LT(raised.into_wall / raised.burnt, stock.into_wall / stock.burnt);
  EXPECT_GT(raised.exhaust_temperature, stock.exhaust_temperature);
}

TEST(map, more_speed_puts_more_heat_into_the_walls) {
  for (const char* name : {"alder-60", "spruce-92"}) {
    const GasSide slow = changed([](geometry::Engine&) {}, 7000.0, name);
    const GasSide fast = changed([](geometry::Engine&) {}, 9000.0, name);
    EXPECT_GT(fast.into_wall + fast.friction, slow.into_wall + slow.friction) << name;
    const Body body = body_of(bench::sample_engine(name).engine);
    Cooling unblown = fins_but(0, 0);
    unblown.fan = false;
    EXPECT_GT(map_of(body, fast, unblown).head, map_of(body, slow, unblown).head) << name;
    EXPECT_GT(greatest(map_of(body, fast, unblown).wall), greatest(map_of(body, slow, unblown).wall)) << name;
  }
}

/// A settled turn through a venturi of another bore.
struct Breath {
  GasSide gas;
  double trapped = 0.0;  ///< fresh charge of a turn [kg]
};
Breath breath_of(bench::SampleEngine sample, double rpm, double venturi) {
  sample.engine.venturi = sample.engine.venturi * base::Known(venturi);
  const cycle::Network network = bench::network_of(sample, cycle::middle_assumptions(), bench::coarse);
  const cycle::Traced traced = cycle::run_traced(network, rpm / 60.0, cycle::CurvePlan{});
  return {gas_side(network, traced), traced.turn.trapped_fresh};
}

// Written down beforehand: more rpm, hotter. It holds where a turn traps as much: the slower engine is throttled until
// it traps no more than the faster one. At full throttle an engine past its torque peak traps less the faster it turns,
// and the fan may win: see docs/models/heat.md.
TEST(map, more_speed_at_the_same_charge_is_hotter) {
  for (const char* name : {"alder-60", "larch-70", "oak-110", "spruce-92"}) {
    const bench::SampleEngine sample = bench::sample_engine(name);
    const double rpm = 60.0 * *sample.engine.in_cut;
    const Breath fast = breath_of(sample, 1.2 * rpm, 1.0);
    double low = 0.4, high = 1.0;
    Breath slow = breath_of(sample, rpm, high);
    ASSERT_GT(slow.trapped, fast.trapped) << name;
    for (int k = 0; k < 8 && std::abs(slow.trapped / fast.trapped - 1.0) > 0.01; ++k) {
      const double middle = 0.5 * (low + high);
      slow = breath_of(sample, rpm, middle);
      (slow.trapped > fast.trapped ? high : low) = middle;
    }
    ASSERT_NEAR(slow.trapped / fast.trapped, 1.0, 0.01) << name;
    const Body body = body_of(sample.engine);
    const Map was = map_of(body, slow.gas, fins_but(0, 0)), now = map_of(body, fast.gas, fins_but(0, 0));
    std::printf("%s head %+.1f hottest %+.1f groove %+.1f crown %+.1f\n", name, now.head - was.head,
                greatest(now.wall) - greatest(was.wall), now.piston.groove - was.piston.groove,
                now.piston.crown - was.piston.crown);
    EXPECT_GT(now.head, was.head + 1.0) << name;
    EXPECT_GT(greatest(now.wall), greatest(was.wall) + 1.0) << name;
    EXPECT_GT(now.piston.groove, was.piston.groove + 1.0) << name;
    EXPECT_GT(now.piston.crown, was.piston.crown + 1.0) << name;
  }
}

TEST(map, blocked_fins_are_hotter_and_most_behind_the_block) {
  Cooling blocked = fins_but(0, 0);
  blocked.block = {45.0 * rad, 135.0 * rad, 0.8};
  const Body& body = alder().body;
  const Map even = map_of(body, alder().gas, fins_but(0, 0)), map = map_of(body, alder().gas, blocked);
  const auto rise = [&](int column) {
    const auto i = static_cast<std::size_t>(body.shell.cell(3, column));
    return map.wall[i] - even.wall[i];
  };
  for (int column = 0; column < body.shell.around; ++column) {
    EXPECT_GT(rise(column), 0.0);
    EXPECT_LE(rise(column), rise(18) + 0.5);
  }
  EXPECT_GT(map.head, even.head);
}

TEST(map, more_air_is_cooler_everywhere) {
  Assumptions more = middle_assumptions();
  more.air_factor = 1.2;
  const Map was = map_of(alder().body, alder().gas, fins_but(0, 0));
  const Map now = map_of(alder().body, alder().gas, fins_but(0, 0), more);
  for (std::size_t i = 0; i < was.wall.size(); ++i) EXPECT_LT(now.wall[i], was.wall[i]);
  EXPECT_LT(now.piston.crown, was.piston.crown);
}

TEST(map, finer_cells_move_it_by_less_than_the_wall_is_known) {
  const Body coarse = body_of(alder().engine.engine, 36, 14), fine = body_of(alder().engine.engine, 144, 56);
  const Map usual = map_of(alder().body, alder().gas, fins_but(0, 0));
  const Map far = map_of(coarse, alder().gas, fins_but(0, 0)), near = map_of(fine, alder().gas, fins_but(0, 0));
  EXPECT_LT(std::abs(near.head - usual.head), 0.5);
  EXPECT_LT(std::abs(near.head - usual.head), std::abs(far.head - usual.head) + 0.05);
  EXPECT_LT(std::abs(greatest(near.wall) - greatest(usual.wall)), 4.0);
}

TEST(soak, crown_and_head_fall_at_once_and_the_base_rises_before_it_falls) {
  const Cooling fins = fins_but(0, 0);
  const auto soaked = soak({alder().body, fins, alder().gas}, middle_assumptions());
  ASSERT_TRUE(soaked);
  EXPECT_LT((*soaked)[1].head, (*soaked)[0].head);
  EXPECT_LT((*soaked)[1].crown, (*soaked)[0].crown);
  double most = 0.0;
  for (const SoakInstant& at : *soaked) most = std::max(most, at.base);
  EXPECT_GT(most, soaked->front().base + 0.3);
  EXPECT_LT(soaked->back().base, soaked->front().base);
}

#if !defined(PORTWRIGHT_SANITIZED) && defined(NDEBUG)
TEST(map, takes_at_most_five_milliseconds) {
  const Cooling fins = fins_but(0, 0);
  double best = 1e9;
  for (int i = 0; i < 15; ++i) {
    const auto from = std::chrono::steady_clock::now();
    (void)map_of(alder().body, alder().gas, fins);
    best = std::min(best, std::chrono::duration<double>(std::chrono::steady_clock::now() - from).count());
  }
  EXPECT_LT(best, 5e-3);
}
#endif

}  // namespace
}  // namespace portwright::heat
