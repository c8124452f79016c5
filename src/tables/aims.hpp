#pragma once
// Aims: bands a builder steers for, by use. Shown, never findings. Rows in data/aims.toml.

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace portwright::tables {

/// A band in the figure's unit; an end that is open is not there.
struct Band {
  std::optional<double> low;
  std::optional<double> high;
};

struct AimRow {
  std::string figure;  ///< pattern (see pattern.hpp) of figure ids
  std::string unit;
  std::string when;  ///< "no bridge" or "bridged" (the port), "skirt intake"; empty: always
  std::optional<Band> stock;
  std::optional<Band> work;
  std::optional<Band> race;
  std::string item;  ///< in words: "exhaust opens"
  std::string source;

  /// Band of a use (stock | work | race), if the row has one.
  [[nodiscard]] const std::optional<Band>& of_use(std::string_view use) const;
};

[[nodiscard]] std::span<const AimRow> aims();

/// The first row that speaks of a figure under a condition ("" or the port's "no bridge" / "bridged"), or null.
[[nodiscard]] const AimRow* aim(std::string_view figure, std::string_view kind = {}, std::string_view condition = {});

}  // namespace portwright::tables
