#pragma once
// Answers that come in parts while the engine turns: the curve under a slider, pressures and flows over a turn.

#include <optional>
#include <string>
#include <vector>

#include "wire/answer.hpp"

namespace portwright::wire {

/// One speed of a curve that is still getting better.
struct CurvePoint {
  double rpm = 0.0, power_kw = 0.0, torque_nm = 0.0;
  std::string stage;    ///< first look | settled | mean of turns
  std::string settled;  ///< as in RunPoint; empty at a first look
};

struct CurveAnswer {
  Head head;
  double share = 0.0;  ///< done, 0..1
  std::string doing;   ///< first look | settling | from above | done
  std::vector<CurvePoint> points, stock;  ///< ascending; without cuts `stock` is empty
  std::string sentence;                   ///< what the curve says; empty until every speed has a point
  std::string promise;                    ///< what may be read out of it
  std::vector<std::string> warnings, cautions;
  bool stopped = false;
};

/// One quantity over the turn, a value for each of the answer's angles.
struct TraceSeries {
  std::string id, label, unit;
  std::vector<double> values;
  std::vector<double> stock;  ///< empty without cuts
};

/// Where a kind of window stands open in the turn.
struct TraceWindow {
  std::string kind;  ///< exhaust | transfer | intake
  std::string label;
  double opens_deg = 0.0, closes_deg = 0.0;  ///< [deg ATDC], from 0; closes may pass 360
};

struct TracesAnswer {
  Head head;
  double rpm = 0.0;
  std::string rpm_from, settled;
  std::vector<double> angle_deg;  ///< 0..360 ATDC, by the degree
  std::vector<TraceSeries> series;
  std::vector<TraceWindow> windows, stock_windows;
  std::vector<study::Figure> figures;  ///< of this speed
  std::vector<study::Finding> findings;
  std::string sentence;
  std::vector<std::string> cautions;
  bool stopped = false;
};

}  // namespace portwright::wire
