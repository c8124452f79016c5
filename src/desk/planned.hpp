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

[[nodiscard]] base::ResultAll<Planned> planned(const PlanRequest& request);

}  // namespace portwright::desk
