#pragma once
// What one settled turn of the cycle gives the walls, by height and by duct.

#include <vector>

#include "cycle/curve.hpp"

namespace portwright::heat {

/// A film and the gas behind it, both meant over the turn: heat to a wall at T is pull - film T [W/m²].
struct Exposure {
  double film = 0.0;  ///< [W/m² K]
  double pull = 0.0;  ///< mean of film times gas temperature [W/m²]
  [[nodiscard]] double temperature() const { return film > 0.0 ? pull / film : 0.0; }
};

/// One duct of the cylinder, all its windows together.
struct DuctHeat {
  int port = -1;             ///< entry of Engine::ports
  bool exhaust = false;      ///< else a transfer
  double heat = 0.0;         ///< into the duct's wall as the cycle has it [W]; negative: the wall warms the charge
  double conductance = 0.0;  ///< exhaust: the same heat over gas less assumed wall [W/K]
  double gas = 0.0;          ///< exhaust: mass mean at the window [K]
};

struct GasSide {
  double speed = 0.0;               ///< [rev/s]
  double bore = 0.0, stroke = 0.0;  ///< [m]
  double piston_area = 0.0;         ///< [m²]
  double slice = 0.0;               ///< height of one of `slices` [m]
  std::vector<Exposure> slices;     ///< of the wall from the crown edge's TDC place down to its BDC place
  Exposure ends;                    ///< of crown and head, never covered
  std::vector<DuctHeat> ducts;
  double case_temperature = 0.0;                           ///< of the gas below the piston, meant over the turn [K]
  double day = 0.0;                                        ///< [K]
  double day_density = 1.2;                                ///< of the air outside [kg/m³]
  double case_wall = 0.0, muffler_wall = 0.0, wall = 0.0;  ///< as the cycle assumes them [K]
  double burnt = 0.0;                                      ///< heat set free [W]
  double into_wall = 0.0;                                  ///< the cycle's own sum for crown, head and bore [W]
  double exhaust_temperature = 0.0;                        ///< [K]
  double friction = 0.0;                                   ///< as the cycle states it, fan and pump not counted [W]
  std::vector<double> ring_travel;  ///< share of the turn that the crown edge spends in each slice [-]

  /// Mean over the wall between two drops [m]; above the TDC place never covered, below the BDC place always.
  [[nodiscard]] Exposure over(double from, double to) const;
};

/// Reads a turn. Between two instants the piston is taken to stand where the later one has it.
[[nodiscard]] GasSide gas_side(const cycle::Network& network, const cycle::Traced& traced);

}  // namespace portwright::heat
