#pragma once
// A plan as text for a person.

#include "cli/texts.hpp"
#include "wire/plan_answer.hpp"

namespace portwright::cli {

[[nodiscard]] std::string plan_text(const wire::PlanAnswer& answer, const Setting& setting);

}  // namespace portwright::cli
