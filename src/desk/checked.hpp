#pragma once
// Readings as they were understood, and held against each other, for a person. Inside the module only.

#include "base/number_text.hpp"
#include "geometry/survey.hpp"
#include "wire/answer.hpp"

namespace portwright::desk {

[[nodiscard]] wire::EdgeCheck checked_edge(const geometry::EdgeCheck& check, base::UnitStyle style);

[[nodiscard]] wire::ReadAs as_understood(const geometry::Input& input, base::UnitStyle style);

}  // namespace portwright::desk
