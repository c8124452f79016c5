#pragma once
// Flow through an opening: the quasi-steady nozzle of compressible flow.

#include <algorithm>
#include <cmath>

namespace portwright::gas {

/// Share of the upstream pressure under which the flow leaves the square-root law, so that its slope stays bounded [-].
inline constexpr double soft_pressure_share = 1e-3;

/// Flow number m sqrt(R T0) / (p0 A) of a nozzle [-]: isentropic to `ratio` = p / p0, constant once choked.
///
/// Under a drop of `soft_pressure_share` the square root of t = drop / (share p0) becomes 1.25 t - 0.25 t³, which meets
/// it in value and slope at t = 1 and is all but linear at rest. Rises with the drop; its slope is continuous
/// everywhere.
/// @source{cengel_boles, chapter on compressible flow}; the soft end is own form.
/// @param ratio outlet over reservoir pressure (0..1)
inline double flow_number(double ratio, double gamma) {
  const double g1 = gamma - 1.0;
  const double choked = -gamma / g1 * std::log(0.5 * (gamma + 1.0));
  const double lg = std::max(std::log(std::max(ratio, 1e-300)), choked);
  const double square = -2.0 * gamma / g1 * std::exp(2.0 * lg / gamma) * std::expm1(lg * g1 / gamma);
  const double t = std::min((1.0 - ratio) / soft_pressure_share, 1.0);
  const double soft = 1.25 - 0.25 * t * t;
  return std::sqrt(std::max(square * t, 0.0)) * soft;
}

/// Mass flow from a reservoir through an opening [kg/s]; 0 when the outlet pressure is not lower.
/// @param p0, T0  in the reservoir [Pa], [K]
/// @param R       [J/kg K]
/// @param area    effective, discharge coefficient included [m²]
/// @param p       behind the opening [Pa]
inline double opening_flow(double p0, double T0, double R, double gamma, double area, double p) {
  return area * p0 / std::sqrt(R * T0) * flow_number(std::min(p / p0, 1.0), gamma);
}

/// State of a reservoir as an opening sees it: [Pa], [K], [J/kg K], [-].
struct Side {
  double p, T, R, gamma;
};

/// Mass flow from `one` to `other` [kg/s], negative the other way; each way by its own upstream gas.
inline double opening_flow_between(const Side& one, const Side& other, double area) {
  const bool forward = one.p >= other.p;
  const Side& up = forward ? one : other;
  const double flow = opening_flow(up.p, up.T, up.R, up.gamma, area, forward ? other.p : one.p);
  return forward ? flow : -flow;
}

}  // namespace portwright::gas
