#pragma once
// What the estimate of temperatures takes for granted: an argument of every map, never a global. Middles, ranges and
// sources are rows of data/heat_assumptions.toml.

#include <span>
#include <vector>

#include "tables/run_rows.hpp"

namespace portwright::heat {

/// SI. The members' names are the rows' names; the rows alone give them values. Sizes are of a bore of 50 mm.
struct Assumptions {
  double film_share = 0.0;                         ///< on the film of the cycle [-]
  double fan_air = 0.0, still_air = 0.0;           ///< between the fins, at 150 rev/s; without a fan [m/s]
  double air_power = 0.0;                          ///< of speed and density on the air's film [-]
  double air_warmer = 0.0;                         ///< than the day [K]
  double bare_air = 0.0;                           ///< speed along a side without fins, of that between fins [-]
  double wall_thickness = 0.0;                     ///< [m]
  double wall_conductivity = 0.0;                  ///< [W/m K]
  double fin_reach = 0.0;                          ///< from the head down, of the wall's height [-]
  double head_thickness = 0.0;                     ///< [m]
  double head_fins = 0.0;                          ///< cooling of the head's outside, of the finned wall's [-]
  double duct_share = 0.0;                         ///< rim of the exhaust, of what a smooth duct gets [-]
  double muffler_joint = 0.0, flange_joint = 0.0;  ///< [W/K]
  double crown_thickness = 0.0;                    ///< [m]
  double piston_conductivity = 0.0;                ///< [W/m K]
  double ring_contact = 0.0, skirt_contact = 0.0;  ///< [W/m² K]
  double crown_below = 0.0;                        ///< [W/m² K]
  double pin_joint = 0.0;                          ///< [W/K]
  double friction_share = 0.0;                     ///< [-]
  double cylinder_expansion = 0.0, piston_expansion = 0.0;  ///< [1/K]
  double own_growth = 0.0;                                  ///< [-]
  double soak_film = 0.0;                                   ///< [W/m² K]
  double muffler_heat = 0.0, case_heat = 0.0;               ///< of an engine of 60 cm3 [J/K]
  double casting_heat = 0.0;                                ///< of ducts and flange, of the wall's with its fins [-]
  // found, not assumed: what one reading says of this saw
  double air_factor = 1.0;  ///< on every film of the outer air [-]
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

/// One set of the ensemble, and how far the one spot read is off in it, in sigmas of its reading.
struct Member {
  Assumptions assumptions;
  double spot_error = 0.0;
};
/// Sets spread evenly through the rows' ranges (low-discrepancy, triangular about the middles), member 0 the middles;
/// the same for every engine, so that member k of one is held against member k of another.
[[nodiscard]] std::vector<Member> ensemble_members(int members);

}  // namespace portwright::heat
