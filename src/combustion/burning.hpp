#pragma once
// How a charge burns: when, how long, how much of it. Plain numbers in, smooth laws only, so that a small change of an
// engine is a small change of its burning.
//
// Purity is the mass of fresh charge (air and fuel) over the whole trapped mass. Lambda is air over the air that burns
// all fuel. None of the numbers was measured on an engine of this sort; middles and ranges are judgement.

#include <cmath>
#include <numbers>

#include "combustion/smooth.hpp"

namespace portwright::combustion {

inline constexpr double degree = std::numbers::pi / 180.0;

/// SI and radians. @source{memory}
struct BurnAssumptions {
  // course
  double wiebe_efficiency = 6.908;  ///< a: 99.9 % has burnt at the end of the duration [-]
  double wiebe_form = 2.0;          ///< m [-]; 1..3 @source{heywood1988, sect. 9.2.3, a = 5 and m = 2}
  double duration = 48.0 * degree;  ///< at the reference speed and purity [rad]; 40..62 deg
  double reference_speed = 150.0;   ///< [rev/s]
  double reference_purity = 0.75;   ///< [-]
  double speed_exponent = 0.3;      ///< of the duration [-]
  double dilution_slope = 2.0;      ///< of the duration's logarithm for each unit of purity lost [-]
  double delay = 9.0 * degree;      ///< from spark to the first heat [rad]; 6..13 deg
  // amount
  double completeness = 0.92;  ///< of a pure charge with air enough [-]; 0.83..0.98
  double purity_knee = 0.70;   ///< below which completeness falls [-]
  double purity_width = 0.02;  ///< of the knee's rounding [-]
  double purity_slope = 1.0;   ///< loss for each unit of purity below the knee [-]; 0.3..2
  double rich_slope = 1.3;     ///< loss of heat for each unit of lambda below 1 [-]
  double rich_width = 0.02;    ///< of the rounding at lambda 1 [-]
  // misfire: half of the turns do not burn at these
  double purity_limit = 0.42, purity_limit_width = 0.02;
  double rich_limit = 0.55, lean_limit = 1.40, lambda_limit_width = 0.03;
};

/// Share burnt, `y` durations after its start: 1 - exp(-a y^(m+1)); 0 before the start. @source{wiebe, from memory}
inline double wiebe(double y, double m, double a = 6.908) {
  return y > 0.0 ? -std::expm1(-a * std::pow(y, m + 1.0)) : 0.0;
}
/// d wiebe / dy [-].
inline double wiebe_rate(double y, double m, double a = 6.908) {
  return y > 0.0 ? a * (m + 1.0) * std::pow(y, m) * std::exp(-a * std::pow(y, m + 1.0)) : 0.0;
}

/// Crank angle that burning takes [rad].
/// @param speed [rev/s]
inline double burn_duration(const BurnAssumptions& take, double speed, double purity) {
  return take.duration * std::pow(speed / take.reference_speed, take.speed_exponent) *
         std::exp(take.dilution_slope * (take.reference_purity - purity));
}

/// One burning: where it starts and how long it takes [rad ATDC], [rad].
struct Burn {
  double start = 0.0, duration = 1.0, efficiency = 6.908, form = 2.0;
};
/// @param spark [rad ATDC], negative before TDC
inline Burn burn(const BurnAssumptions& take, double spark, double speed, double purity) {
  return {spark + take.delay, burn_duration(take, speed, purity), take.wiebe_efficiency, take.wiebe_form};
}
/// Share of what burns that has burnt at an angle [-].
inline double burnt_share(const Burn& burn, double angle) {
  return wiebe((angle - burn.start) / burn.duration, burn.form, burn.efficiency);
}
/// [1/rad]
inline double burn_rate(const Burn& burn, double angle) {
  return wiebe_rate((angle - burn.start) / burn.duration, burn.form, burn.efficiency) / burn.duration;
}

/// Share of the trapped fuel that burns as far as the air allows [-]: flat in a pure charge, falling below the knee,
/// never under 0. Mixture and misfire stand apart.
inline double completeness(const BurnAssumptions& take, double purity) {
  const double lost = take.purity_slope * soft_ramp(take.purity_knee - purity, take.purity_width);
  return soft_ramp(take.completeness - lost, 0.01);
}

/// Heat of a rich mixture over that of the whole fuel burnt completely [-]. Belongs to a heat counted as the fuel's
/// full heating value. A heat that already ends at CO and H2 (WorkingGas::heat_per_fuel) has this loss in it.
inline double rich_factor(const BurnAssumptions& take, double lambda) {
  return 1.0 - take.rich_slope * soft_ramp(1.0 - lambda, take.rich_width);
}

/// Share of turns that fire [-]: near 1 in any usual charge, fading out when it is too dilute, too rich or too lean.
inline double fires(const BurnAssumptions& take, double purity, double lambda) {
  return soft_step(purity - take.purity_limit, take.purity_limit_width) *
         soft_step(lambda - take.rich_limit, take.lambda_limit_width) *
         soft_step(take.lean_limit - lambda, take.lambda_limit_width);
}

/// Fuel burnt over fuel trapped, mean of many turns [-]; multiply by WorkingGas::heat_per_fuel.
inline double burnt_fuel(const BurnAssumptions& take, double purity, double lambda) {
  return completeness(take, purity) * fires(take, purity, lambda);
}

}  // namespace portwright::combustion
