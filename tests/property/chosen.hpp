#pragma once
// How often a range holds the truth of what was chosen: several values read with errors, the least as read taken.

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

#include "numerics/normal.hpp"
#include "study/lean.hpp"

namespace portwright::study {

/// True values, how roughly each is read, and the sigma of an error that all readings share.
struct Several {
  std::vector<double> truths, sigmas;
  double shared = 0.0;
};

/// The range from the reading of the chosen one, as the study draws it, in sigmas of a normal law.
inline numerics::Range chosen_range(const Several& s, const std::vector<double>& read, std::size_t chosen) {
  const double sigma = std::hypot(s.sigmas[chosen], s.shared);
  double contenders = 1.0;
  for (std::size_t j = 0; j < read.size(); ++j)
    if (j != chosen)
      contenders += rival_weight(read[j] - read[chosen], std::hypot(s.sigmas[j], s.sigmas[chosen]), sigma);
  const numerics::Tails tails = chosen_tails(contenders, true);
  return {read[chosen] + sigma * numerics::normal_quantile(tails.low),
          read[chosen] - sigma * numerics::normal_quantile(tails.high)};
}

/// Share of the trials in which the range holds the true value of the one read least.
inline double chosen_coverage(const Several& s, int trials, std::mt19937_64& random) {
  std::normal_distribution<double> normal;
  std::vector<double> read(s.truths.size());
  int held = 0;
  for (int t = 0; t < trials; ++t) {
    const double shared = s.shared * normal(random);
    for (std::size_t j = 0; j < read.size(); ++j) read[j] = s.truths[j] + s.sigmas[j] * normal(random) + shared;
    const auto chosen = static_cast<std::size_t>(std::min_element(read.begin(), read.end()) - read.begin());
    const numerics::Range range = chosen_range(s, read, chosen);
    if (s.truths[chosen] >= range.low && s.truths[chosen] <= range.high) ++held;
  }
  return static_cast<double>(held) / trials;
}

}  // namespace portwright::study
