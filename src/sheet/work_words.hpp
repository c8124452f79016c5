#pragma once
// Words of a step on the cut sheet. Inside the module only.

#include <string>
#include <vector>

#include "base/number_text.hpp"
#include "plan/work.hpp"

namespace portwright::sheet {

/// "Raise the exhaust roof by 1.71 mm = 67 thou".
[[nodiscard]] std::string title_of(const plan::WorkStep& step, base::UnitStyle style);

/// A value of the step's figure: "99.0 deg", "0.70 mm".
[[nodiscard]] std::string figure_text(const plan::WorkStep& step, double value);

/// What to do and to read, row by row: name and text.
[[nodiscard]] std::vector<plan::Expected> step_lines(const plan::WorkStep& step, base::UnitStyle style);

/// The same in few words, for the card.
[[nodiscard]] std::vector<std::string> card_lines(const plan::WorkStep& step, base::UnitStyle style);

}  // namespace portwright::sheet
