#pragma once
// A port's window measured on the photo of its rubbing, as plain data. What each field means is said once, in
// wire/shapes_rubbing.hpp.

#include <string>
#include <vector>

#include "base/number_text.hpp"

namespace portwright::wire {

/// x, y.
using Pair2 = std::vector<double>;

/// What a person adds to the photo. All of it may be left out.
struct RubbingHints {
  std::vector<Pair2> corners = {};
  std::vector<Pair2> inside = {};
  std::vector<Pair2> points = {};
  std::vector<Pair2> upright = {};
  std::string line = "middle";
  std::string across = {}, down = {};
  bool taped = false;
  std::string face = "inside";
};

/// A window measured on a photo.
struct AskRubbing {
  std::string photo = {};
  std::string port = {};
  RubbingHints hints = {};
  base::UnitStyle units = base::UnitStyle::shop;
};

/// The same kept as the port's outline.
struct DoRubbing {
  std::string saw = {};
  std::string photo = {};
  std::string port = {};
  RubbingHints hints = {};
  std::string base = {};
  std::string token = {};
  std::string client = {};
};

/// One number of the window with its range.
struct RubbingSize {
  double value = 0.0, low = 0.0, high = 0.0;
  std::string unit, text, range;
};

/// One reason of the area's range.
struct RubbingPart {
  std::string name;
  double plus_minus = 0.0;
  std::string text;
};

struct RubbingAnswer {
  std::string photo;
  bool found = false;
  std::string why;
  bool square = false;
  std::vector<Pair2> corners;
  double scale = 0.0, straightness = 0.0, tilt = 0.0;
  bool measured = false;
  std::vector<std::string> findings;
  std::vector<Pair2> outline, handles, points;
  int moved = 0;
  RubbingSize area, width, height, within;
  double line_width = 0.0;
  std::vector<RubbingPart> parts;
  std::string outline_text;
  std::string keep;
};

}  // namespace portwright::wire
