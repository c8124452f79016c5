#pragma once
// Ideal gases as rows: atoms of a molecule and two polynomials. Rows in data/gas/species.toml, each with its source.

#include <array>
#include <span>
#include <string>

namespace portwright::tables {

/// Atoms of one molecule and the seven coefficients below and above `middle` (see the head of the table).
struct SpeciesRow {
  std::string name;  ///< unique: "N2", "gasoline"
  double carbon = 0.0, hydrogen = 0.0, oxygen = 0.0, nitrogen = 0.0, argon = 0.0;
  double lowest = 0.0, middle = 0.0, highest = 0.0;  ///< [K]
  std::array<double, 7> low{}, high{};
  double latent = 0.0;  ///< of a fuel, at 298 K [J/kg]
  std::string source;   ///< key of docs/references.bib and what was done with it, or "memory"
};

/// Gases of the air and of burned gas.
[[nodiscard]] std::span<const SpeciesRow> species_rows();
/// Vapours of fuels; the first is the usual one.
[[nodiscard]] std::span<const SpeciesRow> fuel_rows();

}  // namespace portwright::tables
