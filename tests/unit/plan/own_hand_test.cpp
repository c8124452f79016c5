#include "plan/own_hand.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <vector>

namespace portwright::plan {
namespace {

TEST(own_hand, without_pairs_is_the_default) {
  const OwnHand none = own_hand({}, 0.1e-3);
  EXPECT_EQ(none.sigma, 0.1e-3);
  EXPECT_EQ(none.cuts, 0);
  EXPECT_FALSE(none.leans);
}

TEST(own_hand, is_the_default_and_the_differences_by_their_weights) {
  // (10 x 0.1² + 0.05² + 0.07² + 0.06²) / 13 = 0.1110 / 13 = 0.0085385; its root 0.092404.
  const std::vector<double> past = {0.05e-3, -0.07e-3, 0.06e-3};
  EXPECT_NEAR(own_hand(past, 0.1e-3).sigma, 0.092404e-3, 1e-9);
  EXPECT_NEAR(own_hand(past, 0.1e-3).mean, 0.013333e-3, 1e-9);
  EXPECT_EQ(own_hand(past, 0.1e-3).cuts, 3);
}

TEST(own_hand, comes_to_the_true_scatter_with_many_cuts) {
  std::mt19937 dice(5);
  for (const double truth : {0.07e-3, 0.2e-3}) {
    std::normal_distribution<double> cut(0.0, truth);
    std::vector<double> past(400);
    for (double& one : past) one = cut(dice);
    // The prior's ten weigh 2 %; 400 differences know a sigma to 3.5 %.
    EXPECT_NEAR(own_hand(past, 0.1e-3).sigma, truth, 0.1 * truth);
    EXPECT_FALSE(own_hand(past, 0.1e-3).leans);
  }
}

TEST(own_hand, one_slip_does_not_make_a_hand) {
  std::vector<double> past = {0.05e-3, -0.06e-3, 0.04e-3, -0.05e-3, 0.07e-3, -0.03e-3, 0.06e-3, 0.05e-3};
  const double without = own_hand(past, 0.1e-3).sigma;
  past.push_back(5e-3);  // another thing was cut
  const double with = own_hand(past, 0.1e-3).sigma;
  // Counts as three times the default, 0.3 mm: (0.1 + 0.02 + 0.09) / 19.
  EXPECT_LT(with, 0.11e-3);
  EXPECT_GT(with, without);
}

TEST(own_hand, who_goes_past_by_habit_is_told_and_not_taken_for_sure) {
  const std::vector<double> past(20, 0.15e-3);
  const OwnHand hand = own_hand(past, 0.1e-3);
  EXPECT_TRUE(hand.leans);
  EXPECT_NEAR(hand.mean, 0.15e-3, 1e-12);
  EXPECT_GT(hand.sigma, 0.1e-3);
  EXPECT_NEAR(own_hand(std::vector<double>(20, -0.15e-3), 0.1e-3).mean, -0.15e-3, 1e-12);
}

TEST(own_hand, is_never_surer_than_half_the_default) {
  EXPECT_EQ(own_hand(std::vector<double>(500, 0.001e-3), 0.1e-3).sigma, 0.05e-3);
}

TEST(own_hand, pairs_are_matched_place_by_place) {
  const auto planned = *cuts::parse_cuts("base -0.38 mm; widen exhaust +1 mm; base -0.05 mm; roof primary +0.4 mm");
  const auto done = *cuts::parse_cuts(
      "gasket out; base -0.3 mm; base -0.06 mm; roof exhaust +1 mm; widen exhaust +1.1 mm; "
      "roof primary +0.4 mm");
  const auto pairs = pairs_of(planned, done);
  // No pair for the gasket and for what no plan had; none for a roof that came to the very number.
  ASSERT_EQ(pairs.size(), 3u);
  EXPECT_NEAR(pairs[0].past(), -0.08e-3, 1e-12);
  EXPECT_NEAR(pairs[1].past(), 0.01e-3, 1e-12);
  EXPECT_NEAR(pairs[2].past(), 0.1e-3, 1e-12);
  EXPECT_EQ(tool_of(pairs[0].cut), Tool::turned);
  EXPECT_EQ(tool_of(pairs[2].cut), Tool::ground);
}

}  // namespace
}  // namespace portwright::plan
