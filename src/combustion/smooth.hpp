#pragma once
// Joints without a kink, from which the laws of burning are put together.

#include <algorithm>
#include <cmath>

namespace portwright::combustion {

/// max(0, x), its corner rounded over about four widths either side; all derivatives continuous.
inline double soft_ramp(double x, double width) {
  return std::max(x, 0.0) + width * std::log1p(std::exp(-std::abs(x) / width));
}

/// From 0 far below 0 to 1 far above, one half at x = 0.
inline double soft_step(double x, double width) { return 0.5 * (1.0 + std::tanh(0.5 * x / width)); }

}  // namespace portwright::combustion
