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

flow::Inflow through_gap(const gas::WorkingGas& gas, const Beside& a, const Beside& b, double area, double dt) {
  const bool forward = a.gas.p >= b.gas.p;
  const flow::Reservoir &up = forward ? a.gas : b.gas, &down = forward ? b.gas : a.gas;
  const gas::Caloric k = gas::blend(gas, up.fresh, up.fuel);
  const double gamma = gas::gamma(k, gas.c, up.T);
  const double drop = up.p - down.p, free = gas::opening_flow(up.p, up.T, k.R, gamma, area, down.p);
  double mass = forward ? free : -free;
  if (drop > 0.0) {
    // The heat that moves is the upstream gas's on both sides.
    const double levelled = dt * free / drop * gamma * k.R * up.T * (1.0 / a.size + 1.0 / b.size);
    mass /= std::cbrt(1.0 + levelled * levelled * levelled);
  }
  const double enthalpy = gas::enthalpy(k, gas.c, up.T);
  return {mass, mass * enthalpy, mass * up.fresh, mass * up.fuel};
}

}  // namespace portwright::cycle
