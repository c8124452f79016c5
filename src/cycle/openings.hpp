#pragma once
// Areas of the openings at an instant, and what flows between two rooms.

#include <vector>

#include "cycle/state.hpp"

namespace portwright::cycle {

/// Effective area of one opening with the crown edge `drop` [m] below its TDC place [m²].
[[nodiscard]] double opening_area(const Opening& opening, double drop, double reed_area);

/// All of the network's, in order [m²].
void open_areas(const Network& network, double drop, double reed_area, std::vector<double>& areas);

/// Sums by what they open: exhaust, transfers, intake; into the instant.
void sum_areas(const Network& network, const std::vector<double>& areas, Instant& now);

/// Gas beside an opening, and the size of the room it stands in [m³].
struct Beside {
  const flow::Reservoir& gas;
  double size;
};

/// What flows from a to b through an effective area [m²], counted into b, per second, over a step of `dt` [s].
///
/// An opening that would level the two rooms within the step is slowed so that it does not pass level (by more than
/// 4 % of the difference, where hot gas enters a cold room): by (1 + g³)^(1/3), g the share of the pressure difference
/// that the step would take. Where g is a tenth that is 0.03 %.
[[nodiscard]] flow::Inflow through_gap(const gas::WorkingGas& gas, const Beside& a, const Beside& b, double area,
                                       double dt);

}  // namespace portwright::cycle
