#pragma once
// A plan with all that it was made from. Inside the module only.

#include "desk/case.hpp"
#include "desk/plan.hpp"
#include "plan/plan.hpp"

namespace portwright::desk {

struct Planned {
  Case opened;
  plan::Settings settings;
  plan::Plan plan;  ///< its ways in the order of the answer's plans
  wire::PlanAnswer answer;
};

/// @param sheet half bands of a cut sheet, whose one-sided wishes are planned inside; null: of a plan
[[nodiscard]] base::ResultAll<Planned> planned(const PlanRequest& request, const plan::Bands* sheet = nullptr);

}  // namespace portwright::desk
