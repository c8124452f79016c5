#pragma once
// From the gas to the wall of the cylinder: three published forms, by choice. All were found on four-strokes much
// larger than these engines; the factor by which they are multiplied is an assumption of the run.

#include <cmath>

namespace portwright::combustion {

/// Film of Woschni [W/m² K]: 3.26 B^-0.2 p^0.8 T^-0.55 w^0.8 with B in m, p in kPa, w in m/s. @source{woschni, from
/// memory}
/// @param p [Pa]
inline double woschni_film(double bore, double p, double T, double gas_speed) {
  return 3.26 * std::pow(bore, -0.2) * std::pow(1e-3 * p, 0.8) * std::pow(T, -0.55) * std::pow(gas_speed, 0.8);
}

/// The charge as it was shut in, to which Woschni refers the burning.
struct ShutIn {
  double p = 1e5, T = 400.0, volume = 1e-4;  ///< [Pa], [K], [m³]
};

/// Gas speed that stirs the film [m/s]: C1 c_m + C2 (V_s T_1 / p_1 V_1)(p - p_motored). C1 is 6.18 while ports are open
/// and 2.28 while they are shut, C2 0 before the spark and 3.24e-3 m/s K after it; no less than C1 c_m.
/// @source{woschni}
/// @param piston_speed mean [m/s]
/// @param shut   1 while the ports are shut, 0 while open; between, a blend, so that no door makes a jump
/// @param p_over pressure above that of the motored engine at the same volume [Pa]; negative counts as none
inline double woschni_speed(double piston_speed, double shut, double swept, const ShutIn& from, double p_over) {
  const double c1 = 6.18 + shut * (2.28 - 6.18);
  const double risen = p_over > 0.0 ? 3.24e-3 * swept * from.T / (from.p * from.volume) * p_over : 0.0;
  return c1 * piston_speed + shut * risen;
}

/// Film of Hohenberg [W/m² K]: 129.8 V^-0.06 p^0.8 T^-0.4 (c_m + 1.4)^0.8 with p in bar. @source{hohenberg}
/// @param p [Pa]
inline double hohenberg_film(double volume, double p, double T, double piston_speed) {
  return 129.8 * std::pow(volume, -0.06) * std::pow(1e-5 * p, 0.8) * std::pow(T, -0.4) *
         std::pow(piston_speed + 1.4, 0.8);
}

/// Viscosity [Pa s] and conductivity [W/m K] of hot air, within 5 % from 300 to 1,500 K; burned gas is taken for air.
/// @source{memory, powers of temperature through the values at 300 and 1000 K}
inline double viscosity(double T) { return 1.846e-5 * std::pow(T / 300.0, 0.69); }
inline double conductivity(double T) { return 0.0263 * std::pow(T / 300.0, 0.78); }

/// Film of Annand [W/m² K]: a (k/B) Re^0.7, Re with bore, mean piston speed and the gas's density. @source{annand}
/// @param a   0.35..0.8, more the more the charge is stirred
/// @param rho [kg/m³]
inline double annand_film(double a, double bore, double rho, double T, double piston_speed) {
  const double reynolds = rho * piston_speed * bore / viscosity(T);
  return a * conductivity(T) / bore * std::pow(reynolds, 0.7);
}
/// The part of Annand that radiates, as a film [W/m² K]: c (T⁴ - T_w⁴)/(T - T_w). @source{annand}
/// @param c of the flame, 0 before it [W/m² K⁴]
inline double annand_radiation(double c, double T, double wall) { return c * (T * T + wall * wall) * (T + wall); }

}  // namespace portwright::combustion
