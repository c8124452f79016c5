// The test switch that puts the intake to rest at every BDC.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "cycle/turn.hpp"
#include "unit/support/sample_engines.hpp"

namespace portwright::cycle {
namespace {

constexpr double degree = 0.0174532925199;

/// The greatest of a value a few degrees behind BDC, from the fifth turn of a cold start.
template <class Value>
double greatest_behind_bdc(const Network& net, bool rests, Value&& value) {
  Pace pace;
  pace.rests_at_bdc = rests;
  March march(net, 150.0, pace);
  State state = march.cold();
  std::vector<Instant> instants;
  for (int i = 0; i < 5; ++i) {
    Turn turn = march.empty_turn();
    instants.clear();
    march.turn(state, turn, {}, &instants);
  }
  const double bdc = net.slider.bdc();
  double greatest = 0.0;
  for (const Instant& now : instants)  // before a wave from the mouth can be there
    if (now.angle > bdc + 1.5 * degree && now.angle < bdc + 6.0 * degree) greatest = std::max(greatest, value(now));
  return greatest;
}

TEST(rest_at_bdc, leaves_no_wave_in_the_tract) {
  const Network net = bench::sample_network("alder-60");
  const auto apart = [&](const Instant& now) { return std::abs(now.tract - net.day.p); };  // at the case [Pa]
  EXPECT_GT(greatest_behind_bdc(net, false, apart), 100.0) << "the tract rings on where it may";
  EXPECT_LT(greatest_behind_bdc(net, true, apart), 1.0);
}

TEST(rest_at_bdc, holds_for_what_lies_before_the_petals_too) {
  const Network net = bench::sample_network("spruce-92");
  const auto apart = [&](const Instant& now) { return std::abs(now.tract - net.day.p); };
  EXPECT_GT(greatest_behind_bdc(net, false, apart), 100.0);
  EXPECT_LT(greatest_behind_bdc(net, true, apart), 0.5 * greatest_behind_bdc(net, false, apart));
}

}  // namespace
}  // namespace portwright::cycle
