#pragma once
// Sheets of paper and what a printer does to them.

#include <optional>
#include <string_view>

#include "base/error.hpp"

namespace portwright::sheet {

struct Paper {
  std::string_view name;
  double width = 210.0, height = 297.0;  ///< [mm]
};
inline constexpr Paper a4{"A4", 210.0, 297.0};
inline constexpr Paper letter{"Letter", 215.9, 279.4};
/// "A4" or "Letter", whatever the case.
[[nodiscard]] std::optional<Paper> find_paper(std::string_view name);

/// Length of both check bars [mm].
inline constexpr double check_bar_length = 100.0;

/// What the two check bars of a sheet printed without correction measured [mm]: across the page and along it.
struct Printer {
  double across = check_bar_length;
  double along = check_bar_length;
  /// Factors that make this printer print true [-].
  [[nodiscard]] double correction_across() const { return check_bar_length / across; }
  [[nodiscard]] double correction_along() const { return check_bar_length / along; }
};

}  // namespace portwright::sheet
