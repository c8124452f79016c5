#pragma once
// The ends of many engines' ducts side by side: flow/boundary_open.hpp in lanes.

#include "flow/lanes/duct_lanes.hpp"

namespace portwright::flow {

/// Columns of a door: the gas of the room behind it, its opening, the pressure to start from, as boundary_open takes
/// them.
enum DoorColumn { door_p, door_T, door_fresh, door_fuel, door_opening, door_guess };
constexpr int door_columns = door_guess + 1;
/// Columns of what passed it, as EndFlow: flux and gas, both outward, and how many floors.
enum PassedColumn { passed_mass, passed_momentum, passed_energy, passed_fresh, passed_fuel, passed_gas };
constexpr int passed_floors = passed_gas + primitive_columns, passed_columns = passed_floors + 1;

/// boundary_open at both ends of every lane's duct, after predict: fluxes into `scratch`, the gas there into
/// `contents`, both into `passed`. `doors` and `passed` have a row for each end. Agrees with the one-engine code to
/// rounding, whatever the pressure to start from.
template <class T>
void pass_ends(const WorkingGasLanes<T>& gas, const DuctLanes<T>& duct, const Table<T>& doors, ScratchLanes<T>& scratch,
               ContentsLanes<T>& contents, Table<T>& passed);

}  // namespace portwright::flow
