#pragma once
// What reed petals are made of. Rows in data/materials.toml, each with its source.

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace portwright::tables {

struct MaterialRow {
  std::string name;                    ///< as shown: "glass epoxy"
  std::vector<std::string> names;      ///< every word it is known by, `name` first
  double modulus = 0.0, sigma = 0.0;   ///< in bending along the petal, one sigma [Pa]
  double least = 0.0, greatest = 0.0;  ///< samples are kept inside [Pa]
  double density = 0.0;                ///< [kg/m³]
  std::string note;                    ///< may be empty
  std::string source;
};

[[nodiscard]] std::span<const MaterialRow> materials();

/// The row of a typed word, case and outer blanks aside; null when no material has it.
[[nodiscard]] const MaterialRow* material(std::string_view word);

}  // namespace portwright::tables
