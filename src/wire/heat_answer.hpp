#pragma once
// The answer about heat. Degrees stand in it only when a spot was read on this very saw; else it holds order and
// differences.

#include <optional>
#include <string>
#include <vector>

#include "wire/answer.hpp"

namespace portwright::wire {

/// A difference of two temperatures with its range, over the same sets of assumptions on both sides.
struct HeatDifference {
  double value = 0.0, low = 0.0, high = 0.0;  ///< [K]
  bool distinguishable = false;               ///< the range does not span zero
  std::string text;                           ///< "+14 K (+8 to +22)"; "not told apart"
};

/// A temperature of this saw, from a spot that was read.
struct HeatDegrees {
  double value = 0.0, low = 0.0, high = 0.0;  ///< [C]
  std::string text;                           ///< "212 °C (190 to 240)"
};

struct HeatPlace {
  std::string name, part;                    ///< part: cylinder | piston
  int rank = 1;                              ///< within its part, the hottest first, under the middles
  double first = 0.0;                        ///< share of the sets of assumptions in which it is the hottest, 0..1
  std::optional<double> angle_deg, drop_mm;  ///< none for what goes all round, and for the piston
  HeatDifference over_mean;                  ///< above the mean of the bore's wall
  std::optional<HeatDifference> change;      ///< with cuts only, against stock
  std::optional<HeatDegrees> temperature;    ///< calibrated only
  std::string sentence;
};

/// What one change of the running, made alone, would do.
struct HeatEffect {
  std::string what;  ///< "1,000 rpm more"
  HeatDifference hottest, head, groove;
  std::optional<double> trapped;  ///< change of the charge that a turn traps, 0.1 a tenth more; none where no turn was
                                  ///< run anew
  std::string sentence;
};

/// The engine stopped hot.
struct HeatSoak {
  double base_rise_K = 0.0, base_rise_low_K = 0.0, base_rise_high_K = 0.0;
  double base_peak_s = 0.0;  ///< after the stop
  double half_s = 0.0;       ///< until the hottest place has lost half of what it stands above the day
  std::string sentence;
};

/// Where the heat that burning sets free goes.
struct HeatShare {
  std::string way;
  double low = 0.0, high = 0.0;  ///< of what is set free, 0 to 1
};

/// An arc round the bore, clockwise from the exhaust's centre.
struct HeatArc {
  double from_deg = 0.0, to_deg = 0.0;
};

/// Map of the bore under the middles, as a field of differences.
struct HeatMap {
  int around = 0, rows = 0;  ///< columns clockwise from the exhaust's centre, rows down from the TDC edge
  double row_mm = 0.0;
  std::vector<HeatArc> fins;      ///< where they stand
  std::optional<double> mean_C;   ///< of the bore's wall under the middles; calibrated only
  std::vector<double> change;     ///< with cuts only, against stock under the middles [K], as over_mean; else empty
  std::vector<double> over_mean;  ///< row by row, above the mean of the bore's wall [K]; over windows their row's mean
};

struct HeatAnswer {
  Head head;
  double rpm = 0.0;
  std::string rpm_from;
  bool calibrated = false;
  std::string promise;                 ///< what may be read out of it
  std::vector<HeatPlace> places;       ///< cylinder, then piston, each by rank
  std::vector<study::Figure> figures;  ///< heat.hottest, heat.groove, heat.growth, heat.clearance
  std::vector<study::Finding> findings;
  std::vector<HeatEffect> effects;
  std::optional<HeatSoak> soak;
  std::vector<HeatShare> shares;
  std::optional<HeatMap> map;
  std::string settled;
  std::vector<std::string> written, warnings, cautions;
  bool stopped = false;
};

}  // namespace portwright::wire
