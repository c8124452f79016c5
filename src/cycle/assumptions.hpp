#pragma once
// Everything the simulation takes for granted: one set for all engines, an argument of every run, never a global. The
// middles, ranges and sources are rows of data/run_assumptions.toml.

#include <span>

#include "tables/run_rows.hpp"

namespace portwright::cycle {

/// SI. The members' names are the rows' names; the rows alone give them values.
struct Assumptions {
  // scavenging
  double exit_bias = 0.0;           ///< s of Y_exit = Y (1 - s (1 - Y²)) [-]
  double displaced = 0.0;           ///< delivered volumes that displace before they mix, second law [-]
  double second_law = 0.0;          ///< 1: displacement then mixing; 0: biased blend
  double short_circuit = 0.0;       ///< share of the inflow that goes straight out [-]
  double short_circuit_rise = 0.0;  ///< the same, more per delivered volume [-]
  // burning
  double completeness = 0.0, completeness_slope = 0.0, completeness_knee = 0.0;
  double burn_angle = 0.0;  ///< at 150 rev/s and purity 0.75 [rad]
  double burn_speed_exponent = 0.0;
  double burn_delay = 0.0;  ///< [rad]
  // heat
  double woschni_factor = 0.0;
  double cylinder_wall = 0.0, case_wall = 0.0, transfer_wall = 0.0, tract_wall = 0.0, exhaust_wall = 0.0,
         muffler_wall = 0.0;        ///< [K]
  double case_film = 0.0;           ///< [W/m² K]
  double case_wall_area = 0.0;      ///< at 42 cm3, grows with displacement to the 2/3 [m²]
  double muffler_film = 0.0;        ///< [W/m² K]
  double evaporated_in_case = 0.0;  ///< share of the fuel that evaporates before or in the case [-]
  // openings
  double exhaust_discharge = 0.0, transfer_discharge = 0.0, mouth_discharge = 0.0, intake_discharge = 0.0,
         entry_discharge = 0.0, outlet_discharge = 0.0, reed_discharge = 0.0, free_port_discharge = 0.0;
  double venturi_loss = 0.0, throttle_loss = 0.0;  ///< K [-]
  double friction_factor = 0.0;                    ///< Darcy [-]
  double end_correction = 0.0;                     ///< of an open end, in radii [-]
  // losses
  double friction_pressure = 0.0;  ///< [Pa]
  double friction_speed = 0.0;     ///< per piston speed [Pa s/m]
  double fan_pressure = 0.0;       ///< at 150 rev/s and 50 mm bore, grows with (speed times bore)² [Pa]
  double leak_area = 0.0;          ///< past rings, cranked [m²]
  double reed_loss_ratio = 0.0;
  double reed_modulus = 0.0, reed_density = 0.0;  ///< glass epoxy [Pa], [kg/m³]
  double reed_stop = 0.0, reed_angle = 0.0;       ///< stop lift over petal length [-], of the block [rad]
  double reed_gap = 0.0;                          ///< under a petal at rest [m]
  double reed_block_loss = 0.0;                   ///< K on the tract's speed, either way [-]
  double reed_cage = 0.0;                         ///< gas before the petals, of the wedge between their seats [-]
  double carburettor_length = 0.0;                ///< at 60 cm3 [m]
  double bend_share = 0.0;                        ///< of a mitre bend that a passage's round one costs [-]
  // sizes that stand in for readings, of an engine of 60 cm3: lengths grow with displacement to the 1/3
  double case_share = 0.0;                                                ///< case volume at BDC over displacement [-]
  double tract_length = 0.0, passage_length = 0.0, exhaust_length = 0.0;  ///< [m]
  double passage_bend = 0.0;                                              ///< [rad]
  double passage_share = 0.0;                                             ///< foot over window area [-]
  double tract_share = 0.0;                                               ///< tract bore over venturi [-]
  double throttle_share = 0.0;                                            ///< throttle bore over venturi [-]
  double exhaust_outlet_share = 0.0;  ///< outlet of the duct over the exhaust window [-]
  double muffler_share = 0.0;         ///< box over displacement [-]
  double outlet_share = 0.0;          ///< muffler outlet over the exhaust window [-]
  double air_box = 0.0;               ///< [m³]
  double filter_loss = 0.0;           ///< at 20 l/s [Pa]
  double advance = 0.0;               ///< [rad]
  double air_fuel = 0.0;
  double octane = 0.0;
  double altitude = 0.0, temperature = 0.0, humidity = 0.0;
  double screen_open = 0.0;  ///< of the outlet behind a screen [-]
};

/// A row of the table and the member it fills.
struct AssumptionRange {
  const tables::RunRow* row = nullptr;
  double Assumptions::*member = nullptr;
};

/// All rows, in the order of the file.
[[nodiscard]] std::span<const AssumptionRange> assumption_ranges();
/// The middles of the rows.
[[nodiscard]] Assumptions middle_assumptions();

/// A reading that was not there, and what stood in for it.
struct Filled {
  const char* reading = "";     ///< "case.volume"
  const char* assumption = "";  ///< row that it came from
  double value = 0.0;           ///< SI
};

}  // namespace portwright::cycle
