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

/// One field of a saw's readings, with what was typed into it.
struct FormField {
  std::string path, label, kind;
  std::string dimension, second_dimension;
  std::vector<std::string> units;
  std::string typical, how, drawing;
  int number = 0;  ///< on the drawing; 0: none
  std::vector<std::string> typed;
  std::string with, setup, note, borrowed_from;
  std::string read;  ///< as understood
  base::Errors errors;
  std::vector<std::string> choices, instruments;
  bool seldom = false;
};

struct FormGroup {
  std::string id, label, port;
  std::vector<FormField> fields;
};

struct FormMissing {
  std::string path, label, gain;
};

/// A part that a saw may have and this one has not.
struct FormAddition {
  std::string what, label, path, value;
};

struct FormAnswer {
  Head head;
  std::string revision;  ///< of a saw of the book; empty: of a file
  std::vector<FormGroup> groups;
  std::vector<FormMissing> missing;
  std::vector<EdgeCheck> checks;
  std::string wheel;
  std::vector<FormAddition> may_add;
  int taken = 0, asked = 0;
};

/// One cut as a page sends it: no grammar but its words.
struct StepIn {
  std::string act;
  std::optional<double> amount = {};
  std::vector<double> amounts = {};
  std::string unit = {}, tail = {}, words = {};
};

/// One cut with what may be turned on it.
struct Step {
  std::string text;
  std::string act, tail, words, form, target, title;
  std::optional<double> amount;
  std::vector<double> amounts;
  std::string unit;
  std::optional<double> least, most, step;
  std::string least_says, most_says;
  std::optional<double> stop;
  std::string now_text, stop_text, then_text, wheel_stop, wheel_then;
};

struct StepsAnswer {
  Head head;
  std::string text;
  std::vector<Step> steps;
  std::vector<Step> may_add;
};

}  // namespace portwright::wire
