#include "tables/species.hpp"

#include <algorithm>

#include "tables/document.hpp"

namespace portwright::tables {
namespace {

constexpr const char* file = "gas/species.toml";
const std::vector<std::string> names = {"species", "fuel"};

std::array<double, 7> coefficients(const Row& row, const char* key) {
  const std::vector<double> numbers = row.numbers(key);
  if (numbers.size() != 7) row.broken(std::string(key) + " must be seven numbers");
  std::array<double, 7> out{};
  std::copy(numbers.begin(), numbers.end(), out.begin());
  return out;
}

SpeciesRow read(const Row& row, bool fuel) {
  SpeciesRow out;
  out.name = row.text("name");
  out.carbon = row.optional_number("carbon").value_or(0.0);
  out.hydrogen = row.optional_number("hydrogen").value_or(0.0);
  out.oxygen = row.optional_number("oxygen").value_or(0.0);
  out.nitrogen = row.optional_number("nitrogen").value_or(0.0);
  out.argon = row.optional_number("argon").value_or(0.0);
  out.lowest = row.number("lowest");
  out.middle = row.number("middle");
  out.highest = row.number("highest");
  out.low = coefficients(row, "low");
  out.high = coefficients(row, "high");
  if (fuel) out.latent = row.number("latent");
  out.source = row.text("source");
  row.done();
  if (!(out.carbon + out.hydrogen + out.oxygen + out.nitrogen + out.argon > 0.0)) row.broken("a gas without atoms");
  if (!(0.0 < out.lowest && out.lowest < out.middle && out.middle < out.highest)) row.broken("ranges must rise");
  return out;
}

std::vector<SpeciesRow> read_all(const char* kind) {
  std::vector<SpeciesRow> out;
  for (const Row& row : rows(file, kind, names)) out.push_back(read(row, std::string(kind) == "fuel"));
  return out;
}

}  // namespace

std::span<const SpeciesRow> species_rows() {
  static const std::vector<SpeciesRow> table = read_all("species");
  return table;
}

std::span<const SpeciesRow> fuel_rows() {
  static const std::vector<SpeciesRow> table = read_all("fuel");
  return table;
}

}  // namespace portwright::tables
