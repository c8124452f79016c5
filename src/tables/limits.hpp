#pragma once
// Limits: what a figure is held against. Rows in data/limits/limits.toml, each with its reason and source.

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace portwright::tables {

enum class Side {
  at_least,  ///< a value under the threshold passes it
  at_most,   ///< a value over the threshold passes it
  is,        ///< a value that differs from the threshold passes it (yes is 1, no is 0)
};

/// Which engines a row speaks of.
enum class When {
  always,
  no_bridge,     ///< the port has no bridge
  bridged,       ///< the port has one
  skirt_intake,  ///< the skirt times an intake window
};

/// One limit. A row without any threshold is a note that shows the figure and says that no number is agreed.
struct LimitRow {
  std::string rule;    ///< short name, unique: "skirt_cover"
  std::string figure;  ///< pattern (see pattern.hpp) of figure ids
  Side side = Side::at_least;
  When when = When::always;
  std::optional<double> note;  ///< thresholds, in `unit`; those present grow worse from note to stop
  std::optional<double> caution;
  std::optional<double> stop;
  bool hard = false;   ///< no plan may pass it
  std::string unit;    ///< the figure's unit: "mm", "%", "-"
  std::string why;     ///< one sentence: what goes wrong beyond it
  std::string fix;     ///< one sentence: what would mend it
  std::string source;  ///< key of docs/references.bib with section, "common practice", "memory" or "own judgement"

  [[nodiscard]] bool has_threshold() const { return note || caution || stop; }
};

/// Every row, in the order in which findings are listed.
[[nodiscard]] std::span<const LimitRow> limits();

/// The row of a rule's name, or null.
[[nodiscard]] const LimitRow* limit(std::string_view rule);

/// The rows that speak of a figure, `when` not yet asked.
/// @param kind of the port, empty elsewhere
[[nodiscard]] std::vector<const LimitRow*> limits_of(std::string_view figure, std::string_view kind = {});

/// Word of a side as in the file and in JSON: "at least".
[[nodiscard]] const char* side_name(Side side);
/// Word of a condition as in the file: "no bridge"; empty for always.
[[nodiscard]] const char* when_name(When when);

}  // namespace portwright::tables
