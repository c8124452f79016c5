#pragma once
// Answers about the bottom end and the chain.

#include <optional>
#include <string>
#include <vector>

#include "wire/answer.hpp"
#include "wire/curve_answer.hpp"

namespace portwright::wire {

/// A speed with its range [rpm].
struct RungSpeed {
  double rpm = 0.0;
  std::optional<double> low, high;
  std::string text, range;
};

/// One rung of the ladder of speeds.
struct Rung {
  std::string id;    ///< "piston_speed", "ring.1.flutter", "big_end.load", "main.life", "limiter"
  std::string name;  ///< for a person
  std::string kind;  ///< hard | note | mark
  std::optional<RungSpeed> free, cut;
  std::optional<RungSpeed> stock_free, stock_cut;  ///< with cuts only
  std::string why;
  std::string moves;      ///< what would move it and how far; empty: nothing asked about
  std::string waits_for;  ///< sentence, where there is no speed
  std::string source;
};

struct RevsAnswer {
  Head head;
  double cut_rpm = 0.0, free_rpm = 0.0;
  std::string cut_from, free_from;
  bool turned = false;  ///< the engine was turned; else only what needs no gas is told
  std::vector<study::Figure> figures;
  std::vector<study::Finding> findings;
  std::vector<Rung> rungs;  ///< the lowest free speed first; those that wait last
  std::vector<double> angle_deg;
  std::vector<TraceSeries> series;
  std::string duty;
  std::vector<std::string> sentences;  ///< the answer, for a person
  std::vector<std::string> waits;      ///< what is not told, and why
  std::vector<std::string> written, cautions;
  bool stopped = false;
};

/// One sprocket in the wood as it is.
struct Sprocket {
  int teeth = 0;
  bool fitted = false;
  std::string meets;  ///< holds | bogs | runs away
  double rpm = 0.0;
  std::optional<double> rpm_low, rpm_high;
  double chain_speed = 0.0, wood_power_kw = 0.0;
  double chance = 0.0;  ///< that it leaves most for the wood, over the draws
  std::string sentence;
};

/// A width of wood and the sprocket for it.
struct WoodWidth {
  double width_mm = 0.0;
  int teeth = 0;  ///< 0: it bogs with each
  double chance = 0.0;
  std::string sentence;
};

struct ChainAnswer {
  Head head;
  double rpm = 0.0;
  std::string rpm_from;
  double width_mm = 0.0;
  std::string width_from;
  bool anchored = false;
  std::vector<study::Figure> figures;
  std::vector<study::Finding> findings;
  std::vector<Sprocket> sprockets;
  std::vector<WoodWidth> widths;
  std::vector<std::string> sentences, waits, warnings, cautions;
  bool stopped = false;
};

}  // namespace portwright::wire
