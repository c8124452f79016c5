#pragma once
// What a text that cannot be taken could have meant. Nothing here decides: every meaning is offered, none is used.

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/quantity.hpp"

namespace portwright::base::typed {

/// Why a text is not taken, and the texts it could have meant, each of which can itself be read.
struct Doubt {
  std::string why;
  std::string hint;
  std::vector<std::string> readings;
};

/// Reads a text without looking for further meanings and gives it back in plain form ("10 mm"); none if it cannot be
/// read.
using Reader = std::function<std::optional<std::string>(const std::string&)>;

/// Doubt about a unit that has two meanings ("mil", "tenths", "mPa"), a datum in it ("deg BTDC", "psig"), or a blank
/// that parts it ("m m"). None for all other text, also for text that is no unit at all.
/// @param number plain number text before the unit, value its worth
[[nodiscard]] std::optional<Doubt> doubtful_unit(const std::string& number, double value, std::string_view unit,
                                                 std::optional<Dimension> expected);

/// What a text with an unknown unit or no number could have meant: letters struck for digits, several quantities, feet
/// and inches, degrees and minutes, a unit struck twice.
[[nodiscard]] Doubt doubt_unknown(const std::string& normal, std::optional<Dimension> expected, const Reader& reader);

/// Units that a bare number of a kind is offered with, the likeliest first.
[[nodiscard]] std::vector<const char*> usual_units(Dimension dimension);

/// "write mm, in or thou after the number": the usual units of a kind as a hint.
[[nodiscard]] std::string usual_units_text(Dimension dimension);

}  // namespace portwright::base::typed
