// Laws of a range that knows its figure was chosen, on invented values: nothing of an engine is in it.
#include "chosen.hpp"

#include <gtest/gtest.h>

namespace portwright::study {
namespace {

constexpr unsigned seed = 20240307;
constexpr int trials = 6000;

/// 93 to 97 %, and what chance may add to it: three sigmas of the binomial law.
void expect_held(const Several& several, std::mt19937_64& random, const std::string& what) {
  const auto stray = [](double share) { return 3.0 * std::sqrt(share * (1.0 - share) / trials); };
  const double share = chosen_coverage(several, trials, random);
  EXPECT_GT(share, 0.93 - stray(0.93)) << what;
  EXPECT_LT(share, 0.97 + stray(0.97)) << what;
}

TEST(chosen, range_of_the_least_holds_the_truth_from_alike_to_separate_with_shared_errors) {
  std::mt19937_64 random(seed);
  std::uniform_real_distribution<double> uniform;
  std::normal_distribution<double> normal;
  for (int set = 0; set < 60; ++set) {
    const int count = 1 + static_cast<int>(10.0 * uniform(random));
    const double spread = std::pow(10.0, -1.5 + 2.0 * uniform(random));
    Several several;
    several.shared = set % 3 == 0 ? 0.0 : std::pow(10.0, -1.0 + 1.6 * uniform(random));
    for (int j = 0; j < count; ++j) {
      several.truths.push_back(spread * std::abs(normal(random)));
      several.sigmas.push_back(std::exp(0.7 * normal(random)));
    }
    expect_held(several, random, "set " + std::to_string(set) + " of " + std::to_string(count));
  }
}

TEST(chosen, range_of_the_least_holds_the_truth_where_one_is_read_finely_and_its_rivals_roughly) {
  std::mt19937_64 random(seed);
  for (const std::size_t count : {2u, 3u, 6u, 10u}) {
    for (const double gap : {0.5, 1.5, 2.0, 2.5}) {
      Several several{std::vector<double>(count, gap), std::vector<double>(count, 1.0), 0.0};
      several.truths[0] = 0.0;
      several.sigmas[0] = 0.15;
      expect_held(several, random, std::to_string(count) + " at " + std::to_string(gap));
    }
  }
}

TEST(chosen, plain_tails_would_not_hold_it) {
  std::mt19937_64 random(seed);
  std::normal_distribution<double> normal;
  int held = 0;
  for (int t = 0; t < trials; ++t) {
    double least = normal(random);
    for (int j = 1; j < 6; ++j) least = std::min(least, normal(random));
    if (std::abs(least) <= 1.96) ++held;
  }
  EXPECT_LT(static_cast<double>(held) / trials, 0.90);
}

}  // namespace
}  // namespace portwright::study
