#pragma once
// How a jet's contraction behind a sharp edge changes with the pressure ratio. What an opening of a given shape lets
// through otherwise (rounding, ports' inclination, part opening) has no law here: a constant of the caller.

#include <algorithm>
#include <cmath>

#include "gas/isentropic.hpp"

namespace portwright::gas {

/// Contraction coefficient of a sharp-edged opening [-], area of the nozzle that passes the same over the area of the
/// hole. From the balance of forces with the defect of force that the incompressible coefficient shows:
///   f C² - C r^(-1/gamma) + (1 - r)/N² = 0,  f = 1/C_i - 1/(2 C_i²),  N the nozzle's flow number (gas/opening.hpp),
/// beyond choking with the throat's pressure in the place of the outlet's. Rises from C_i at rest (0.60 becomes 0.73 at
/// choking and 0.87 into vacuum), continuous with its slope. For sharp edges: C_i from 0.5 to 0.75; a rounder opening
/// has no such jet.
/// @source{jobson1955, from memory; the derivation is repeated here}
/// @param ratio outlet over upstream pressure (0..1)
inline double jet_contraction(double ratio, double gamma, double incompressible) {
  const double at = std::clamp(ratio, choking_ratio(gamma), 1.0 - 1e-6);
  const double g1 = gamma - 1.0, lg = std::log(at);
  const double k2 = -2.0 * gamma / g1 * std::exp(2.0 * lg / gamma) * std::expm1(lg * g1 / gamma);
  const double f = 1.0 / incompressible - 0.5 / (incompressible * incompressible);
  const double low = std::min(ratio, at);  // beyond choking the jet leaves with pressure to spare
  const double b = std::exp(-lg / gamma) + (at - low) / k2, c = (1.0 - low) / k2;
  return 2.0 * c / (b + std::sqrt(std::max(b * b - 4.0 * f * c, 0.0)));
}

}  // namespace portwright::gas
