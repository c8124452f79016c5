#pragma once
// What the simulation takes for granted, and what the estimate of temperatures does. Rows in data/run_assumptions.toml
// and data/heat_assumptions.toml, each with its range and source.

#include <span>
#include <string>

namespace portwright::tables {

struct RunRow {
  std::string name;                           ///< unique: "exit_bias"
  double value = 0.0, low = 0.0, high = 0.0;  ///< SI; low <= value <= high
  std::string unit;                           ///< in which it is shown
  double per_unit = 1.0, zero = 0.0;          ///< SI = zero + per_unit times what is shown
  std::string sentence;                       ///< what it stands for, for a person
  std::string source;
};

[[nodiscard]] std::span<const RunRow> run_rows();
/// The same of the estimate of temperatures.
[[nodiscard]] std::span<const RunRow> heat_rows();

}  // namespace portwright::tables
