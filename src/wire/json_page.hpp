#pragma once
// Schemas of the answers of wire/page_answer.hpp; to_json and from_json of wire/json.hpp know these answers too.

#include <vector>

#include "wire/json.hpp"
#include "wire/page_answer.hpp"

namespace portwright::wire {

/// In the table's order.
[[nodiscard]] std::vector<Schema> page_schemas();

}  // namespace portwright::wire
