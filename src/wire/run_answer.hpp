#pragma once
// Answers of the use cases that turn the engine.

#include <optional>
#include <string>
#include <vector>

#include "wire/answer.hpp"

namespace portwright::wire {

/// One speed of a curve.
struct RunPoint {
  double rpm = 0.0;
  std::vector<study::Figure> figures;  ///< run.*, with stock and change where there are cuts
  std::string settled;                 ///< stable | alternating | two-solution | steep | not settled
  int cycles = 0;
  double mass_residual = 0.0, energy_residual = 0.0;
};

/// A difference from stock at one speed over the same sets of assumptions on both sides.
struct RunChange {
  std::string figure, label, unit;
  double rpm = 0.0;
  double stock = 0.0, stock_low = 0.0, stock_high = 0.0;
  double change = 0.0, low = 0.0, high = 0.0;
  bool distinguishable = false;  ///< the range does not span zero
  std::string text, range;       ///< "+0.12 kW (+4 %)", "+0.05 to +0.19"; "not told apart"
};

struct RunAnswer {
  Head head;
  double rated_rpm = 0.0;
  std::string rated_from;  ///< "stock power reading" | "greatest power of the mean stock curve"
  bool anchored = false;   ///< the saw's own stock power was there to weigh the assumptions by
  std::string promise;     ///< what may be read out of it: one sentence or two
  std::vector<RunPoint> points;
  std::vector<study::Figure> bands;  ///< at rated speed, over the assumptions: power as an order of size
  std::vector<RunChange> changes;    ///< with cuts only, at 0.65, 1 and 1.25 of rated
  std::vector<study::Finding> findings;
  std::optional<double> zero_torque_rpm;
  std::vector<study::Figure> figures;  ///< of the whole curve: run.zero_torque_rpm
  std::vector<std::string> written;    ///< files
  std::vector<std::string> warnings, cautions;
  bool stopped = false;
};

struct CrankAnswer {
  Head head;
  std::vector<study::Figure> figures;  ///< crank.gauge, with stock and change where there are cuts
  std::vector<double> strokes_bar;     ///< what the needle shows after each pull, gauge
  std::optional<double> read_bar;      ///< gauge_compression as read
  std::string verdict;                 ///< how reading and estimate sit together
  std::vector<study::Finding> findings;
  std::vector<std::string> cautions;
  bool stopped = false;
};

/// What one cause costs in one passage.
struct AirLoss {
  std::string cause;
  double pressure_mbar = 0.0, share = 0.0;  ///< of what drives the passage
};

struct AirWay {
  std::string name, kind;  ///< port's name, or "tract"
  int count = 1;
  double forward_mg = 0.0, back_mg = 0.0;  ///< in a turn, all of its windows
  double share = 0.0;                      ///< of the net flow of its kind
  std::vector<AirLoss> losses;             ///< greatest first
  std::string sentence;
};

/// What opening the case to a passage would bring, the case volume it adds counted.
struct AirGain {
  std::string port;
  std::string cut;  ///< "mouth primary to 1.9 cm2"
  double charging_percent = 0.0, power_percent = 0.0;
  std::string sentence;
};

struct AirflowAnswer {
  Head head;
  double rpm = 0.0;
  std::string rpm_from;
  std::vector<study::Figure> figures;  ///< delivery, trapping, charging, blow-back, spit-back
  std::vector<AirWay> ways;
  std::vector<AirGain> gains;
  std::string settled;
  std::vector<std::string> written, cautions;
  bool stopped = false;
};

}  // namespace portwright::wire
