#pragma once
// A plan as a cut sheet on paper: the use case. See desk/desk.hpp for what all requests share.

#include "desk/desk.hpp"
#include "desk/plan.hpp"

namespace portwright::desk {

struct CutSheetRequest {
  PlanRequest plan;   ///< of `done` too: the sheet then stands beside what was planned before the first cut
  int way = 1;        ///< number of the plan as `plan` lists them
  std::string band;   ///< half bands: "1 deg", "0.05 mm", or both with a comma; empty: 1 deg, 0.05 mm of squish
  std::string hand;   ///< one sigma of a ground cut to a mark: "0.1 mm"; empty: as the book has learnt it, else that
  std::string paper;  ///< A4 | Letter | A5 (a card); empty: A4
  std::string output;
  std::string cuts = {};  ///< a list decided by hand instead of `plan.wishes`: exactly one of the two
};
/// Errors: those of a plan; wishes and cuts at once, or neither; a plan number that is not there; a band that reading
/// and hand do not allow, with the readings that would do.
[[nodiscard]] base::ResultAll<wire::WrittenAnswer> cut_sheet(const CutSheetRequest& request);
[[nodiscard]] base::ResultAll<Sheet> cut_sheet_drawn(const CutSheetRequest& request);

}  // namespace portwright::desk
