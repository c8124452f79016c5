#pragma once
// Text of a quantity as a hand types it: "50.0 mm", "47 thou", "1 3/16 in", "0,5 mm", "103 deg +- 0.5".

#include <string_view>

#include "base/error.hpp"
#include "base/quantity.hpp"

namespace portwright::base {

/// Reads a quantity of the kind asked for.
/// Accepts point or comma, fractions and mixed fractions, a tolerance after `+-` or `±` (in the value's unit unless it
/// names its own), any spelling of units(). U+2212 and the en dash count as minus.
/// Refuses, with what it could have meant in `readings`: a bare number, a thousands group ("1,250 mm"), two points, several
/// quantities, a unit of another kind, numbers that are not finite, text over 64 bytes.
/// @param path field name, put into the error
[[nodiscard]] Result<Quantity> parse_quantity(std::string_view text, Dimension expected, std::string_view path = {});

/// Reads a quantity of any kind; a unit is needed. For the `units` command.
[[nodiscard]] Result<Quantity> parse_any_quantity(std::string_view text);

}  // namespace portwright::base
