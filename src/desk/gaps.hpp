#pragma once
// What is left between values and limits, as rows of a picture. Inside the module only.

#include <vector>

#include "base/number_text.hpp"
#include "wire/answer.hpp"

namespace portwright::desk {

/// Gives the findings that do not hold a letter each, A to Z in their order.
void fill_letters(std::vector<study::Finding>& findings);

/// A row for every finding on a number, with the texts of its figure.
[[nodiscard]] std::vector<wire::Gap> gaps_of(const std::vector<study::Finding>& findings,
                                             const std::vector<study::Figure>& figures, base::UnitStyle style);

}  // namespace portwright::desk
