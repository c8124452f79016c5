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

/// What a hand can cut: "0.05 mm", "1 thou", "none" (0); empty: 0.05 mm [m].
[[nodiscard]] base::Result<double> step_of(const std::string& text);
/// That a hard limit may be passed: "5 %"; empty: 5 % [-].
[[nodiscard]] base::Result<double> chance_of(const std::string& text);

/// @param sheet half bands of a cut sheet, whose one-sided wishes are planned inside; null: of a plan
[[nodiscard]] base::ResultAll<Planned> planned(const PlanRequest& request, const plan::Bands* sheet = nullptr);

/// A list of cuts decided by hand as the only way, its figures instead of wishes; amounts are rounded only where the
/// request names a step.
[[nodiscard]] base::ResultAll<Planned> planned_by_hand(const PlanRequest& request, const std::string& text,
                                                       const plan::Bands& bands);

}  // namespace portwright::desk
