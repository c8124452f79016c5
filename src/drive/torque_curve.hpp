#pragma once
// An engine's torque over speed from a few points.

#include <array>

namespace portwright::drive {

/// Torque as the parabola through three points, used between the first and the last alone. Speeds [rev/s], ascending
/// and apart; torques [N m].
class TorqueCurve {
 public:
  TorqueCurve(const std::array<double, 3>& speeds, const std::array<double, 3>& torques);

  /// Outside the points' speeds the torque of the nearest end.
  [[nodiscard]] double torque(double speed) const;
  [[nodiscard]] double power(double speed) const;  ///< [W]
  [[nodiscard]] double first() const { return speeds_.front(); }
  [[nodiscard]] double last() const { return speeds_.back(); }
  [[nodiscard]] double torque_peak() const { return torque_peak_; }  ///< speed of greatest torque [rev/s]
  [[nodiscard]] double power_peak() const { return power_peak_; }    ///< speed of greatest power [rev/s]

 private:
  std::array<double, 3> speeds_, torques_;
  double slope_, bend_;  ///< Newton's divided differences
  double torque_peak_, power_peak_;
};

}  // namespace portwright::drive
