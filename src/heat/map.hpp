#pragma once
// Temperatures of cylinder and piston under one load, one set of assumptions.

#include <vector>

#include "heat/body.hpp"
#include "heat/cooling.hpp"
#include "heat/gas_side.hpp"
#include "heat/thermal_network.hpp"

namespace portwright::heat {

/// Where the heat goes [W]; each positive in the sense of its name.
struct HeatFlows {
  double gas_to_head = 0.0, gas_to_bore = 0.0, gas_to_crown = 0.0;
  double ducts_to_wall = 0.0;  ///< exhaust ducts, muffler and transfers together
  double rubbed = 0.0;         ///< friction of rings and skirt, half of it in the wall
  double wall_to_air = 0.0, head_to_air = 0.0, flange_to_case = 0.0;
  double piston_to_wall = 0.0;    ///< through rings and skirt
  double piston_to_charge = 0.0;  ///< below the crown, and through the pin
};

struct PistonHeat {
  double crown = 0.0, groove = 0.0, skirt = 0.0, pin = 0.0;  ///< [K]
};

struct Map {
  std::vector<double> wall;   ///< inner surface by cell [K]; over a window the mean of its row's metal
  std::vector<double> outer;  ///< outer surface, at the fins' roots, likewise [K]
  double head = 0.0;          ///< mean of the head, taken for the plug's seat [K]
  PistonHeat piston;
  HeatFlows flows;
  Balance balance;
};

/// A load: who is heated, by what, cooled by what. Borrowed.
struct Load {
  const Body& body;
  const Cooling& cooling;  ///< checked
  const GasSide& gas;
  const Body* coarse = nullptr;  ///< the same on fewer cells, for many sets; null: there is no hurry
};

/// The steady map. The piston is one temperature round: crown, ring belt, skirt and pin. Its rings and skirt touch the
/// wall where they pass, as long as they are there; over windows they touch nothing.
/// Errors: none for a checked load.
[[nodiscard]] base::Result<Map> steady(const Load& load, const Assumptions& assumptions);
/// The same for many sets or loads of one body, one after the other.
[[nodiscard]] base::Result<Map> steady(const Load& load, const Assumptions& assumptions, ThermalNetwork::Order& order);

/// One instant after the engine was stopped hot.
struct SoakInstant {
  double time = 0.0;                                                                     ///< [s]
  double head = 0.0, hottest = 0.0, base = 0.0, crown = 0.0, groove = 0.0, skirt = 0.0;  ///< [K]
};
/// From the steady map with gas and fan gone: the muffler gives back through its joint, air stands.
[[nodiscard]] base::Result<std::vector<SoakInstant>> soak(const Load& load, const Assumptions& assumptions,
                                                          double seconds = 600.0, double step = 5.0);

}  // namespace portwright::heat
