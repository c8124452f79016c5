#pragma once
// The gas of a running engine, three ingredients with one caloric law, cheap enough for every cell at every step.
//
//   fresh z (air and fuel vapour together), of it fuel f; the rest 1 - z is burned gas of one fixed composition.
//   e(T) = a T + b (sqrt(T² + c²) - c),   cv = a + b T / sqrt(T² + c²),   one c for all ingredients
//
// so a blend has R, a and b linear in z and f, and the way back from e to T is closed. The law is own form, fitted to
// the polynomials of gas/mixture.hpp; how well is said by WorkingGas itself.

#include <cmath>

#include "gas/mixture.hpp"

namespace portwright::gas {

/// An ingredient or a blend: gas constant and the two coefficients of its energy, all [J/kg K].
struct Caloric {
  double R = 0.0, a = 0.0, b = 0.0;
};

/// Greatest relative errors of the law against the polynomials [-]: of e(T) - e(298 K) 100 K and more away from 298 K,
/// of cv, and of the temperature that a true e - e(298 K) leads back to.
struct FitErrors {
  double energy = 0.0, cv = 0.0, temperature = 0.0;
};

struct WorkingGas {
  Caloric air, fuel, burned;
  double c = 0.0;               ///< [K]
  double air_per_fuel = 0.0;    ///< kilograms of air that burn with one of fuel at this mixture
  double stoichiometric = 0.0;  ///< kilograms of this air that burn one of fuel completely
  double humidity_ratio = 0.0;  ///< kilograms of water for each of dry air in `air`
  double heat_per_fuel = 0.0;  ///< sensible energy, in the e of this law, set free when one kilogram of fuel vapour and
                               ///< air_per_fuel of air become burned gas [J/kg]; less for a rich mixture
  double heat_complete = 0.0;  ///< the same at stoichiometric air [J/kg]
  double latent = 0.0;         ///< heat of evaporation [J/kg]
  FitErrors error;             ///< of air and burned gas over 250..3000 K
  FitErrors fuel_error;        ///< of fuel vapour over 250..1500 K
};

/// Fits the law. Fails (out_of_range) for an air/fuel ratio that `burned_gas` refuses or a humidity outside 0..0.1.
/// @param air_fuel       kilograms of moist air for each of fuel
/// @param humidity_ratio kilograms of water for each of dry air
[[nodiscard]] base::Result<WorkingGas> working_gas(double air_fuel, double humidity_ratio,
                                                   const Fuel& fuel = gasoline());

/// Blend of `fresh` (0..1), of it `fuel` (0..fresh), mass fractions.
inline Caloric blend(const WorkingGas& gas, double fresh, double fuel) {
  const double air = fresh - fuel, burned = 1.0 - fresh;
  return {air * gas.air.R + fuel * gas.fuel.R + burned * gas.burned.R,
          air * gas.air.a + fuel * gas.fuel.a + burned * gas.burned.a,
          air * gas.air.b + fuel * gas.fuel.b + burned * gas.burned.b};
}

/// Sensible, 0 at 0 K [J/kg].
inline double energy(const Caloric& k, double c, double T) { return k.a * T + k.b * (std::sqrt(T * T + c * c) - c); }

/// Sensible, 0 at 0 K [J/kg].
inline double enthalpy(const Caloric& k, double c, double T) { return energy(k, c, T) + k.R * T; }

/// Inverse of `energy` [K].
inline double temperature(const Caloric& k, double c, double e) {
  const double bc = k.b * c, s = e + bc;
  return e * (e + 2.0 * bc) / (k.a * s + k.b * std::sqrt(s * s + (k.a * k.a - k.b * k.b) * c * c));
}

/// The same caloric law with enthalpy in the place of energy: R more steep.
inline Caloric with_work(const Caloric& k) { return {k.R, k.a + k.R, k.b}; }

/// Inverse of `enthalpy` [K].
inline double temperature_of_enthalpy(const Caloric& k, double c, double h) { return temperature(with_work(k), c, h); }

/// At constant volume [J/kg K].
inline double cv(const Caloric& k, double c, double T) { return k.a + k.b * T / std::sqrt(T * T + c * c); }

/// Ratio of heat capacities [-].
inline double gamma(const Caloric& k, double c, double T) { return 1.0 + k.R / cv(k, c, T); }

/// [m/s]
inline double speed_of_sound(const Caloric& k, double c, double T) { return std::sqrt(gamma(k, c, T) * k.R * T); }

/// Temperature after an isentropic change of pressure, `ratio` = after / before, composition kept [K]. From the law's
/// own entropy, to 1e-12, in six Newton steps.
inline double isentropic_temperature(const Caloric& k, double c, double T, double ratio) {
  const double steep = k.a + k.R, x0 = std::log(T), s0 = steep * x0 + k.b * std::asinh(T / c);
  const double wanted = s0 + k.R * std::log(ratio);
  double x = x0 + k.R * std::log(ratio) / (k.R + cv(k, c, T));
  for (int step = 0; step < 6; ++step) {
    const double t = std::exp(x), root = std::sqrt(t * t + c * c);
    x -= (steep * x + k.b * std::asinh(t / c) - wanted) / (steep + k.b * t / root);
  }
  return std::exp(x);
}

}  // namespace portwright::gas
