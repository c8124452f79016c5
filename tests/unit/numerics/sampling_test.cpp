#include <algorithm>
#include <cmath>
#include <functional>
#include <random>
#include <stdexcept>
#include <string>

#include <gtest/gtest.h>

#include "numerics/normal.hpp"
#include "numerics/sampling.hpp"
#include "numerics/statistics.hpp"

namespace portwright::numerics {
namespace {

using Law = std::function<double(std::span<const double>)>;

double width(Range range) { return range.high - range.low; }

double width_of_draws(const Law& law, int dimension, unsigned seed) {
  const NormalDraws draws(dimension, 512, seed);
  std::vector<double> samples;
  for (int k = 0; k < 512; ++k) samples.push_back(law(draws.row(k)));
  return width(RangeEstimator(512).central95(samples));
}

/// 20,000 plain draws, and the samples nearest to the quantiles.
double width_of_plain_draws(const Law& law, int dimension) {
  std::mt19937_64 random(7);
  std::normal_distribution<double> normal;
  std::vector<double> row(static_cast<std::size_t>(dimension)), samples;
  for (int k = 0; k < 20000; ++k) {
    std::ranges::generate(row, [&] { return normal(random); });
    samples.push_back(law(row));
  }
  std::ranges::sort(samples);
  return samples[19499] - samples[500];
}

double sum(std::span<const double> x) {
  double total = 0.0;
  for (const double v : x) total += v;
  return total;
}

double fading_sum(std::span<const double> x) {
  double total = 0.0, weight = 1.0;
  for (const double v : x) total += weight * v, weight *= 0.8;
  return total;
}

TEST(ranges, from_512_draws_are_as_wide_as_from_20000_plain_ones_within_5_percent) {
  const std::vector<std::pair<std::string, Law>> laws{
      {"linear, 30 equal parts", sum},
      {"linear, 30 fading parts", fading_sum},
      {"a single variable", [](auto x) { return x[17]; }},
      {"greater of two", [](auto x) { return std::max(x[3], x[20]); }},
      {"magnitude", [](auto x) { return std::abs(x[11]); }},
      {"bent",
       [](auto x) {
         const double s = fading_sum(x) * 0.6;
         return s + 0.15 * s * s;
       }},
  };
  for (const auto& [name, law] : laws) {
    const double plain = width_of_plain_draws(law, 30);
    for (unsigned seed = 1; seed <= 8; ++seed)
      EXPECT_NEAR(width_of_draws(law, 30, seed) / plain, 1.0, 0.05) << name << ", seed " << seed;
  }
}

TEST(ranges, of_the_normal_law_itself_are_exact) {
  for (const int count : {16, 100, 512}) {
    std::vector<double> scores;
    for (int k = 0; k < count; ++k) scores.push_back(10.0 + 2.0 * normal_quantile((k + 0.5) / count));
    const Range range = RangeEstimator(count).central95(scores);
    if (count < 40) continue;  // the samples themselves end inside the range
    EXPECT_NEAR(range.low, 10.0 - 2.0 * 1.959963984540054, 1e-9);
    EXPECT_NEAR(range.high, 10.0 + 2.0 * 1.959963984540054, 1e-9);
  }
}

TEST(ranges, with_other_tails_of_the_normal_law_are_exact) {
  std::vector<double> scores;
  for (int k = 0; k < 512; ++k) scores.push_back(10.0 + 2.0 * normal_quantile((k + 0.5) / 512));
  const Range range = RangeEstimator(512).between(scores, {0.005, 0.05});
  EXPECT_NEAR(range.low, 10.0 + 2.0 * normal_quantile(0.005), 1e-9);
  EXPECT_NEAR(range.high, 10.0 - 2.0 * normal_quantile(0.05), 1e-9);
}

TEST(ranges, turn_over_with_the_samples) {
  std::vector<double> samples, turned;
  std::mt19937_64 random(3);
  std::exponential_distribution<double> law;
  for (int k = 0; k < 512; ++k) samples.push_back(law(random));
  for (const double x : samples) turned.push_back(-x);
  const Range a = RangeEstimator(512).central95(samples), b = RangeEstimator(512).central95(turned);
  EXPECT_NEAR(a.low, -b.high, 1e-12);
  EXPECT_NEAR(a.high, -b.low, 1e-12);
}

TEST(ranges, never_leave_the_samples) {
  std::vector<double> samples(512, 0.0);
  for (int k = 90; k < 512; ++k) samples[static_cast<std::size_t>(k)] = 1.0 + k;
  const Range range = RangeEstimator(512).central95(samples);
  EXPECT_GE(range.low, 0.0);
  EXPECT_LE(range.high, 512.0);
  std::vector<double> same(512, 4.2);
  const Range none = RangeEstimator(512).central95(same);
  EXPECT_EQ(none.low, 4.2);
  EXPECT_EQ(none.high, 4.2);
}

TEST(ranges, need_sixteen_samples) { EXPECT_THROW(RangeEstimator(15), std::invalid_argument); }

TEST(normal_draws, hold_the_normal_scores_in_every_column) {
  const NormalDraws draws(60, 512, 1);
  for (int column = 0; column < 60; ++column) {
    std::vector<double> values;
    for (int k = 0; k < 512; ++k) values.push_back(draws.row(k)[column]);
    std::ranges::sort(values);
    for (int k = 0; k < 512; ++k)
      EXPECT_NEAR(normal_cdf(values[static_cast<std::size_t>(k)]), (k + 0.5) / 512, 1e-12) << column;
  }
}

TEST(normal_draws, are_hardly_correlated) {
  const NormalDraws draws(60, 512, 1);
  for (int a = 0; a < 60; ++a) {
    for (int b = 0; b < a; ++b) {
      double product = 0.0;
      for (int k = 0; k < 512; ++k) product += draws.row(k)[a] * draws.row(k)[b] / 512;
      EXPECT_NEAR(product, 0.0, 0.015) << a << " " << b;  // a third of the scatter of plain draws, 0.044
    }
  }
}

TEST(normal_draws, are_the_same_for_the_same_seed_and_others_for_another) {
  const NormalDraws a(5, 64, 9), b(5, 64, 9), c(5, 64, 10);
  EXPECT_TRUE(std::ranges::equal(a.row(33), b.row(33)));
  EXPECT_FALSE(std::ranges::equal(a.row(33), c.row(33)));
}

TEST(normal_draws, of_many_variables_are_finite) {
  const NormalDraws draws(300, 512, 1);
  for (int k = 0; k < 512; ++k)
    for (const double x : draws.row(k)) EXPECT_LT(std::abs(x), 10.0);
  EXPECT_TRUE(NormalDraws(0, 512, 1).row(0).empty());
}

}  // namespace
}  // namespace portwright::numerics
