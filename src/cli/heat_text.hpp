#pragma once
// Where it runs hot, as text.

#include "cli/texts.hpp"
#include "wire/heat_answer.hpp"

namespace portwright::cli {

[[nodiscard]] std::string heat_text(const wire::HeatAnswer& answer, const Setting& setting);

}  // namespace portwright::cli
