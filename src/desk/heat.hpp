#pragma once
// The use case about heat: where a cylinder runs hot, and what a cut or another way of running does to it.

#include "desk/run.hpp"
#include "wire/heat_answer.hpp"

namespace portwright::desk {

struct HeatRequest {
  std::string file, cuts;
  std::string speed;    ///< "9000" [rpm]; empty: the in-cut reading, else 9,000
  std::string picture;  ///< SVG of the map; empty: none
  base::UnitStyle style = base::UnitStyle::shop;
  std::string book = {};  ///< that `book:NAME` speaks of; empty: PORTWRIGHT_BOOK, else the usual one
  int members = 32;       ///< sets of assumptions
  bool brief = false;     ///< places, figures and map alone: no other way of running, no engine stopped hot
};
/// Errors: as airflow; no fins, a row of fins that lacks a reading, sectors that overlap, a sentence each.
[[nodiscard]] base::ResultAll<wire::HeatAnswer> heat(const HeatRequest& request, const Watch& watch = {});

}  // namespace portwright::desk
