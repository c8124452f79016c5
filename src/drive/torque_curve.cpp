#include "drive/torque_curve.hpp"

#include <algorithm>
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

}  // namespace

TorqueCurve::TorqueCurve(const std::array<double, 3>& speeds, const std::array<double, 3>& torques)
    : speeds_(speeds), torques_(torques) {
  if (!(speeds[0] > 0.0 && speeds[0] < speeds[1] && speeds[1] < speeds[2]))
    throw std::logic_error("a torque curve needs three speeds that rise");
  slope_ = (torques[1] - torques[0]) / (speeds[1] - speeds[0]);
  bend_ = ((torques[2] - torques[1]) / (speeds[2] - speeds[1]) - slope_) / (speeds[2] - speeds[0]);
  torque_peak_ = greatest(first(), last(), [this](double n) { return torque(n); });
  power_peak_ = greatest(first(), last(), [this](double n) { return power(n); });
}

double TorqueCurve::torque(double speed) const {
  const double n = std::clamp(speed, first(), last());
  return torques_[0] + (n - speeds_[0]) * (slope_ + bend_ * (n - speeds_[1]));
}

double TorqueCurve::power(double speed) const { return 2.0 * std::numbers::pi * speed * torque(speed); }

}  // namespace portwright::drive
