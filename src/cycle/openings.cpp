#include "cycle/openings.hpp"

#include <algorithm>
#include <cmath>

#include "gas/opening.hpp"

namespace portwright::cycle {

namespace {

double from_table(const Opening& o, double drop) {
  const double at = drop / o.table_step;
  const auto i = static_cast<std::size_t>(std::max(0.0, at));
  if (i + 1 >= o.table.size()) return o.table.empty() ? 0.0 : o.table.back();
  const double t = at - static_cast<double>(i);
  return o.table[i] * (1.0 - t) + o.table[i + 1] * t;
}

}  // namespace

double opening_area(const Opening& o, double drop, double reed_area) {
  switch (o.by) {
    case OpenedBy::nothing:
      return o.discharge * o.area * o.count;
    case OpenedBy::crown:
      return o.discharge * o.window.area_above(drop) * o.count;
    case OpenedBy::skirt:
      return o.discharge * o.window.area_below(drop + o.skirt) * o.count;
    case OpenedBy::skirt_table:
      return o.discharge * from_table(o, drop) * o.count;
    case OpenedBy::reed:
      return o.discharge * reed_area;
  }
  return 0.0;
}

void open_areas(const Network& network, double drop, double reed_area, std::vector<double>& areas) {
  for (std::size_t i = 0; i < network.openings.size(); ++i)
    areas[i] = opening_area(network.openings[i], drop, reed_area);
}

void sum_areas(const Network& network, const std::vector<double>& areas, Instant& now) {
  for (std::size_t d = 0; d < network.ducts.size(); ++d)
    for (const DuctEnd& end : network.ends[d]) {
      if (end.opening < 0) continue;
      const double area = areas[static_cast<std::size_t>(end.opening)];
      if (end.room == network.cylinder)
        (network.names[d].role == Role::exhaust ? now.exhaust_area : now.transfer_area) += area;
      else if (network.names[d].role == Role::tract && end.room != outdoors)
        now.intake_area = area;
    }
}

namespace {

/// Where in the step the pressures are taken, by the share g of their difference that the step would take: the middle,
/// and for wide openings, where that would ring about level, the step's end.
double taken_at(double g) {
  const double h = 0.125 * g * g * g * g;
  return 1.0 - 0.5 / (1.0 + h);
}

}  // namespace

flow::Inflow through_gap(const gas::WorkingGas& gas, const Beside& a, const Beside& b, double area, double dt,
                         double before) {
  if (!(area > 0.0)) return {};
  // The gas upstream, what a kg/s of it takes off the pressure difference in the step, and the flow under a difference.
  struct Upstream {
    const flow::Reservoir& gas;
    gas::Caloric k;
    double gamma, levels;
  };
  const auto from = [&](bool forward) {
    const flow::Reservoir& up = forward ? a.gas : b.gas;
    const gas::Caloric k = gas::blend(gas, up.fresh, up.fuel);
    const double gamma = gas::gamma(k, gas.c, up.T);
    return Upstream{up, k, gamma, dt * gamma * k.R * up.T * (1.0 / a.size + 1.0 / b.size)};
  };
  const auto flow_under = [&](const Upstream& up, double difference) {
    return gas::opening_flow(up.gas.p, up.gas.T, up.k.R, up.gamma, area, up.gas.p - std::min(difference, up.gas.p));
  };
  const double drop = a.gas.p - b.gas.p;
  const double had = before * from(drop > 0.0 || (drop == 0.0 && before > 0.0)).levels;
  const double middle = drop + 0.5 * had;
  if (middle == 0.0) return {};
  const Upstream seen = from(middle > 0.0);
  const double about = std::max(std::abs(middle), 1e-7 * seen.gas.p);
  const double theta = taken_at(seen.levels * flow_under(seen, about) / about);

  const double unmoved = drop + theta * had;
  if (unmoved == 0.0) return {};
  const Upstream up = from(unmoved > 0.0);
  const double whole = std::abs(unmoved), taken = theta * up.levels;
  // m = c sqrt(left), left = whole - taken m; c hangs a little on what is left, and not at all where nothing chokes.
  double mass = 0.0, left = whole;
  for (int round = 0; round < 3; ++round) {
    const double seen_left = std::max(left, 1e-7 * up.gas.p);  // a difference that the digits can hold
    const double c = flow_under(up, seen_left) / std::sqrt(seen_left);
    mass = 2.0 * whole / (taken + std::sqrt(taken * taken + 4.0 * whole / (c * c)));
    left = mass * mass / (c * c);
  }
  if (unmoved < 0.0) mass = -mass;
  const double enthalpy = gas::enthalpy(up.k, gas.c, up.gas.T);
  return {mass, mass * enthalpy, mass * up.gas.fresh, mass * up.gas.fuel};
}

}  // namespace portwright::cycle
