#pragma once
// The compression gauge: the same network pulled over by hand, cold and without a spark.

#include <vector>

#include "cycle/curve.hpp"

namespace portwright::cycle {

struct CrankPlan {
  double speed = 800.0 / 60.0;   ///< [rev/s]; hands and starters turn 600 to 1,000 rpm
  double gauge_volume = 0.8e-6;  ///< hose end up to the valve, which the piston has to fill every time [m³]
  double behind_valve = 2e-6;    ///< what the needle feels [m³]
  double valve_area = 4e-6;      ///< effective [m²]
  int strokes = 20;              ///< at most
  Pace pace;
};

struct Cranked {
  std::vector<double> gauge;  ///< reading after each stroke, gauge pressure [Pa]
  double reading = 0.0;       ///< the last: what is still to come is under 0.2 % of it, or the strokes ran out [Pa]
  double peak = 0.0;          ///< greatest pressure in the cylinder, absolute [Pa]
};

/// The cold network with the gauge screwed in: walls as warm as the day, a named leak past the rings.
[[nodiscard]] Network with_gauge(const Network& network, const CrankPlan& plan);

/// Pulls it over, stroke after stroke.
[[nodiscard]] Cranked crank(const Network& network, const CrankPlan& plan, const Tell& tell = {});

}  // namespace portwright::cycle
