#include "desk/book/between.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <stdexcept>
#include <vector>

namespace {

using namespace portwright::desk;

TEST(between, alike_saws_have_no_spread_and_the_weighted_mean) {
  const std::vector<Measured> saws{{10.0, 1.0}, {10.3, 1.0}, {9.9, 1.0}};
  const Between all = between(saws);
  EXPECT_EQ(all.spread, 0.0);
  EXPECT_NEAR(all.mean, 30.2 / 3.0, 1e-12);
  EXPECT_NEAR(all.mean_sigma, 1.0 / std::sqrt(3.0), 1e-12);
}

// Own arithmetic: equal errors s, so the excess is that of the plain sample variance over s².
TEST(between, with_equal_errors_the_spread_is_the_sample_variance_less_the_error) {
  const std::vector<Measured> saws{{100.0, 0.5}, {103.0, 0.5}, {104.0, 0.5}, {99.0, 0.5}};
  const double variance = (1.5 * 1.5 + 1.5 * 1.5 + 2.5 * 2.5 + 2.5 * 2.5) / 3.0;
  EXPECT_NEAR(between(saws).spread, std::sqrt(variance - 0.25), 1e-12);
}

TEST(between, the_spread_is_found_again_in_drawn_saws) {
  std::mt19937 random(7);
  std::normal_distribution<double> normal;
  double sum = 0.0;
  constexpr int rounds = 2000;
  for (int round = 0; round < rounds; ++round) {
    std::vector<Measured> saws;
    for (int i = 0; i < 6; ++i) {
      const double sigma = 0.3 + 0.1 * i;
      saws.push_back({50.0 + normal(random) * 1.0 + normal(random) * sigma, sigma});
    }
    const double spread = between(saws).spread;
    sum += spread * spread;
  }
  EXPECT_NEAR(sum / rounds, 1.0, 0.06);
}

TEST(apart, one_saw_is_held_against_the_mean_of_the_others) {
  const std::vector<Measured> saws{{101.5, 0.3}, {103.0, 0.4}, {103.0, 0.4}};
  const Measured off = apart(saws, 0);
  EXPECT_NEAR(off.value, -1.5, 1e-12);
  EXPECT_NEAR(off.sigma, std::sqrt(0.09 + 0.08), 1e-12);
}

TEST(apart, the_range_of_a_difference_holds_nothing_for_alike_saws_19_times_of_20) {
  std::mt19937 random(11);
  std::normal_distribution<double> normal;
  int outside = 0;
  constexpr int rounds = 4000;
  for (int round = 0; round < rounds; ++round) {
    std::vector<Measured> saws;
    for (int i = 0; i < 4; ++i) saws.push_back({normal(random) * 0.5, 0.5});
    const Measured off = apart(saws, 0);
    outside += std::abs(off.value) > 1.96 * off.sigma ? 1 : 0;
  }
  EXPECT_LT(outside / static_cast<double>(rounds), 0.055);
  EXPECT_GT(outside / static_cast<double>(rounds), 0.030);
}

TEST(between, values_without_an_error_and_too_few_saws_are_no_trouble) {
  const std::vector<Measured> exact{{7.0, 0.0}, {7.0, 0.0}};
  EXPECT_EQ(between(exact).spread, 0.0);
  EXPECT_TRUE(std::isfinite(apart(exact, 1).sigma));
  EXPECT_THROW((void)between({}), std::invalid_argument);
  EXPECT_THROW((void)apart(std::vector<Measured>{{1.0, 1.0}}, 0), std::invalid_argument);
}

}  // namespace
