#pragma once
// What an engine holds at one instant, and what one turn of it adds up to.

#include <array>
#include <vector>

#include "combustion/knock.hpp"
#include "cycle/network.hpp"

namespace portwright::cycle {

/// Everything that the next instant depends on. Copying into a state of the same network does not allocate.
struct State {
  double angle = 0.0;  ///< [rad ATDC]
  std::vector<flow::Contents> ducts;
  std::vector<flow::Volume> rooms;
  std::vector<flow::Inflow> rates;                  ///< into each room at the last step, per second
  std::vector<std::array<double, 2>> end_pressure;  ///< at the ducts' ends at the last step [Pa]
  std::vector<double> gap_flow;                     ///< through each gap at the last step [kg/s]
  flow::ReedState reed;
};

/// What the charge in the cylinder remembers of this turn; begins anew with it.
struct Charge {
  double trapped_pressure = 0.0, trapped_size = 0.0, trapped_temperature = 0.0;  ///< when the exhaust shut
  double trapped_mass = 0.0, trapped_fresh = 0.0;                                ///< [kg]
  double purity = 0.0;                                                           ///< fresh share when it shut [-]
  bool lit = false;
  combustion::Burn burn;                                ///< its course, once lit
  double fuel_to_burn = 0.0;                            ///< [kg]
  double burnt = 0.0;                                   ///< share of it so far [-]
  combustion::EndGas end_gas;                           ///< what is not yet burnt, and its knock integral
  double delivered = 0.0;                               ///< cylinder volumes that came in through the transfers [-]
  double in_rate = 0.0, in_fresh = 1.0, in_fuel = 0.0;  ///< of the last step's inflow: [kg/s], [-], [-]
  double out_rate = 0.0;                                ///< of the last step's exhaust flow [kg/s]
};

/// What one duct saw in a turn. Masses through its near end (transfers: the case; exhaust: the cylinder; tract: the
/// outside) and through its far end, each way [kg].
struct DuctTurn {
  double near_in = 0.0, near_out = 0.0, far_in = 0.0, far_out = 0.0;
  double pressed = 0.0;  ///< what the rooms' pressures did on the gas that passed the far end, p dV [J]
  flow::DuctAccount account;
};

/// One revolution, summed.
struct Turn {
  double work = 0.0, case_work = 0.0, reed_work = 0.0;  ///< done by the gas [J]
  double heat_cylinder = 0.0, heat_rooms = 0.0;         ///< into the walls [J]
  double burn_heat = 0.0, latent_heat = 0.0;            ///< set free, taken up [J]
  double fuel_burnt = 0.0, fresh_burnt = 0.0;           ///< [kg]
  double peak_pressure = 0.0, peak_angle = 0.0;         ///< [Pa], [rad ATDC]
  double case_low = 1e300, case_high = 0.0;             ///< [Pa]
  double trapped_fresh = 0.0, trapped_mass = 0.0;       ///< at the turn's start [kg]
  double delivered_fresh = 0.0, delivered_mass = 0.0;   ///< through the transfers into the cylinder, gross [kg]
  double blown_back = 0.0;                              ///< out of the cylinder into the transfers, gross [kg]
  double exhaust_mass = 0.0, exhaust_heat = 0.0;        ///< out through the exhaust, gross: kg, and kg K
  double drawn = 0.0, drawn_fuel = 0.0;                 ///< charge through the carburettor's mouth, net [kg]
  double intake_in = 0.0, intake_back = 0.0;            ///< through the last door before the case, each way [kg]
  double knock = 0.0;
  double purity = 0.0;
  double reed_lift = 0.0, reed_impact = 0.0;                                 ///< greatest [m], [m/s]
  double out_mass = 0.0, out_energy = 0.0, out_fresh = 0.0, out_fuel = 0.0;  ///< to outdoors, net
  double mass_residual = 0.0, energy_residual = 0.0, fresh_residual = 0.0, fuel_residual = 0.0;  ///< of the content [-]
  int steps = 0, floors = 0;
  std::vector<DuctTurn> ducts;
  [[nodiscard]] double heat_ducts() const {
    double sum = 0.0;
    for (const DuctTurn& d : ducts) sum += d.account.wall_heat;
    return sum;
  }
};

/// One instant of a turn, for pictures and files.
struct Instant {
  double angle = 0.0;                                   ///< [rad ATDC]
  double cylinder = 0.0, crankcase = 0.0;               ///< pressures [Pa]
  double exhaust = 0.0, tract = 0.0;                    ///< pressures in the ducts at the cylinder and at the case [Pa]
  double temperature = 0.0, purity = 0.0, burnt = 0.0;  ///< of the cylinder [K], [-], [-]
  double intake_flow = 0.0, transfer_flow = 0.0, exhaust_flow = 0.0;  ///< into case, into and out of cylinder [kg/s]
  double exhaust_area = 0.0, transfer_area = 0.0, intake_area = 0.0;  ///< effective [m²]
  double reed_lift = 0.0;                                             ///< [m]
  double film = 0.0;                                                  ///< from the cylinder's gas to its wall [W/m² K]
  double case_temperature = 0.0;                                      ///< [K]
};

/// How one turn differs from the mean one: scatter of burning and speed, 1 each for none.
struct Draw {
  double burn_angle = 1.0, completeness = 1.0, speed = 1.0;
};

}  // namespace portwright::cycle
