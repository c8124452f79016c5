#pragma once
// The answers of the program as plain data. What each field means is said once, in wire/shapes.hpp.

#include <optional>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "study/study.hpp"

namespace portwright::wire {

/// "portwright 0.1.0".
[[nodiscard]] const char* program_name();

/// A port as the saw file names it.
struct Port {
  std::string name, kind;
  int windows = 1;  ///< under this name
};

/// What the saw file says of itself.
struct Saw {
  std::string format, name, model, casting, state, use;
  std::vector<Port> ports;
};

/// What every answer begins with.
struct Head {
  std::optional<Saw> saw;         ///< none when the question is about no saw
  std::vector<std::string> cuts;  ///< canonical text, in order
  std::vector<study::Assumed> assumed;
  base::Errors errors;  ///< readings left out or contradicted; the rest stands beside them
};

/// Band of an aim; an end that is open is none.
struct Band {
  std::optional<double> low, high;
  std::string text;  ///< "98–104", in the unit style asked for
};

/// Bands that builders steer for in one figure; never a finding.
struct Aim {
  std::string figure, item, unit;
  std::optional<Band> stock, work, race;
  std::string source;
};

/// A finding that was accepted with a reason, for the value it had.
struct Acceptance {
  std::string rule, figure;
  double value = 0.0;  ///< in the figure's unit
  std::string text;    ///< the value for a person
  std::string reason, cuts, who, when;
  bool stale = false;  ///< the value is another one now: the finding stands again
};

/// What is left between a value and its limit, as a gap between two pieces of metal. Rows that hold are among them.
struct Gap {
  std::string id, rule, label, unit;
  double value = 0.0;
  std::optional<double> low, high, stock;
  std::optional<double> limit, stop;
  std::string side;
  study::State state = study::State::ok;
  std::string letter;
  std::string text, low_text, high_text, stock_text, change_text, limit_text, left_text;
};

struct StudyAnswer {
  Head head;
  double rpm = 0.0;
  std::string rpm_from;
  std::vector<study::Figure> figures;
  std::vector<study::Finding> findings;
  std::vector<Gap> gaps;                ///< of the findings that have a margin, in their order
  std::vector<Acceptance> acceptances;  ///< of a saw of the book
  std::vector<study::NextReading> next_reading;
  std::vector<Aim> aims;
  std::vector<std::string> warnings;
  std::optional<double> metal_mm3;  ///< with cuts only
  std::vector<std::string> cautions;
};

struct WhyAnswer {
  Head head;
  study::Figure figure;
  std::vector<study::Share> inputs;
  std::optional<Aim> aim;
};

/// One reading as it was understood.
struct ReadAs {
  std::string path;
  double value = 0.0, sigma = 0.0;
  std::string unit, text, source;
};

struct EdgeReading {
  std::string path;
  std::optional<double> height_mm;
  double drop_mm = 0.0;
  std::optional<double> low, high;  ///< of height_mm
  std::string text;
};

struct EdgeCheck {
  std::string port, edge;
  std::vector<EdgeReading> readings;
  bool agrees = true;
  double gap_mm = 0.0;
  std::string gap_text, mend;
};

struct CheckAnswer {
  Head head;
  std::vector<EdgeCheck> edges;
  std::string wheel;
  std::vector<ReadAs> readings;
};

struct ComparedFinding {
  std::string rule, figure;
  std::optional<study::State> a, b;
  std::string text_a, text_b;
};

struct CompareAnswer {
  Head head;                 ///< of the first saw and its cuts
  std::optional<Saw> saw_b;  ///< none: the same saw
  std::vector<std::string> cuts_b;
  std::vector<study::Compared> figures;
  std::vector<ComparedFinding> findings;
  std::vector<std::string> cautions;
};

/// A number with its range and its text.
struct Value {
  double value = 0.0;
  std::optional<double> low, high;
  std::string text, range;
};

/// One way to say where an edge is.
struct EdgeForm {
  std::string form;  ///< opens | closes | duration | drop | height | deg_per_mm
  std::string label, unit;
  std::optional<Value> read, at, cut, change;
  std::vector<std::string> waits_for;
};

struct EdgeAnswer {
  Head head;
  std::string port, kind, edge;
  std::string asked;  ///< the place asked about, as understood; empty: none
  std::vector<EdgeForm> forms;
  std::optional<Value> move;  ///< from the edge as read to the place asked about [mm], + upward
  std::string move_sentence;
};

struct UnitForm {
  double value = 0.0;
  std::string unit, text;
};

struct UnitsAnswer {
  Head head;
  std::string typed, kind;
  double value = 0.0;
  std::string unit;
  double value_si = 0.0;
  std::string unit_si;
  std::optional<double> sigma;
  std::vector<UnitForm> also;
};

/// A file that was written.
struct WrittenAnswer {
  Head head;
  std::string kind;  ///< new | map | template | cut-sheet | measuring-sheet
  std::string file;  ///< "-": standard output
  std::string format;
  int bytes = 0;
  int pages = 1;
  std::string paper;
  std::vector<std::string> notes;
};

struct ErrorAnswer {
  base::Errors errors;
};

}  // namespace portwright::wire
