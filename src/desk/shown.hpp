#pragma once
// Values for a person: SI inside, the bench's unit and its text outside. Inside the module only.

#include <string>

#include "base/number_text.hpp"
#include "base/quantity.hpp"
#include "base/shown_unit.hpp"
#include "wire/answer.hpp"

namespace portwright::desk {

/// Name of the SI unit of a kind: "m", "Pa"; of a count or share "-".
[[nodiscard]] const char* si_unit(base::Dimension dimension);

/// A number with its range and both texts.
[[nodiscard]] wire::Value value_of(const base::Spread& spread, const std::string& unit, base::UnitStyle style);

/// Half the width of a 95 % range of a normal error, in sigmas.
inline constexpr double sigmas_of_95 = 1.959963984540054;

}  // namespace portwright::desk
