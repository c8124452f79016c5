#pragma once
// The one place where a number becomes text: rounded to what its range allows, in the unit style asked for.

#include <optional>
#include <string>
#include <string_view>

namespace portwright::base {

/// Two ways to write units: the shop's (thou beside mm, psi, cc) and metric (mm, bar, cm³).
enum class UnitStyle { shop, metric };

/// A value with its 95 % range, in the figure's own unit (not SI).
struct Spread {
  double value = 0.0;
  std::optional<double> low;
  std::optional<double> high;
};

/// Decimals that the range allows: the last digit shown is worth no less than a twentieth and no more than
/// half of the half-range; without a range `fallback` decimals. At most 6, at least 0.
[[nodiscard]] int decimals_for(const Spread& spread, int fallback);

/// "103.0 deg", "0.89 mm (35 thou)" and "180 psi (12.4 bar)" in shop style; minus is U+2212, thousands are parted by
/// U+202F. A range too wide for the last whole digit rounds to tens, hundreds ... A value that is not finite is an em
/// rule. `unit` is a figure unit of the contract: "mm", "deg", "cm3", "cm2", "%", "-", "psi", "m/s", "rpm", "s/m" ...
[[nodiscard]] std::string value_text(const Spread& spread, std::string_view unit, UnitStyle style);

/// "102.0 to 104.0", digits as value_text; empty without a range.
[[nodiscard]] std::string range_text(const Spread& spread, std::string_view unit, UnitStyle style);

/// "+3.9", "−1.9", with its sign, but none on what rounds to nothing ("0.0"); digits by the change's own range.
[[nodiscard]] std::string change_text(const Spread& change, std::string_view unit, UnitStyle style);

/// Plain number with `decimals` digits, typographic minus and thousands; never "-0".
[[nodiscard]] std::string number_text(double value, int decimals);

}  // namespace portwright::base
