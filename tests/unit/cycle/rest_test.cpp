// The test switch that puts the intake to rest at every BDC.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "cycle/turn.hpp"
#include "unit/support/sample_engines.hpp"

namespace portwright::cycle {
namespace {

/// Greatest distance of the tract's pressure at the case from the day's, a few degrees behind BDC, before a wave from
/// the mouth can be there [Pa].
double apart_behind_bdc(const Network& net, bool rests) {
  Pace pace;
  pace.rests_at_bdc = rests;
  March march(net, 150.0, pace);
  State state = march.cold();
  for (int i = 0; i < 4; ++i) {
    Turn turn = march.empty_turn();
    march.turn(state, turn);
  }
  Turn turn = march.empty_turn();
  std::vector<Instant> instants;
  march.turn(state, turn, {}, &instants);
  const double bdc = net.slider.bdc(), degree = 0.0174532925199;
  double apart = 0.0;
  for (const Instant& now : instants)
    if (now.angle > bdc + 1.5 * degree && now.angle < bdc + 6.0 * degree)
      apart = std::max(apart, std::abs(now.tract - net.day.p));
  return apart;
}

TEST(rest_at_bdc, leaves_no_wave_in_the_tract) {
  const Network net = bench::sample_network("alder-60");
  EXPECT_GT(apart_behind_bdc(net, false), 100.0) << "the tract rings on where it may";
  EXPECT_LT(apart_behind_bdc(net, true), 1.0);
}

TEST(rest_at_bdc, shuts_the_petals_too) {
  const Network net = bench::sample_network("spruce-92");
  Pace pace;
  pace.rests_at_bdc = true;
  March march(net, 150.0, pace);
  State state = march.cold();
  Turn turn = march.empty_turn();
  std::vector<Instant> instants;
  march.turn(state, turn, {}, &instants);
  const double bdc = net.slider.bdc(), degree = 0.0174532925199;
  double lift = 0.0;
  for (const Instant& now : instants)
    if (now.angle > bdc + 1.1 * degree && now.angle < bdc + 3.0 * degree) lift = std::max(lift, now.reed_lift);
  EXPECT_LT(lift, 0.2e-3);
}

}  // namespace
}  // namespace portwright::cycle
