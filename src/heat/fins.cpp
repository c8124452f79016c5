#include "heat/fins.hpp"

#include <boost/math/special_functions/bessel.hpp>
#include <cmath>
#include <numbers>

#include "base/number_text.hpp"

namespace portwright::heat {

double fin_parameter(double film, double conductivity, double thickness) {
  return std::sqrt(2.0 * film / (conductivity * thickness));
}

double annular_efficiency(double m, double r1, double r2) {
  const double x = m * r1, y = m * r2;
  if (!(y - x > 1e-7)) return 1.0;
  const double reach = 2.0 * r1 / (m * (r2 * r2 - r1 * r1));
  if (y > 300.0) return reach * (1.0 + 0.5 / x - 0.125 / (x * x));
  using boost::math::cyl_bessel_i;
  using boost::math::cyl_bessel_k;
  const double k1x = cyl_bessel_k(1, x), i1y = cyl_bessel_i(1, y), i1x = cyl_bessel_i(1, x), k1y = cyl_bessel_k(1, y);
  const double i0x = cyl_bessel_i(0, x), k0x = cyl_bessel_k(0, x);
  return reach * (k1x * i1y - i1x * k1y) / (i0x * k1y + k0x * i1y);
}

double straight_efficiency(double m, double length) {
  const double x = m * length;
  return x < 1e-4 ? 1.0 - x * x / 3.0 : std::tanh(x) / x;
}

double long_rod_heat(double film, double conductivity, double diameter, double over) {
  const double perimeter = std::numbers::pi * diameter, area = 0.25 * std::numbers::pi * diameter * diameter;
  return std::sqrt(film * perimeter * conductivity * area) * over;
}

double finned_gain(const FinRow& fins, double radius, double film, double conductivity) {
  const double outer = radius + fins.length + 0.5 * fins.thickness;
  const double m = fin_parameter(film, conductivity, fins.thickness);
  const double faces = (outer * outer - radius * radius) / (radius * fins.pitch);
  return 1.0 - fins.thickness / fins.pitch + annular_efficiency(m, radius, outer) * faces;
}

base::Result<double> gibson_film(const FinRow& fins, double air) {
  const double length = 1e3 * fins.length, pitch = 1e3 * fins.pitch;
  const double bracket = 0.0247 - 0.00148 * std::pow(length, 0.8) / std::pow(pitch, 0.4);
  if (bracket < 0.25 * 0.0247)
    return base::fail(base::ErrorCode::out_of_range,
                      "Fins " + base::number_text(length, 0) + " mm long at a pitch of " + base::number_text(pitch, 1) +
                          " mm are longer and closer than the correlation for their air speaks of.",
                      "cooling.fins", "Length is from the wall out, pitch from one fin to the next.");
  return 241.7 * bracket * std::pow(3.6 * air, 0.73);
}

double crossed_film(double diameter, double air, double T) {
  // Air: viscosity, conductivity, Prandtl number. @source{memory, powers of temperature through the values at 300 K}
  const double nu = 1.589e-5 * std::pow(T / 300.0, 1.75), k = 0.0263 * std::pow(T / 300.0, 0.85), pr = 0.7;
  const double re = air * diameter / nu;
  const double lead = 0.62 * std::sqrt(re) * std::cbrt(pr) / std::pow(1.0 + std::pow(0.4 / pr, 2.0 / 3.0), 0.25);
  const double nusselt = 0.3 + lead * std::pow(1.0 + std::pow(re / 282000.0, 0.625), 0.8);
  return nusselt * k / diameter;
}

double round_wall(double conductivity, double from, double to) { return conductivity / std::log(to / from); }

}  // namespace portwright::heat
