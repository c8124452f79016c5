#pragma once
// Areas of the openings at an instant, and what flows between two rooms.

#include <algorithm>
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
/// The gas beside it stands as half a step ahead, told with `before`, the flow of the step before [kg/s]: that part is
/// taken back, and the flow found that fits the pressure difference which itself leaves by the middle of the step:
/// second order in dt, also where a wide opening all but levels two small rooms within a step. An opening that would
/// level them more than about once over takes the step's end instead, and so never passes level (by more than 4 % of
/// the difference, where hot gas enters a cold room).
[[nodiscard]] flow::Inflow through_gap(const gas::WorkingGas& gas, const Beside& a, const Beside& b, double area,
                                       double dt, double before = 0.0);

/// A cell that flows out sideways over a step: the gas crosses at right angles, takes its own momentum along and brings
/// none in.
template <class Number>
void lose_sideways(const flow::Inflow& out, double dt, Number& mass, Number& momentum, Number& energy, Number& fresh,
                   Number& fuel) {
  const auto less = [dt](Number& kept, double rate) { kept = static_cast<Number>(double{kept} - rate * dt); };
  momentum = static_cast<Number>(double{momentum} * (1.0 - std::max(0.0, out.mass) * dt / double{mass}));
  less(mass, out.mass);
  less(energy, out.energy);
  less(fresh, out.fresh);
  less(fuel, out.fuel);
}

}  // namespace portwright::cycle
