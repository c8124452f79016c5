#pragma once
// Answers that a drawing on a screen is made from. What each field means is said once, in wire/shapes_page.hpp.
//
// One frame for all of a bore: the wall unrolled, x [mm] from the left edge of the seam to the right, clockwise seen
// from the plug; y [mm] the drop below the crown edge's TDC place, downward. With cuts both engines stand in the frame
// of the one after them. Crank angles are after TDC, 0 to 360; what is open over TDC closes at a smaller one than it
// opens.

#include <optional>
#include <string>
#include <vector>

#include "wire/answer.hpp"

namespace portwright::wire {

/// Something that cannot be told yet, and the readings it waits for.
struct Waiting {
  std::string what, port, text;
  std::vector<std::string> waits_for;
};

/// Roof or floor of a window.
struct BoreEdge {
  double at_mm = 0.0;
  std::optional<double> low, high;  ///< of at_mm
  std::string text;
  std::optional<Value> height;  ///< above the base face [mm]
  std::optional<double> at_deg;
  bool timed = false;
  std::string act;
  int raise_is = -1;
  bool moved = false;
};

struct BoreWindow {
  std::string id, port, label, kind;
  int rank = 0, side = 0;
  std::string opened_by;
  std::string path;
  double x_mm = 0.0, y_mm = 0.0, w_mm = 0.0, h_mm = 0.0;  ///< the box: left, top, width, height
  double middle_mm = 0.0, centre_deg = 0.0;
  std::optional<double> opens_deg, closes_deg;
  std::optional<Value> chord;
  BoreEdge roof, floor;
  bool free_port = false, changed = false;
  int cut = 0;
};

struct BoreRing {
  double from_mm = 0.0, to_mm = 0.0;
  std::optional<double> pin_x_mm, pin_deg;
};

struct BoreHole {
  double x_mm = 0.0, y_mm = 0.0, across_mm = 0.0;
};

struct BorePiston {
  std::optional<double> height_mm;
  std::optional<std::string> skirt_path, outline_path;
  std::vector<BoreRing> rings;
  std::vector<std::string> window_paths;
  std::vector<BoreHole> pin_ends;
  std::optional<double> pressed_deg;
};

struct BoreArea {
  std::string port, label, kind;
  int rank = 0, windows = 1;
  std::vector<double> mm2;  ///< 361
};

struct BoreEvent {
  std::string id, port, kind, label;
  double opens_deg = 0.0, closes_deg = 0.0, duration_deg = 0.0;
  std::string short_text, text;
};

struct BoreWall {
  std::string from, to;
  double x_mm = 0.0, to_x_mm = 0.0, y_mm = 0.0;
  Value width;
};

struct BoreStock {
  std::vector<BoreWindow> windows;
  std::vector<BoreArea> areas;
  std::vector<BoreEvent> events;
  double shift_mm = 0.0;
};

struct BoreAnswer {
  Head head;
  std::optional<double> bore_mm, stroke_mm, around_mm, seam_deg, head_mm, base_mm, bdc_mm, bdc_deg;
  std::optional<std::vector<double>> drop_mm;  ///< 361
  BorePiston piston;
  std::vector<BoreWindow> windows;
  std::vector<BoreArea> areas;
  std::vector<BoreEvent> events;
  std::optional<BoreWall> wall;
  std::string sentence;
  std::optional<BoreStock> stock;
  std::vector<Waiting> waits;
};

}  // namespace portwright::wire
