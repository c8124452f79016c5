#include "seek/spread.hpp"

#include <algorithm>
#include <cmath>
#include <random>

#include "seek/climb.hpp"

namespace portwright::seek {

Walk::Walk(std::size_t amounts, unsigned seed) : step_(amounts), at_(amounts) {
  double root = 2.0;  // of a^(n+1) = a + 1, by steps that draw together
  for (int round = 0; round < 60; ++round) root = std::pow(1.0 + root, 1.0 / (static_cast<double>(amounts) + 1.0));
  std::mt19937 draw(seed);
  for (std::size_t j = 0; j < amounts; ++j) {
    step_[j] = std::pow(root, -static_cast<double>(j + 1));
    at_[j] = static_cast<double>(draw()) / 4294967296.0;
  }
}

Design Walk::next() {
  for (std::size_t j = 0; j < at_.size(); ++j) {
    at_[j] += step_[j];
    at_[j] -= std::floor(at_[j]);
  }
  return at_;
}

double distance(const Design& a, const Design& b) {
  double most = 0.0;
  for (std::size_t j = 0; j < a.size(); ++j) most = std::max(most, std::abs(a[j] - b[j]));
  return most;
}

double nearest(std::span<const Design> to, const Design& x) {
  double least = 2.0;
  for (const Design& one : to) least = std::min(least, distance(one, x));
  return least;
}

bool is_inside(const Space& space, const Design& x) { return space.worst(x) >= -inside_by; }

std::optional<Design> towards(const Space& space, const Design& from, const Design& to) {
  if (is_inside(space, to)) return to;
  if (space.equal > 0) return nearest_inside(space, to);
  const auto at = [&](double share) {
    Design x = from;
    for (std::size_t j = 0; j < x.size(); ++j) x[j] += share * (to[j] - from[j]);
    return x;
  };
  double low = 0.0, high = 1.0;
  for (int halving = 0; halving < 6; ++halving) {
    const double middle = 0.5 * (low + high);
    (is_inside(space, at(middle)) ? low : high) = middle;
  }
  return at(low);
}

std::vector<Design> start_designs(const Space& space, std::size_t count, double apart, Walk& walk) {
  std::vector<Design> out;
  const auto keep = [&](const std::optional<Design>& x) {
    if (x && is_inside(space, *x) && nearest(out, *x) >= apart) out.push_back(*x);
  };
  const Design nothing(space.free, 0.0);
  keep(is_inside(space, nothing) ? nothing : nearest_inside(space, nothing));
  for (std::size_t drawn = 0; drawn < 4 * count && out.size() < count + 1; ++drawn) {
    const Design point = walk.next();
    if (is_inside(space, point)) {
      keep(point);
      continue;
    }
    // What was outside comes to lie on a side; every second one is drawn halfway in from there.
    std::optional<Design> edge = nearest_inside(space, point);
    if (edge && drawn % 2 == 1 && !out.empty()) {
      const Design& inner = out[drawn / 2 % out.size()];
      for (std::size_t j = 0; j < edge->size(); ++j) (*edge)[j] = 0.5 * ((*edge)[j] + inner[j]);
      if (!is_inside(space, *edge)) edge = nearest_inside(space, *edge);
    }
    if (!edge && out.empty() && drawn > 8) break;
    keep(edge);
  }
  return out;
}

}  // namespace portwright::seek
