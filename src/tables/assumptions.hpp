#pragma once
// What is taken for a reading that is missing or that nobody takes. Rows in data/assumptions.toml, each with its
// source.

#include <span>
#include <string>
#include <string_view>

#include "base/quantity.hpp"

namespace portwright::tables {

struct AssumptionRow {
  std::string name;  ///< unique: "rod_ratio"
  base::Dimension dimension{};
  double value = 0.0;     ///< SI
  double sigma = 0.0;     ///< one sigma, SI (a difference)
  double least = 0.0;     ///< samples are kept inside, SI; minus infinity when the file sets none
  double greatest = 0.0;  ///< as least, plus infinity
  std::string unit;       ///< in which it is shown: "mm", "-", "GPa" is written "MPa"
  std::string sentence;   ///< what it stands for, for a person
  std::string source;
};

[[nodiscard]] std::span<const AssumptionRow> assumptions();

/// The row of a name. A name that the table does not have is a broken contract (std::logic_error).
[[nodiscard]] const AssumptionRow& assumption(std::string_view name);

}  // namespace portwright::tables
