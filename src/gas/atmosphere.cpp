#include "gas/atmosphere.hpp"

#include <algorithm>
#include <cmath>

#include "gas/mixture.hpp"

namespace portwright::gas {
namespace {

constexpr double earth = 6356766.0;         // [m], of the standard
constexpr double gravity = 9.80665;         // [m/s²]
constexpr double lapse = 6.5e-3;            // [K/m]
constexpr double dry_constant = 287.05287;  // [J/kg K], of the standard

double vapour_pressure(double relative, double temperature, double pressure) {
  return std::min(std::clamp(relative, 0.0, 1.0) * saturation_pressure(temperature), 0.1 * pressure);
}

}  // namespace

Atmosphere standard_atmosphere(double altitude) {
  const double z = std::clamp(altitude, -2000.0, 11000.0);
  const double height = earth * z / (earth + z);
  Atmosphere air;
  air.temperature = 288.15 - lapse * height;
  air.pressure = 101325.0 * std::pow(air.temperature / 288.15, gravity / (dry_constant * lapse));
  air.density = air.pressure / (dry_constant * air.temperature);
  return air;
}

double saturation_pressure(double temperature) {
  const double t = std::clamp(temperature, 200.0, 373.15) - 273.15;
  return 611.2 * std::exp(17.62 * t / (243.12 + t));
}

double humidity_ratio(double relative, double temperature, double pressure) {
  const double vapour = vapour_pressure(relative, temperature, pressure);
  const double dry_mass = universal_constant / gas_constant(moist_air(0.0));
  return species(Kind::H2O).molar_mass / dry_mass * vapour / (pressure - vapour);
}

double dry_pressure(double relative, double temperature, double pressure) {
  return pressure - vapour_pressure(relative, temperature, pressure);
}

double correction_j1349(double dry, double temperature) {
  return 1.180 * (99000.0 / dry) * std::sqrt(temperature / 298.0) - 0.18;
}

double correction_iso1585(double dry, double temperature) {
  return std::pow(99000.0 / dry, 1.2) * std::pow(temperature / 298.0, 0.6);
}

}  // namespace portwright::gas
