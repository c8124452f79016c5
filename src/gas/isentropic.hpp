#pragma once
// Relations of a perfect gas in steady flow: along a streamline without losses, and across a normal shock. For checks
// and for the oracle of the duct solver.

#include <cmath>

namespace portwright::gas {

/// Ratios to the state at rest at a Mach number, and area over throat area [-].
struct Isentropic {
  double pressure = 1.0, density = 1.0, temperature = 1.0, area = 1.0;
};
/// @source{naca1135, isentropic flow}
/// @param mach above 0
inline Isentropic isentropic(double mach, double gamma) {
  const double g1 = gamma - 1.0, warm = 1.0 + 0.5 * g1 * mach * mach;
  return {std::pow(warm, -gamma / g1), std::pow(warm, -1.0 / g1), 1.0 / warm,
          std::pow(warm * 2.0 / (gamma + 1.0), 0.5 * (gamma + 1.0) / g1) / mach};
}

/// Mach number to which a pressure ratio p / p0 leads [-].
inline double mach_of_pressure(double ratio, double gamma) {
  return std::sqrt(2.0 / (gamma - 1.0) * std::expm1(-(gamma - 1.0) / gamma * std::log(ratio)));
}

/// p / p0 at the speed of sound [-].
inline double choking_ratio(double gamma) { return std::pow(2.0 / (gamma + 1.0), gamma / (gamma - 1.0)); }

/// Behind a normal shock over before it; `mach` is that behind [-].
struct NormalShock {
  double mach = 1.0, pressure = 1.0, density = 1.0, temperature = 1.0;
};
/// @source{naca1135, normal shock}
/// @param mach before the shock, 1 or more
inline NormalShock normal_shock(double mach, double gamma) {
  const double g1 = gamma - 1.0, m2 = mach * mach;
  NormalShock behind;
  behind.pressure = (2.0 * gamma * m2 - g1) / (gamma + 1.0);
  behind.density = (gamma + 1.0) * m2 / (g1 * m2 + 2.0);
  behind.temperature = behind.pressure / behind.density;
  behind.mach = std::sqrt((g1 * m2 + 2.0) / (2.0 * gamma * m2 - g1));
  return behind;
}

}  // namespace portwright::gas
