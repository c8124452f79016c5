// The turn that repeats, and what a turn costs.
#include <gtest/gtest.h>

#include <cmath>

#include "cycle/point.hpp"
#include "unit/support/allocations.hpp"
#include "unit/support/sample_engines.hpp"

namespace portwright::cycle {
namespace {

TEST(settle, finds_a_turn_that_repeats) {
  const Network net = bench::sample_network("alder-60");
  March march(net, 150.0);
  State state = march.cold();
  Settled settled;
  settle(march, state, {}, settled);
  EXPECT_EQ(settled.label, Label::stable);
  EXPECT_LT(settled.error, Search{}.tolerance);
  EXPECT_LT(settled.multiplier, 0.995);
  const double found = net_pressure(net, settled.turn);
  for (int i = 0; i < 20; ++i) {
    settled.turn = march.empty_turn();
    march.turn(settled.state, settled.turn);
  }
  EXPECT_NEAR(net_pressure(net, settled.turn) / found, 1.0, 2.0 * Search{}.tolerance);
}

TEST(settle, from_its_own_answer_takes_no_more_than_the_proof) {
  const Network net = bench::sample_network("alder-60");
  March march(net, 150.0);
  State state = march.cold();
  Settled first, second;
  const Search search;
  settle(march, state, search, first);
  State again = first.state;
  settle(march, again, search, second);
  EXPECT_LE(second.turns, search.plain_turns + 3 + 2 * search.proof_turns);
  EXPECT_LT(second.turns, first.turns);
  EXPECT_NEAR(net_pressure(net, second.turn) / net_pressure(net, first.turn), 1.0, search.tolerance);
}

TEST(settle, gives_up_after_its_turns_with_the_best_so_far) {
  const Network net = bench::sample_network("alder-60");
  for (const int most : {4, 6}) {
    March march(net, 150.0);
    State state = march.cold();
    Settled settled;
    Search search;
    search.most_turns = most;
    settle(march, state, search, settled);
    EXPECT_LE(settled.turns, most + 2 * search.proof_turns);
    EXPECT_EQ(settled.label, Label::not_settled);
    EXPECT_GT(settled.error, search.tolerance);
    EXPECT_TRUE(std::isfinite(net_pressure(net, settled.turn)));
    EXPECT_FALSE(settled.state.rooms.empty());
  }
}

TEST(turn, asks_for_no_memory) {
  for (const char* name : {"alder-60", "larch-70"}) {
    const Network net = bench::sample_network(name);
    March march(net, 150.0);
    State state = march.cold();
    Turn turn = march.empty_turn();
    march.turn(state, turn);
    const long before = bench::allocations();
    march.turn(state, turn);
    march.turn(state, turn, {1.1, 0.95, 1.01});
    EXPECT_EQ(bench::allocations(), before) << name;
  }
}

TEST(turn, ends_where_it_began) {
  const Network net = bench::sample_network("alder-60");
  March march(net, 150.0);
  State state = march.cold();
  Turn turn = march.empty_turn();
  std::vector<Instant> instants;
  march.turn(state, turn, {}, &instants);
  EXPECT_EQ(state.angle, net.start);
  EXPECT_GE(static_cast<int>(instants.size()), 360);
  EXPECT_LE(static_cast<int>(instants.size()), turn.steps);
  for (std::size_t i = 2; i + 1 < instants.size(); ++i) EXPECT_GT(instants[i].angle, instants[i - 1].angle);
  for (const Instant& now : instants) {
    EXPECT_GT(now.cylinder, 0.0);
    EXPECT_GT(now.crankcase, 0.0);
    EXPECT_GE(now.purity, 0.0);
    EXPECT_LE(now.purity, 1.0);
  }
}

TEST(turn, without_fire_does_no_more_work_than_it_takes) {
  Network net = bench::sample_network("alder-60");
  net.fires = false;
  March march(net, 50.0);
  State state = march.cold();
  Turn turn;
  for (int i = 0; i < 4; ++i) {
    turn = march.empty_turn();
    march.turn(state, turn);
  }
  EXPECT_EQ(turn.burn_heat, 0.0);
  EXPECT_EQ(turn.fuel_burnt, 0.0);
  EXPECT_LT(net_pressure(net, turn), 0.0);
}

TEST(point, brake_is_indicated_less_what_is_stated_as_lost) {
  const Network net = bench::sample_network("alder-60");
  March march(net, 150.0);
  State state = march.cold();
  Settled settled;
  settle(march, state, {}, settled);
  const Point p = point_of(net, 150.0, settled.turn);
  EXPECT_DOUBLE_EQ(p.bmep, p.imep - lost_pressure(net, 150.0));
  EXPECT_NEAR(p.power, p.bmep * net.swept * 150.0, 1e-9);
  EXPECT_NEAR(p.torque * 2.0 * 3.14159265358979 * 150.0, p.power, 1e-6);
  // Charging over delivery is what stays of what was drawn, both of the day's air; trapping counts what was delivered.
  EXPECT_NEAR(p.charging / p.delivery_ratio, p.trapping, 0.05);
  EXPECT_GT(p.fuel_lost, 0.0);
  EXPECT_LT(p.fuel_lost, 1.0);
}

TEST(point, losses_grow_with_speed) {
  const Network net = bench::sample_network("alder-60");
  double last = 0.0;
  for (const double speed : {10.0, 50.0, 100.0, 200.0}) {
    EXPECT_GT(lost_pressure(net, speed), last);
    last = lost_pressure(net, speed);
  }
}

}  // namespace
}  // namespace portwright::cycle
