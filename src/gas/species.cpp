#include "gas/species.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <vector>

#include "tables/species.hpp"

namespace portwright::gas {
namespace {

const std::array<double, 7>& side(const Nasa7& gas, double T) { return T < gas.middle ? gas.low : gas.high; }

Nasa7 heat_of(const tables::SpeciesRow& row) { return {row.low, row.high, row.lowest, row.middle, row.highest}; }

Atoms atoms_of(const tables::SpeciesRow& row) {
  return {row.carbon, row.hydrogen, row.oxygen, row.nitrogen, row.argon};
}

std::vector<Species> read_species() {
  constexpr std::array<std::string_view, kinds> order = {"N2", "O2", "CO2", "H2O", "CO", "H2", "Ar"};
  std::vector<Species> out;
  for (const std::string_view name : order) {
    const auto rows = tables::species_rows();
    const auto row = std::find_if(rows.begin(), rows.end(), [&](const auto& one) { return one.name == name; });
    if (row == rows.end()) throw std::logic_error("gas/species.toml has no " + std::string(name));
    out.push_back({row->name, atoms_of(*row), molar_mass(atoms_of(*row)), heat_of(*row)});
  }
  return out;
}

}  // namespace

double heat_capacity(const Nasa7& gas, double T) {
  const double t = std::clamp(T, gas.lowest, gas.highest);
  const auto& a = side(gas, t);
  return universal_constant * (a[0] + t * (a[1] + t * (a[2] + t * (a[3] + t * a[4]))));
}

double enthalpy(const Nasa7& gas, double T) {
  const double t = std::clamp(T, gas.lowest, gas.highest);
  const auto& a = side(gas, t);
  const double inside =
      universal_constant * (a[5] + t * (a[0] + t * (a[1] / 2 + t * (a[2] / 3 + t * (a[3] / 4 + t * a[4] / 5)))));
  return inside + heat_capacity(gas, t) * (T - t);
}

double entropy(const Nasa7& gas, double T) {
  const double t = std::clamp(T, gas.lowest, gas.highest);
  const auto& a = side(gas, t);
  const double inside =
      universal_constant * (a[0] * std::log(t) + a[6] + t * (a[1] + t * (a[2] / 2 + t * (a[3] / 3 + t * a[4] / 4))));
  return inside + heat_capacity(gas, t) * std::log(T / t);
}

double molar_mass(const Atoms& atoms) {
  return 1e-3 * (12.011 * atoms.carbon + 1.00794 * atoms.hydrogen + 15.9994 * atoms.oxygen + 14.0067 * atoms.nitrogen +
                 39.948 * atoms.argon);
}

const Species& species(Kind kind) {
  static const std::vector<Species> all = read_species();
  return all.at(static_cast<std::size_t>(kind));
}

base::Result<Fuel> fuel(std::string_view name) {
  for (const tables::SpeciesRow& row : tables::fuel_rows())
    if (row.name == name) return Fuel{atoms_of(row), molar_mass(atoms_of(row)), heat_of(row), row.latent};
  return base::fail(base::ErrorCode::not_found, "no fuel " + std::string(name));
}

const Fuel& gasoline() {
  static const Fuel usual = fuel("gasoline").value();
  return usual;
}

double oxygen_wanted(const Atoms& fuel) { return fuel.carbon + fuel.hydrogen / 4.0 - fuel.oxygen / 2.0; }

double lower_heating_value(const Fuel& fuel) {
  const double T = reference_temperature;
  const double before = enthalpy(fuel.vapour, T) + oxygen_wanted(fuel.atoms) * enthalpy(species(Kind::O2).heat, T);
  const double after = fuel.atoms.carbon * enthalpy(species(Kind::CO2).heat, T) +
                       fuel.atoms.hydrogen / 2.0 * enthalpy(species(Kind::H2O).heat, T);
  return (before - after) / fuel.molar_mass;
}

}  // namespace portwright::gas
