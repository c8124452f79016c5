#pragma once
// An engine's torque over speed from a few points.

#include <array>
#include <functional>
#include <vector>

namespace portwright::drive {

/// Torque through a few points, used between the first and the last alone: three by their parabola, more by Akima's
/// modified spline (Boost.Math). Speeds [rev/s], ascending and apart; torques [N m].
class TorqueCurve {
 public:
  /// Throws std::logic_error for fewer than three points, speeds that do not rise, or a torque for another number.
  TorqueCurve(std::vector<double> speeds, std::vector<double> torques);

  /// Outside the points' speeds the torque of the nearest end.
  [[nodiscard]] double torque(double speed) const;
  [[nodiscard]] double power(double speed) const;  ///< [W]
  [[nodiscard]] double first() const { return first_; }
  [[nodiscard]] double last() const { return last_; }
  [[nodiscard]] double torque_peak() const { return torque_peak_; }  ///< speed of greatest torque [rev/s]
  [[nodiscard]] double power_peak() const { return power_peak_; }    ///< speed of greatest power [rev/s]

 private:
  double first_ = 0.0, last_ = 0.0;
  std::function<double(double)> between_;
  double torque_peak_ = 0.0, power_peak_ = 0.0;
};

/// One engine's curve beside another of the same shape of which three points are known: its torque plus the parabola of
/// their differences there.
[[nodiscard]] TorqueCurve beside(const std::vector<double>& speeds, const std::vector<double>& torques,
                                 const std::array<double, 3>& known_at, const std::array<double, 3>& difference);

}  // namespace portwright::drive
