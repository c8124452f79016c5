#pragma once
// The end gas: what the flame has not reached yet is squeezed by what it has burnt, and may go off by itself.

#include <cmath>

#include "gas/working_gas.hpp"

namespace portwright::combustion {

/// Time in which end gas at this state would go off by itself [s]:
/// tau[ms] = 17.68 (ON/100)^3.402 p[atm]^-1.7 exp(3800/T). @source{douaud_eyzat, from memory}
/// @param p [Pa]
/// @param octane number on the correlation's scale, see OctaneAssumptions
inline double ignition_delay(double p, double T, double octane) {
  return 17.68e-3 * std::pow(octane / 100.0, 3.402) * std::pow(p / 101325.0, -1.7) * std::exp(3800.0 / T);
}

/// Temperature of gas squeezed without heat from p0 to p1 [K]; gamma follows the temperature. Two steps of the mean
/// gamma: error of third order in ln(p1/p0), 1e-6 for a tenth.
inline double squeezed_temperature(const gas::Caloric& k, double c, double T, double p0, double p1) {
  const double lg = std::log(p1 / p0);
  const double first = k.R / (k.R + gas::cv(k, c, T));
  const double half = T * std::exp(0.5 * first * lg);
  return T * std::exp(k.R / (k.R + gas::cv(k, c, half)) * lg);
}

/// The unburned zone and its knock integral.
struct EndGas {
  double p = 0.0, T = 0.0;  ///< [Pa], [K]
  double integral = 0.0;    ///< of dt / tau since the charge was shut in; knock at 1 @source{livengood_wu}
};

/// The end gas a little later: isentropic from its pressure to `p`, the integral by the mean of both ends.
/// @param fresh_gas of the unburned charge, residual gas included
/// @param dt        [s]
inline EndGas later(const EndGas& before, const gas::Caloric& fresh_gas, double c, double p, double dt, double octane) {
  EndGas after{p, squeezed_temperature(fresh_gas, c, before.T, before.p, p), before.integral};
  after.integral +=
      0.5 * dt * (1.0 / ignition_delay(before.p, before.T, octane) + 1.0 / ignition_delay(after.p, after.T, octane));
  return after;
}

enum class OctaneScale { research, motor, pump };  ///< pump is the mean of the other two

struct OctaneAssumptions {
  double sensitivity = 9.0;  ///< research less motor, of pump gasoline [-]; 7..11 @source{memory}
  double motor_share = 0.5;  ///< where between research (0) and motor (1) the engine's end gas stands [-]; 0..1
};
/// The number that the correlation is asked with: research - motor_share * sensitivity. The correlation was made on
/// primary reference fuels, on which the scales agree; for gasoline the place between them is an assumption.
inline double octane_asked(double number, OctaneScale scale, const OctaneAssumptions& take = {}) {
  const double above = scale == OctaneScale::research ? 0.0 : scale == OctaneScale::motor ? 1.0 : 0.5;
  return number + (above - take.motor_share) * take.sensitivity;
}

}  // namespace portwright::combustion
