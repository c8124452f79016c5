#pragma once
// The order of a list's cuts where the squish between two of them counts, and what a cut that is done may be. Inside
// the module only.

#include <functional>

#include "cuts/cut.hpp"
#include "plan/levels.hpp"

namespace portwright::plan {

/// Cuts that are done come first, as they were. Of the rest, what opens the squish (band, crown edge, thicker gasket)
/// comes before what closes it (gasket out, base) where the usual order would pass `least` on its way: opening first,
/// the squish between steps is never less than at the beginning or at the end.
/// @param squish least squish after a list [m]; least what it must not fall below [m]
[[nodiscard]] cuts::CutList in_safe_order(const cuts::CutList& list, const cuts::CutList& done, double least,
                                          const std::function<Known(const cuts::CutList&)>& squish);

/// Cuts that are told as done and would put metal on: a roof that went down, a face that grew. Each with the cut that
/// was probably meant. What is welded, sleeved or swapped is no such cut.
/// @param path field that the list stands in  @param told what is said of such a cut before "and would put metal on"
[[nodiscard]] base::Errors against_their_kind(const cuts::CutList& done, const std::string& path = "done",
                                              const std::string& told = "is told as done");

}  // namespace portwright::plan
