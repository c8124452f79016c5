#pragma once
// Mixtures of ideal gases by the polynomials themselves: air, fuel vapour, burned gas. For tests, reports and the
// making of the working gas.

#include "gas/species.hpp"

namespace portwright::gas {

/// Any amount of a mixture. All properties below are per kilogram.
struct Mixture {
  std::array<double, kinds> moles{};  ///< in the order of Kind
  double fuel_moles = 0.0;
  Fuel fuel;  ///< which, when there is any

  double& operator[](Kind kind) { return moles[static_cast<std::size_t>(kind)]; }
  double operator[](Kind kind) const { return moles[static_cast<std::size_t>(kind)]; }
};

/// [kg]
[[nodiscard]] double mass(const Mixture& mixture);
/// [J/kg K]
[[nodiscard]] double gas_constant(const Mixture& mixture);
/// At constant pressure [J/kg K].
[[nodiscard]] double heat_capacity(const Mixture& mixture, double T);
/// Formation included [J/kg].
[[nodiscard]] double enthalpy(const Mixture& mixture, double T);
/// Formation included [J/kg].
[[nodiscard]] double energy(const Mixture& mixture, double T);
/// Inverse of `enthalpy` [K]. Fails (fault) outside 150..6000 K.
[[nodiscard]] base::Result<double> temperature_of_enthalpy(const Mixture& mixture, double enthalpy);
/// Inverse of `energy` [K]. Fails (fault) outside 150..6000 K.
[[nodiscard]] base::Result<double> temperature_of_energy(const Mixture& mixture, double energy);

/// Air of N2, O2, Ar and CO2 by the standard atmosphere's shares. @source{ussa1976, table 3, shares from memory}
/// @param humidity_ratio kilograms of water vapour for each kilogram of dry air
[[nodiscard]] Mixture moist_air(double humidity_ratio);
/// Air that burns one kilogram of fuel completely [kg].
[[nodiscard]] double stoichiometric_air(double humidity_ratio, const Fuel& fuel);

/// What one kilogram of fuel and `air_fuel` kilograms of moist air become. Lean: complete, oxygen left over. Rich: all
/// oxygen used, CO, H2, CO2 and H2O in water-gas balance as it freezes at `water_gas_temperature`. No soot, no NO, no
/// dissociation. Fails (out_of_range) when richer than .65 or leaner than 6 times the stoichiometric air.
[[nodiscard]] base::Result<Mixture> burned_gas(double air_fuel, double humidity_ratio, const Fuel& fuel);
/// [K] @source{heywood1988, section 4.9.2, from memory}
inline constexpr double water_gas_temperature = 1740.0;
/// (H2O)(CO) / (CO2)(H2) in balance [-], from the species' own enthalpies and entropies.
[[nodiscard]] double water_gas_constant(double T);

}  // namespace portwright::gas
