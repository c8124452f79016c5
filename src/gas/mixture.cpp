#include "gas/mixture.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "numerics/root.hpp"

namespace portwright::gas {
namespace {

template <class F>
double sum(const Mixture& mixture, F&& of_species, double of_fuel) {
  double total = mixture.fuel_moles > 0.0 ? mixture.fuel_moles * of_fuel : 0.0;
  for (std::size_t i = 0; i < kinds; ++i)
    if (mixture.moles[i] > 0.0) total += mixture.moles[i] * of_species(species(static_cast<Kind>(i)));
  return total;
}

// Shares out the oxygen of a rich mixture: CO2 of the four gases [mol].
double rich_co2(double carbon, double hydrogen_pairs, double oxygen) {
  const double k = water_gas_constant(water_gas_temperature);
  const double least = std::max(0.0, oxygen - carbon - hydrogen_pairs), most = std::min(carbon, oxygen - carbon);
  // (O - C - x)(C - x) - K x (H - O + C + x), falling from + to - between the bounds
  const auto imbalance = [=](double x) {
    return (oxygen - carbon - x) * (carbon - x) - k * x * (hydrogen_pairs - oxygen + carbon + x);
  };
  const double a = 1.0 - k, b = -(oxygen + k * (hydrogen_pairs - oxygen + carbon)), c = (oxygen - carbon) * carbon;
  const double root = (2.0 * c) / (-b + std::sqrt(std::max(0.0, b * b - 4.0 * a * c)));
  return imbalance(least) <= 0.0 ? least : std::clamp(root, least, most);
}

}  // namespace

double mass(const Mixture& mixture) {
  return sum(
      mixture, [](const Species& s) { return s.molar_mass; }, mixture.fuel.molar_mass);
}

double gas_constant(const Mixture& mixture) {
  return universal_constant *
         sum(
             mixture, [](const Species&) { return 1.0; }, 1.0) /
         mass(mixture);
}

double heat_capacity(const Mixture& mixture, double T) {
  return sum(
             mixture, [T](const Species& s) { return heat_capacity(s.heat, T); },
             heat_capacity(mixture.fuel.vapour, T)) /
         mass(mixture);
}

double enthalpy(const Mixture& mixture, double T) {
  return sum(
             mixture, [T](const Species& s) { return enthalpy(s.heat, T); }, enthalpy(mixture.fuel.vapour, T)) /
         mass(mixture);
}

double energy(const Mixture& mixture, double T) { return enthalpy(mixture, T) - gas_constant(mixture) * T; }

base::Result<double> temperature_of_enthalpy(const Mixture& mixture, double wanted) {
  return numerics::find_root([&](double T) { return enthalpy(mixture, T) - wanted; }, 150.0, 6000.0, 1e-9);
}

base::Result<double> temperature_of_energy(const Mixture& mixture, double wanted) {
  return numerics::find_root([&](double T) { return energy(mixture, T) - wanted; }, 150.0, 6000.0, 1e-9);
}

Mixture moist_air(double humidity_ratio) {
  Mixture air;
  air[Kind::N2] = 0.78084;
  air[Kind::O2] = 0.209476;
  air[Kind::Ar] = 0.00934;
  air[Kind::CO2] = 0.000314;
  const double water = humidity_ratio * mass(air);
  air[Kind::H2O] = water / species(Kind::H2O).molar_mass;
  return air;
}

double stoichiometric_air(double humidity_ratio, const Fuel& fuel) {
  const Mixture air = moist_air(humidity_ratio);
  return oxygen_wanted(fuel.atoms) / air[Kind::O2] * mass(air) / fuel.molar_mass;
}

double water_gas_constant(double T) {
  const auto gibbs = [T](Kind kind) { return enthalpy(species(kind).heat, T) - T * entropy(species(kind).heat, T); };
  const double change = gibbs(Kind::H2O) + gibbs(Kind::CO) - gibbs(Kind::CO2) - gibbs(Kind::H2);
  return std::exp(-change / (universal_constant * T));
}

base::Result<Mixture> burned_gas(double air_fuel, double humidity_ratio, const Fuel& fuel) {
  const double share = air_fuel / stoichiometric_air(humidity_ratio, fuel);
  if (!(share >= 0.65 && share <= 6.0))
    return base::fail(base::ErrorCode::out_of_range,
                      "an air/fuel ratio of " + std::to_string(air_fuel) + " does not burn to a gas that is known here",
                      "fuel.air_fuel", "between .65 and 6 times the air that burns all");
  Mixture gas = moist_air(humidity_ratio);
  const double fuel_moles = mass(gas) / air_fuel / fuel.molar_mass;
  const double carbon = gas[Kind::CO2] + fuel_moles * fuel.atoms.carbon;
  const double hydrogen = gas[Kind::H2O] + fuel_moles * fuel.atoms.hydrogen / 2.0;
  const double oxygen = 2.0 * gas[Kind::O2] + 2.0 * gas[Kind::CO2] + gas[Kind::H2O] + fuel_moles * fuel.atoms.oxygen;
  const double left = oxygen - 2.0 * carbon - hydrogen;
  gas[Kind::CO2] = left >= 0.0 ? carbon : rich_co2(carbon, hydrogen, oxygen);
  gas[Kind::H2O] = left >= 0.0 ? hydrogen : oxygen - carbon - gas[Kind::CO2];
  gas[Kind::CO] = carbon - gas[Kind::CO2];
  gas[Kind::H2] = std::max(0.0, hydrogen - gas[Kind::H2O]);
  gas[Kind::O2] = std::max(0.0, left / 2.0);
  return gas;
}

}  // namespace portwright::gas
