// What a turn takes in, gives out and keeps, to the last bits: mass, energy, fresh charge and fuel over every turn of
// every sample that can turn, and the same bits whenever it is run again.
#include <gtest/gtest.h>

#include <cmath>
#include <cstring>

#include "cycle/curve.hpp"
#include "unit/support/sample_engines.hpp"

namespace portwright::cycle {
namespace {

constexpr double of_content = 1e-13;

void expect_closed(const Turn& turn) {
  EXPECT_LE(std::abs(turn.mass_residual), of_content);
  EXPECT_LE(std::abs(turn.energy_residual), of_content);
  EXPECT_LE(std::abs(turn.fresh_residual), of_content);
  EXPECT_LE(std::abs(turn.fuel_residual), of_content);
  EXPECT_EQ(turn.floors, 0);
}

void expect_closed(const Network& net, double speed, int turns) {
  March march(net, speed);
  State state = march.cold();
  Turn turn;
  for (int i = 0; i < turns; ++i) {
    SCOPED_TRACE("turn " + std::to_string(i));
    turn = march.empty_turn();
    march.turn(state, turn);
    expect_closed(turn);
  }
  EXPECT_GT(turn.steps, 300);
}

class Balance : public testing::TestWithParam<const char*> {};

TEST_P(Balance, closes_over_every_turn_from_cold_until_settled) {
  const Network net = bench::sample_network(GetParam());
  for (const double speed : {75.0, 150.0, 200.0}) {
    SCOPED_TRACE(speed * 60.0);
    expect_closed(net, speed, 10);
  }
}

INSTANTIATE_TEST_SUITE_P(samples, Balance, testing::ValuesIn(bench::running_samples), [](const auto& i) {
  std::string name = i.param;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

TEST(balance, closes_under_the_other_scavenging_law_and_with_scattered_turns) {
  Assumptions take = middle_assumptions();
  take.second_law = 1.0;
  const Network net = bench::sample_network("alder-60", take);
  March march(net, 140.0);
  State state = march.cold();
  for (const Draw& draw : common_draws(6)) {
    Turn turn = march.empty_turn();
    march.turn(state, turn, draw);
    expect_closed(turn);
  }
}

TEST(balance, closes_when_cranked_without_a_spark) {
  Network net = bench::sample_network("larch-70");
  net.fires = false;
  expect_closed(net, 15.0, 2);
}

/// Every number of a state, one after the other.
std::vector<double> numbers(const State& state) {
  std::vector<double> out;
  for (const flow::Contents& c : state.ducts)
    for (const auto* part : {&c.mass, &c.momentum, &c.energy, &c.fresh, &c.fuel})
      out.insert(out.end(), part->begin(), part->end());
  for (const flow::Volume& v : state.rooms) out.insert(out.end(), {v.mass, v.energy, v.fresh, v.fuel});
  out.insert(out.end(), state.reed.q.begin(), state.reed.q.end());
  return out;
}

TEST(same_bits, come_from_two_calls) {
  for (const char* name : {"alder-60", "larch-70"}) {
    SCOPED_TRACE(name);
    std::vector<double> first;
    for (int call = 0; call < 2; ++call) {
      const Network net = bench::sample_network(name);
      March march(net, 150.0);
      State state = march.cold();
      Settled settled;
      Search search;
      search.most_turns = 12;
      settle(march, state, search, settled);
      const std::vector<double> now = numbers(settled.state);
      if (call == 0)
        first = now;
      else
        EXPECT_EQ(std::memcmp(first.data(), now.data(), now.size() * sizeof(double)), 0);
    }
  }
}

}  // namespace
}  // namespace portwright::cycle
