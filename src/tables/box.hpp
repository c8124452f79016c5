#pragma once
// The allowed box: least and greatest of every field of the saw file. Rows in data/limits/box.toml; own judgement.

#include <span>
#include <string>
#include <string_view>

#include "base/quantity.hpp"

namespace portwright::tables {

struct BoxRow {
  std::string field;  ///< pattern (see pattern.hpp) of field paths; or "crank.displacement", which is computed
  base::Dimension dimension{};
  double least = 0.0;      ///< SI; a multiple of `of` [-] when that is set
  double greatest = 0.0;   ///< as least
  std::string least_text;  ///< as the file has it: "20 mm", "1.5"
  std::string greatest_text;
  std::string of;      ///< path of the field it is a multiple of, "crank.stroke"; empty: it stands alone
  std::string source;  ///< "own judgement" unless a work says it
};

/// Every row. Of two rows that fit, the earlier holds.
[[nodiscard]] std::span<const BoxRow> box();

/// The row that bounds a field by itself; every field of the saw file has one (a test says so). Null for a path that is
/// none.
/// @param kind of the port, empty elsewhere
[[nodiscard]] const BoxRow* box_of(std::string_view path, std::string_view kind = {});

/// The row that bounds a field as a multiple of another, or null.
[[nodiscard]] const BoxRow* box_ratio_of(std::string_view path, std::string_view kind = {});

}  // namespace portwright::tables
