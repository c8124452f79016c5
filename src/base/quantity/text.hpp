#pragma once
// Text of a quantity as a hand types it: "50.0 mm", "47 thou", "1 3/16 in", "0,5 mm", "103 deg +- 0.5".

#include <string_view>

#include "base/error.hpp"
#include "base/quantity.hpp"

namespace portwright::base {

/// Reads a quantity of the kind asked for.
/// Accepts point or comma, fractions below one and mixed fractions ("1 3/16 in", in inches also "1-3/16 in"), thousands
/// parted by U+202F or U+2009, a tolerance after `+-`, `+/-` or `±` (in the value's unit unless it names its own; one
/// unit may stand after both), any spelling of units(). U+2212 and the en dash count as minus. A share below one and a
/// count are plain numbers. Refuses, with what it could have meant in `readings`, each of which can itself be read: a
/// bare number; comma or blank before three digits ("1,250 mm"), and a point where nobody reads three places ("13.500
/// rpm"); two points; fractions of one or more ("19/16 in"); spans; powers of ten; letters for digits; several
/// quantities, feet and inches; units of two meanings ("mil", "tenths", "deg" as temperature); a datum ("deg BTDC",
/// "psig"), which is the field's to say. A unit of another kind is `wrong_unit`; temperatures below the absolute zero
/// and numbers above 1e9 are `out_of_range`; all else `unreadable`, also text over 64 bytes, not UTF-8, or with control
/// characters.
/// @param path field name, put into the error
[[nodiscard]] Result<Quantity> parse_quantity(std::string_view text, Dimension expected, std::string_view path = {});

/// Reads a quantity of any kind; a unit is needed. For the `units` command.
[[nodiscard]] Result<Quantity> parse_any_quantity(std::string_view text);

}  // namespace portwright::base
