#include "drive/torque_curve.hpp"

#include <algorithm>
#include <boost/math/interpolators/makima.hpp>
#include <numbers>
#include <stdexcept>

namespace portwright::drive {

namespace {

constexpr int places = 2000;

/// Place of the greatest value between two ends, to a two-thousandth of what lies between.
template <class F>
double greatest(double from, double to, F&& value) {
  double best = from, most = value(from);
  for (int i = 1; i <= places; ++i) {
    const double at = from + (to - from) * i / places, now = value(at);
    if (now > most) most = now, best = at;
  }
  return best;
}

/// The parabola through three points.
std::function<double(double)> parabola(const double* x, const double* y) {
  const double x0 = x[0], x1 = x[1], y0 = y[0];
  const double slope = (y[1] - y[0]) / (x[1] - x[0]);
  const double bend = ((y[2] - y[1]) / (x[2] - x[1]) - slope) / (x[2] - x[0]);
  return [=](double at) { return y0 + (at - x0) * (slope + bend * (at - x1)); };
}

}  // namespace

TorqueCurve::TorqueCurve(std::vector<double> speeds, std::vector<double> torques) {
  const bool rises = std::adjacent_find(speeds.begin(), speeds.end(), std::greater_equal<>()) == speeds.end();
  if (speeds.size() < 3 || torques.size() != speeds.size() || !(speeds.front() > 0.0) || !rises)
    throw std::logic_error("a torque curve needs three speeds or more that rise");
  first_ = speeds.front();
  last_ = speeds.back();
  if (speeds.size() == 3)
    between_ = parabola(speeds.data(), torques.data());
  else
    between_ = boost::math::interpolators::makima<std::vector<double>>(std::move(speeds), std::move(torques));
  torque_peak_ = greatest(first(), last(), [this](double n) { return torque(n); });
  power_peak_ = greatest(first(), last(), [this](double n) { return power(n); });
}

double TorqueCurve::torque(double speed) const { return between_(std::clamp(speed, first_, last_)); }

double TorqueCurve::power(double speed) const { return 2.0 * std::numbers::pi * speed * torque(speed); }

TorqueCurve beside(const std::vector<double>& speeds, const std::vector<double>& torques,
                   const std::array<double, 3>& known_at, const std::array<double, 3>& difference) {
  const auto more = parabola(known_at.data(), difference.data());
  std::vector<double> out = torques;
  for (std::size_t i = 0; i < out.size(); ++i) out[i] += more(speeds[i]);
  return {speeds, std::move(out)};
}

}  // namespace portwright::drive
