#pragma once
// What flows between rooms, many engines side by side: through_gap of cycle/openings.hpp in lanes.

#include "flow/lanes/duct_lanes.hpp"

namespace portwright::cycle {

/// Columns of a gap: gas and size of the rooms on its two sides, its area, the flow of the step before.
enum GapColumn {
  gap_p,
  gap_T,
  gap_fresh,
  gap_fuel,
  gap_size,
  gap_other_p,
  gap_other_T,
  gap_other_fresh,
  gap_other_fuel,
  gap_other_size,
  gap_area,
  gap_before
};
constexpr int gap_columns = gap_before + 1;
/// Columns of what flows through it, to the other side, per second: as flow::Inflow.
enum GapFlowColumn { gap_flow_mass, gap_flow_energy, gap_flow_fresh, gap_flow_fuel };
constexpr int gap_flow_columns = gap_flow_fuel + 1;

/// through_gap for every row of `gaps` over each lane's step `dt`. Agrees with the one-engine code to rounding.
template <class T>
void through_gaps(const flow::WorkingGasLanes<T>& gas, const flow::Table<T>& gaps, const flow::Table<T>& dt,
                  flow::Table<T>& flows);

}  // namespace portwright::cycle
