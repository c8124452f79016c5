#pragma once
// Where the air goes: how much through each passage, and what each corner of it costs.

#include <vector>

#include "cycle/curve.hpp"

namespace portwright::cycle {

/// What one cause costs in one duct: energy in a turn [J] and, spread over what passed, a mean loss of pressure [Pa].
struct CauseLoss {
  Cause cause = Cause::entry;
  double energy = 0.0, pressure = 0.0;
};

/// One duct of the network over a turn. Forward is the way of the charge: tract to case, case to cylinder, cylinder to
/// muffler.
struct DuctFlow {
  DuctName name;
  double forward = 0.0, back = 0.0;  ///< through the end nearer the muffler (tract: the case) [kg]
  double share = 0.0;                ///< of the net flow of its role [-]
  double pressed = 0.0;              ///< what the pressures at both ends did on it [J]
  std::vector<CauseLoss> losses;     ///< by cause; `window` is what is left over: the jet into the next room
};

struct Airflow {
  Point point;
  std::vector<DuctFlow> ducts;
  double drawn = 0.0, trapped = 0.0, short_lost = 0.0;  ///< fresh charge in a turn: drawn in, trapped, lost [kg]
};

/// One settled turn at a speed [rev/s], split by duct and cause.
[[nodiscard]] Airflow air_flow(const Network& network, double speed, const CurvePlan& plan, const Tell& tell = {});

[[nodiscard]] const char* cause_name(Cause cause);

}  // namespace portwright::cycle
