#include "numerics/statistics.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "numerics/normal.hpp"

namespace portwright::numerics {

namespace {

constexpr double tail_share = 0.3;
constexpr double low_end = 0.025;

/// One rank of the tail: its score counted from the low end's, and its weight in the fit.
struct Rank {
  double score, weight;
};

Rank rank_of(std::size_t k, std::size_t tail, int count) {
  const double share = (static_cast<double>(k) + 0.5) / count;
  const double score = normal_quantile(share);
  const double density2 = std::exp(-score * score);  // φ² but for a constant
  const double place = (static_cast<double>(k) + 0.5) / static_cast<double>(tail);
  const double fade = std::pow(1.0 - place * place * place, 3);
  return {score - normal_quantile(low_end), fade * density2 / (share * (1.0 - share))};
}

/// Normal score of a tail, counted from that of 2.5 %.
double score_from_end(double share) {
  return share == low_end ? 0.0 : normal_quantile(share) - normal_quantile(low_end);
}

}  // namespace

RangeEstimator::RangeEstimator(int count) {
  if (count < 16) throw std::invalid_argument("a range needs 16 samples or more");
  const auto tail = static_cast<std::size_t>(tail_share * count);
  std::vector<Rank> ranks;
  double s0 = 0.0, s1 = 0.0, s2 = 0.0;
  for (std::size_t k = 0; k < tail; ++k) {
    ranks.push_back(rank_of(k, tail, count));
    const auto [score, weight] = ranks.back();
    s0 += weight;
    s1 += weight * score;
    s2 += weight * score * score;
  }
  const double determinant = s0 * s2 - s1 * s1;
  for (const auto& [score, weight] : ranks) {
    weights_.push_back(weight * (s2 - s1 * score) / determinant);
    slopes_.push_back(weight * (s0 * score - s1) / determinant);
  }
}

Range RangeEstimator::between(std::span<double> samples, const Tails& tails) const {
  std::sort(samples.begin(), samples.end());
  const double low = score_from_end(tails.low), high = score_from_end(tails.high);
  Range range;
  for (std::size_t k = 0; k < weights_.size(); ++k) {
    range.low += (weights_[k] + low * slopes_[k]) * samples[k];
    range.high += (weights_[k] + high * slopes_[k]) * samples[samples.size() - 1 - k];
  }
  range.low = std::clamp(range.low, samples.front(), samples.back());
  range.high = std::clamp(range.high, range.low, samples.back());
  return range;
}

}  // namespace portwright::numerics
