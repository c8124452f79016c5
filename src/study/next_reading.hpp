#pragma once
// Which reading to take next: what is missing and would bring the most, what is rough and would narrow the most. Inside
// the module only.

#include <vector>

#include "study/case.hpp"
#include "study/sensitivity.hpp"

namespace portwright::study {

/// Most that are named.
inline constexpr std::size_t most_next_readings = 8;

/// Best first. A missing reading is worth the weights of the figures that wait for it, shared among all that each waits
/// for; a rough one the weights of the figures it would narrow times the part of the range it would take away, read
/// with the best instrument for it, or, an edge, by height beside the wheel with the usual one.
[[nodiscard]] std::vector<NextReading> next_readings(const Case& study_case, const Measures& measures,
                                                     const Sensitivity& sensitivity, base::UnitStyle style);

/// The reading that an assumption stands for: "assumed.rod_ratio" is "crank.rod"; empty where nobody reads it.
[[nodiscard]] std::string reading_of_assumption(std::string_view path);

}  // namespace portwright::study
