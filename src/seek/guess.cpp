#include "seek/guess.hpp"

#include <algorithm>
#include <cmath>

namespace portwright::seek {
namespace {

// Of 1 and -1 for possible and not: a step that was to be met everywhere would make waves.
constexpr double blurred = 0.3;
constexpr double wide = 3.0;  // so many times from the best to the middle one is still told as it is

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

/// As it is up to `far`, by its logarithm beyond; smooth there.
double drawn_in(double value, double far) { return value <= far ? value : far * (1.0 + std::log(value / far)); }

void draw_in_gains(std::vector<double>& gains, double noise) {
  const double best = *std::max_element(gains.begin(), gains.end());
  const double far = wide * std::max(best - median(gains), 10.0 * noise);
  for (double& gain : gains) gain = best - drawn_in(best - gain, std::max(far, 1e-12));
}

void draw_in_holds(std::vector<double>& holds, double noise) {
  std::vector<double> sizes = holds;
  for (double& size : sizes) size = std::abs(size);
  const double far = wide * std::max(median(sizes), 10.0 * noise);
  for (double& hold : holds) hold = std::copysign(drawn_in(std::abs(hold), std::max(far, 1e-12)), hold);
}

}  // namespace

bool is_sound(const Judged& judged, std::size_t gains, std::size_t holds) {
  const auto finite = [](const std::vector<double>& all) {
    return std::all_of(all.begin(), all.end(), [](double one) { return std::isfinite(one); });
  };
  return judged.possible && gains > 0 && judged.gains.size() == gains && judged.holds.size() == holds &&
         finite(judged.gains) && finite(judged.holds);
}

Guess::Guess(std::span<const Tried> tried, double noise) {
  std::vector<Design> sound, all;
  std::vector<std::vector<double>> figures;
  std::vector<double> possible;
  for (const Tried& one : tried) {
    all.push_back(one.design);
    possible.push_back(one.judged.possible ? 1.0 : -1.0);
    if (!one.judged.possible) continue;
    sound.push_back(one.design);
    gains_ = one.judged.gains.size();
    figures.resize(gains_ + one.judged.holds.size());
    for (std::size_t k = 0; k < figures.size(); ++k)
      figures[k].push_back(k < gains_ ? one.judged.gains[k] : one.judged.holds[k - gains_]);
  }
  for (std::size_t k = 0; k < figures.size(); ++k)
    k < gains_ ? draw_in_gains(figures[k], noise) : draw_in_holds(figures[k], noise);
  smooth_.emplace(sound, figures, std::vector<double>(figures.size(), noise));
  if (sound.size() < all.size())
    possible_.emplace(all, std::vector<std::vector<double>>{possible}, std::vector{blurred});
}

void Guess::at(std::span<const double> x, std::span<double> values, std::span<double> slopes) const {
  const std::size_t first = smooth_->figures(), n = smooth_->amounts();
  smooth_->at(x, values.first(first), slopes.empty() ? slopes : slopes.first(first * n));
  if (possible_) possible_->at(x, values.subspan(first), slopes.empty() ? slopes : slopes.subspan(first * n));
}

std::vector<double> Guess::at(const Design& x) const {
  std::vector<double> values(figures());
  at(x, values);
  return values;
}

}  // namespace portwright::seek
