#pragma once
// Where a duct meets a volume through an opening that may be any share of the duct's own area.

#include "flow/primitive.hpp"

namespace portwright::flow {

/// Gas at rest in a volume or outdoors.
struct Reservoir {
  double p = 101325.0, T = 293.15, fresh = 1.0, fuel = 0.0;  ///< [Pa], [K], [-], [-]
};

/// What passes the end: flux per duct area, counted OUTWARD (out of the duct), and the gas that stands in the duct at
/// its end, outward speed.
struct EndFlow {
  Flux flux;
  Primitive gas;
  int floors = 0;  ///< tries that would have left a temperature below a third of the reservoir's
};

/// Wave relation and nozzle, one unknown: the pressure p in the duct at its end.
///
///   outflow  duct mass flow behind the wave = nozzle from the duct's total state to the volume's pressure
///   inflow   the nozzle from the volume to p = duct mass flow; the jet keeps its total enthalpy and gets no pressure
///            back in the wider duct
///
/// The difference of the two mass flows is monotone in p and changes sign between the pressure that would stop the gas
/// and the volume's (or the sonic) pressure, so the root is always bracketed. An opening of 0 is a wall. Gas that
/// leaves faster than sound, and that the opening can take, takes no wave: its own flux leaves. Gas that comes in
/// cannot be colder than without losses: a jet that would be enters as it spreads from its choked opening to the duct,
/// at the speed of sound where that is full, faster where it is not. The opening counts as no more than the duct: a
/// wider one is not seen.
///
/// @param inner  gas at the end face, half a step ahead, u outward
/// @param opening  effective area [m²], discharge coefficient included
/// @param guess  pressure to start from [Pa], the last step's; any positive number will do
/// Accuracy: mass flow to 1e-13 of rho c A.
[[nodiscard]] EndFlow boundary_open(const gas::WorkingGas& gas, const Primitive& inner, const Reservoir& reservoir,
                                    double duct_area, double opening, double guess);

}  // namespace portwright::flow
