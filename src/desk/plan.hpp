#pragma once
// From wishes to cuts: the use case of planning. See desk/desk.hpp for what all requests share.

#include <string>

#include "base/error.hpp"
#include "base/number_text.hpp"
#include "wire/plan_answer.hpp"

namespace portwright::desk {

struct PlanRequest {
  std::string file;
  std::string wishes;              ///< "exhaust at 99 deg; squish 0.5 mm"; the grammar stands in docs/plan.md
  std::string gaskets;             ///< thicknesses at hand: "0.3 mm, 0.5 mm"; empty: the one fitted, or none
  std::string step;                ///< what a hand can cut: "0.05 mm", "1 thou", "none"; empty: 0.05 mm
  std::string chance;              ///< that a hard limit may be passed: "5 %"; empty: 5 %
  std::string done = {};           ///< cuts that are done, as read: "base -0.38 mm"; the rest is planned from them
  std::optional<double> rpm = {};  ///< none: the in-cut reading, else 9,000
  base::UnitStyle style = base::UnitStyle::shop;
  std::string book = {};  ///< that `book:NAME` speaks of; empty: PORTWRIGHT_BOOK, else the usual one
};

/// Every way to reach the wishes. Errors: a file that cannot be taken, wishes that cannot be read, met, or met within
/// the limits; each says by how much.
[[nodiscard]] base::ResultAll<wire::PlanAnswer> plan(const PlanRequest& request);

/// A finding that is told before everything else of a way: a stop that was none before the cuts, and free porting.
[[nodiscard]] bool stands_on_top(const wire::PlanWay& way, const study::Finding& finding);

}  // namespace portwright::desk
