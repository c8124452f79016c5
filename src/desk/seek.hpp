#pragma once
// Wishes about the engine: the use case of searching cuts by the simulation. See desk/desk.hpp for what all requests
// share.

#include <functional>
#include <string>

#include "base/error.hpp"
#include "base/number_text.hpp"
#include "wire/seek_answer.hpp"

namespace portwright::desk {

struct SeekRequest {
  std::string file;
  std::string wishes;    ///< "most torque at 8000 rpm; squish at least 0.5 mm"; the grammar stands in docs/plan.md
  std::string free;      ///< cuts that may be made: "base; roof exhaust up to 1.2 mm"; empty: the usual six
  std::string step;      ///< what a hand can cut: "0.05 mm", "1 thou", "none"; empty: 0.05 mm
  std::string chance;    ///< that a hard limit may be passed: "5 %"; empty: 5 %
  double seconds = 0.0;  ///< of searching, before ranges are run; 0: 25
  int lists = 0;         ///< of cuts to try at most, with those of the memory; 0: 160, or 120 more
  int members = 16;      ///< sets of assumptions for the ranges; 1: none
  std::string memory;    ///< of an earlier answer to the same: the search goes on from there
  std::string keep;      ///< a file that the memory is read from, where it is there, and written to; empty: none
  int threads = 2;
  base::UnitStyle style = base::UnitStyle::shop;
  std::string book = {};  ///< that `book:NAME` speaks of; empty: PORTWRIGHT_BOOK, else the usual one
};

/// Told each answer as it stands; returns whether to stop. May be empty.
using SeekWatch = std::function<bool(const wire::SeekAnswer& answer)>;

/// Cut lists for a wish. Errors, all at once: a file that cannot be taken, wishes and cuts that cannot be read or that
/// this saw has not, a memory of something else, what a simulation misses.
[[nodiscard]] base::ResultAll<wire::SeekAnswer> seek(const SeekRequest& request, const SeekWatch& watch = {});

}  // namespace portwright::desk
