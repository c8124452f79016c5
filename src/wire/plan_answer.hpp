#pragma once
// From wishes to cuts, as plain data. What each field means is said once, in wire/shapes_plan.hpp.

#include <optional>
#include <string>
#include <vector>

#include "wire/answer.hpp"

namespace portwright::wire {

/// One figure that is wished.
struct PlanWish {
  std::string wish, figure, label, unit;
  std::string relation;  ///< is | at least | at most
  double stock = 0.0, asked = 0.0;
  std::string stock_text, asked_text;
};

/// What one way makes of it.
struct PlanReached {
  std::string figure;
  double exact = 0.0, reached = 0.0, left = 0.0;
  std::string reached_text, left_text;
};

/// A hard limit after one way.
struct PlanLimit {
  std::string rule, figure, label, unit;
  double value = 0.0, stop = 0.0, margin = 0.0, chance = 0.0;
  std::string text;
};

/// One cut of a way, with what it is in both scales.
struct PlanCut {
  std::string cut, exact, text;
  std::optional<double> within_mm;  ///< half-width of the amount's central 95 %, by the readings' errors
  std::string within_text;          ///< "±0.18 mm"; empty where there is none
};

struct PlanWay {
  std::vector<PlanCut> steps;
  std::string cuts, exact;
  std::vector<PlanReached> wishes;
  std::vector<study::Figure> figures;
  std::vector<study::Finding> findings;
  std::vector<PlanLimit> limits;
  std::optional<double> metal_mm3, metal_exact_mm3;
  std::string metal_text;
  bool reversible = false;
  std::string reversible_text;
  std::vector<std::string> moved, warnings;
  std::vector<std::string> newly_stopped;  ///< rules that are a stop after the cuts and were none before
  std::string work_text;                   ///< "1 turned on the lathe, 2 ground by hand"
};

struct PlanRefused {
  std::string cuts, why;
};

struct PlanAnswer {
  Head head;
  std::vector<PlanWish> wishes;
  std::vector<std::string> kept;
  std::vector<std::string> unchecked;  ///< what could not be checked or tried for want of readings
  std::vector<std::string> done;
  std::string step_text;  ///< "0.05 mm"; empty: not rounded
  double chance = 0.0;
  std::vector<PlanWay> plans;
  std::vector<PlanRefused> refused;
  std::vector<std::string> cautions;
};

}  // namespace portwright::wire
