#pragma once
// The bottom end's picture from its answer. Inside the module only.

#include "desk/case.hpp"
#include "wire/bottom_end_answer.hpp"

namespace portwright::desk {

/// The ladder, loads over the turn, thrust and wall left, as SVG.
[[nodiscard]] base::Result<std::string> revs_picture(const Case& opened, const wire::RevsAnswer& answer);

}  // namespace portwright::desk
