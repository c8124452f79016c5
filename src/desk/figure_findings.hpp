#pragma once
// Limits held against figures that are there already, whichever use case made them. Inside the module only.

#include <vector>

#include "base/number_text.hpp"
#include "study/figure.hpp"
#include "study/finding.hpp"

namespace portwright::desk {

/// Limits that speak of figures with a value, worst first; each figure's range taken for a normal law's 95 %.
[[nodiscard]] std::vector<study::Finding> findings_on(const std::vector<study::Figure>& figures, base::UnitStyle style);

}  // namespace portwright::desk
