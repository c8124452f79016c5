#include "desk/book/between.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <vector>

namespace portwright::desk {
namespace {

// A value without an error still has a finite weight.
double variance_of(const Measured& saw) {
  const double least = 1e-9 * (std::abs(saw.value) + 1e-9);
  const double sigma = std::max(saw.sigma, least);
  return sigma * sigma;
}

struct Weighed {
  double mean = 0.0, sum = 0.0, sum_of_squares = 0.0;
};

Weighed weighed(std::span<const Measured> saws, double variance_between) {
  Weighed out;
  for (const Measured& saw : saws) {
    const double weight = 1.0 / (variance_of(saw) + variance_between);
    out.mean += weight * saw.value;
    out.sum += weight;
    out.sum_of_squares += weight * weight;
  }
  out.mean /= out.sum;
  return out;
}

double variance_between(std::span<const Measured> saws) {
  if (saws.size() < 2) return 0.0;
  const Weighed fixed = weighed(saws, 0.0);
  double excess = -static_cast<double>(saws.size() - 1);
  for (const Measured& saw : saws) {
    const double off = saw.value - fixed.mean;
    excess += off * off / variance_of(saw);
  }
  return std::max(0.0, excess / (fixed.sum - fixed.sum_of_squares / fixed.sum));
}

}  // namespace

Between between(std::span<const Measured> saws) {
  if (saws.empty()) throw std::invalid_argument("no saw to speak of");
  const double variance = variance_between(saws);
  const Weighed all = weighed(saws, variance);
  return {all.mean, std::sqrt(1.0 / all.sum), std::sqrt(variance)};
}

Measured apart(std::span<const Measured> saws, std::size_t which) {
  if (saws.size() < 2 || which >= saws.size()) throw std::invalid_argument("no other saw to hold it against");
  std::vector<Measured> others;
  for (std::size_t i = 0; i < saws.size(); ++i)
    if (i != which) others.push_back(saws[i]);
  const Between rest = between(others);
  return {saws[which].value - rest.mean, std::sqrt(variance_of(saws[which]) + rest.mean_sigma * rest.mean_sigma)};
}

}  // namespace portwright::desk
