#pragma once
// Wishes about the engine, as plain data. What each field means is said once, in wire/shapes_seek.hpp.

#include <optional>
#include <string>
#include <vector>

#include "wire/answer.hpp"

namespace portwright::wire {

/// A change over stock's own, in per cent; more power, pull or torque is plus, and so is more heat.
struct SeekGain {
  double percent = 0.0;
  std::optional<double> low, high;
  bool told_apart = false;
  std::string text, range_text;
};

struct SeekKnob {
  std::string name, label, most_text;
};

/// One cut by itself.
struct SeekAlone {
  std::string name, label, amount_text;
  double aim = 0.0, pull = 0.0, power = 0.0, heat = 0.0;
};

/// One design that was tried.
struct SeekTried {
  double aim = 0.0, pull = 0.0, power = 0.0, heat = 0.0;
  bool holds = false;
};

/// One cut of an answer.
struct SeekCut {
  std::string name, label, amount_text;
  bool at_end = false;
};

struct SeekTorque {
  double rpm = 0.0, percent = 0.0;
};

struct SeekWay {
  std::string why, cuts;
  std::vector<SeekCut> steps;
  SeekGain aim, pull, power, heat;
  std::vector<SeekTorque> torque;
  double knock = 0.0;
  std::string metal_text;
  std::vector<std::string> worse;  ///< findings that the cuts bring or make worse, each a sentence
};

struct SeekAnswer {
  Head head;
  std::string wish, aim_text;
  std::vector<SeekKnob> free;
  double rated_rpm = 0.0;
  std::string bar_text;
  std::string doing;
  double share = 0.0;
  int tried_count = 0;
  std::vector<SeekTried> tried;
  std::optional<SeekTried> best;
  std::string best_cuts;
  std::vector<SeekAlone> alone;
  std::vector<SeekWay> answers;
  std::string sentence;
  bool done = false, stopped = false, out_of_time = false;
  std::string memory;
  std::vector<std::string> kept, against, warnings, cautions;
  std::string promise;
};

}  // namespace portwright::wire
