#pragma once
// One ideal gas: its atoms, its weight, its heat. Exact path for tests, reports and the making of the working gas;
// kernels use gas/working_gas.hpp.

#include <array>
#include <string>
#include <string_view>

#include "base/error.hpp"

namespace portwright::gas {

/// [J/mol K]
inline constexpr double universal_constant = 8.314462618;
/// Temperature from which sensible heat is counted [K].
inline constexpr double reference_temperature = 298.15;

/// Seven coefficients below and above `middle` [K] (forms at the head of data/gas/species.toml). Beyond `lowest` and
/// `highest` the heat capacity stays what it is there. @source{nasa_tm4513, form of the polynomials}
struct Nasa7 {
  std::array<double, 7> low{}, high{};
  double lowest = 200.0, middle = 1000.0, highest = 6000.0;
};

/// At constant pressure [J/mol K].
[[nodiscard]] double heat_capacity(const Nasa7& gas, double T);
/// Formation from the elements at 298.15 K included [J/mol].
[[nodiscard]] double enthalpy(const Nasa7& gas, double T);
/// At 1 bar [J/mol K].
[[nodiscard]] double entropy(const Nasa7& gas, double T);

/// Numbers of atoms in one molecule; a fuel of many sorts has broken ones.
struct Atoms {
  double carbon = 0.0, hydrogen = 0.0, oxygen = 0.0, nitrogen = 0.0, argon = 0.0;
};
/// [kg/mol]
[[nodiscard]] double molar_mass(const Atoms& atoms);

enum class Kind { N2, O2, CO2, H2O, CO, H2, Ar };
inline constexpr std::size_t kinds = 7;

struct Species {
  std::string name;
  Atoms atoms;
  double molar_mass = 0.0;  ///< [kg/mol]
  Nasa7 heat;
};
/// Row of data/gas/species.toml.
[[nodiscard]] const Species& species(Kind kind);

struct Fuel {
  Atoms atoms;
  double molar_mass = 0.0;  ///< [kg/mol]
  Nasa7 vapour;
  double latent = 0.0;  ///< heat of evaporation at 298 K [J/kg]
};
/// A fuel of data/gas/species.toml: "gasoline", "isooctane". Fails (not_found) for another name.
[[nodiscard]] base::Result<Fuel> fuel(std::string_view name);
/// C8.26H15.5: 14.6 kg of air burn 1 kg; 43.6 MJ/kg as vapour.
[[nodiscard]] const Fuel& gasoline();
/// Oxygen molecules that burn one molecule of fuel completely [-].
[[nodiscard]] double oxygen_wanted(const Atoms& fuel);
/// Heat set free when vapour and oxygen at 298.15 K become CO2 and water vapour at 298.15 K [J/kg].
[[nodiscard]] double lower_heating_value(const Fuel& fuel);

}  // namespace portwright::gas
