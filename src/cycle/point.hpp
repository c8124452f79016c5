#pragma once
// What a turn means to a builder: power, breathing, heat at one speed.

#include "cycle/settle.hpp"

namespace portwright::cycle {

/// One speed's figures. Brake values are net indicated less the stated losses.
struct Point {
  double speed = 0.0;                         ///< [rev/s]
  double power = 0.0, torque = 0.0;           ///< brake [W], [N m]
  double bmep = 0.0, imep = 0.0, fmep = 0.0;  ///< [Pa]; imep is net of the case's pumping
  double case_mep = 0.0;                      ///< what the case's pumping takes [Pa]
  double delivery_ratio = 0.0;                ///< fresh charge drawn in, over swept volume of the day's air [-]
  double trapping = 0.0, scavenging = 0.0, charging = 0.0;  ///< [-]
  double peak_pressure = 0.0, peak_angle = 0.0;             ///< [Pa], [rad ATDC]
  double exhaust_temperature = 0.0;                         ///< mass mean at the window [K]
  double case_low = 0.0, case_high = 0.0;                   ///< [Pa]
  double fuel = 0.0;                                        ///< per brake work [kg/J]; 0 where there is none
  double knock = 0.0;                                       ///< integral; 1 is knock [-]
  double spit_back = 0.0;                                   ///< gas back through window or petals, of what came in [-]
  double blow_back = 0.0;                     ///< gas from the cylinder into the transfers, of what they delivered [-]
  double reed_lift = 0.0, reed_impact = 0.0;  ///< [m], [m/s]
  double heat_cylinder = 0.0;                 ///< into its wall [W]
  double fuel_lost = 0.0;                     ///< share of the fuel drawn that left unburnt [-]
  Label label = Label::not_settled;
  double error = 0.0;       ///< of imep [-]
  double multiplier = 0.0;  ///< what a turn leaves of a small push [-]
  int turns = 0, floors = 0;
  double mass_residual = 0.0, energy_residual = 0.0;
};

[[nodiscard]] Point point_of(const Network& network, double speed, const Turn& turn);

/// Friction, fan and pump [Pa]: a part that does not change, one that grows with piston speed, one with (speed times
/// bore)².
[[nodiscard]] double lost_pressure(const Network& network, double speed);

}  // namespace portwright::cycle
