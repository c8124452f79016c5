#pragma once
// The use cases about what carries and what reaches the wood: bottom end and chain. Both turn the engine first.

#include <string>

#include "base/error.hpp"
#include "base/number_text.hpp"
#include "desk/run.hpp"
#include "wire/bottom_end_answer.hpp"

namespace portwright::desk {

struct RevsRequest {
  std::string file, cuts;
  std::string speed;    ///< "13000" [rpm], free and in the cut; empty: each as read, else usual
  std::string picture;  ///< SVG: the ladder, loads over the turn, thrust and wall left; empty: none
  base::UnitStyle style = base::UnitStyle::shop;
  std::string book = {};  ///< that `book:NAME` speaks of; empty: PORTWRIGHT_BOOK, else the usual one
};
/// A saw that cannot be turned for want of readings is told what needs no gas; bore and stroke must be there.
[[nodiscard]] base::ResultAll<wire::RevsAnswer> revs(const RevsRequest& request, const Watch& watch = {});

struct ChainRequest {
  std::string file, cuts;
  int members = 16;  ///< of the ensemble
  base::UnitStyle style = base::UnitStyle::shop;
  std::string book = {};  ///< that `book:NAME` speaks of; empty: PORTWRIGHT_BOOK, else the usual one
};
/// Without pitch or teeth nothing is turned: the answer says what it waits for.
[[nodiscard]] base::ResultAll<wire::ChainAnswer> chain(const ChainRequest& request, const Watch& watch = {});

}  // namespace portwright::desk
