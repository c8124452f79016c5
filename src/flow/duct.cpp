#include "flow/duct.hpp"

#include <algorithm>

#include "flow/flux_hllc.hpp"
#include "flow/limiter.hpp"

namespace portwright::flow {

namespace {

/// What a steady stream keeps: density, mass flow per area of the place it is compared at, total pressure, shares.
struct Stream {
  double rho, flow, total, fresh, fuel;
};

/// The stream of a gas that moves through area `area` [m²].
Stream stream(const Primitive& w, double area, double kinetic) {
  const double flow = w.rho * w.u;
  return {w.rho, flow * area, w.p + 0.5 * kinetic * flow * w.u, w.fresh, w.fuel};
}

/// The gas of a stream where the area is `area` [m²].
Primitive through(const Stream& s, double area) {
  const double u = s.flow / (s.rho * area);
  return {s.rho, u, s.total - 0.5 * s.rho * u * u, s.fresh, s.fuel};
}

/// Rise per metre.
Stream between(const Stream& a, const Stream& b, double distance) {
  const double per = 1.0 / distance;
  return {(b.rho - a.rho) * per, (b.flow - a.flow) * per, (b.total - a.total) * per, (b.fresh - a.fresh) * per,
          (b.fuel - a.fuel) * per};
}

Stream limited(const Stream& a, const Stream& b) {
  return {limit(a.rho, b.rho), limit(a.flow, b.flow), limit(a.total, b.total), limit(a.fresh, b.fresh),
          limit(a.fuel, b.fuel)};
}

/// In an end cell: the slope toward its neighbour, as far as the gas that stood at the end does not forbid it.
Stream limited_end(const Stream& in, const Stream& end) {
  return {limit_end(in.rho, end.rho), limit_end(in.flow, end.flow), limit_end(in.total, end.total),
          limit_end(in.fresh, end.fresh), limit_end(in.fuel, end.fuel)};
}

Stream moved(const Stream& s, const Stream& slope, double by) {
  return {s.rho + slope.rho * by, s.flow + slope.flow * by, s.total + slope.total * by, s.fresh + slope.fresh * by,
          s.fuel + slope.fuel * by};
}

/// Change of a cell's gas over `dt` from the gas at its two faces, by the equations in rho, u, p and the shares.
/// @source{toro, eq. 3.5}, the volume's own outflow in the place of du/dx
Primitive change(const Primitive& w, double gamma, const Primitive& l, const Primitive& r, double area_l, double area_r,
                 double length, double volume, double dt) {
  const double per = dt / length;
  const double spread = dt * (r.u * area_r - l.u * area_l) / volume;
  return {-(w.u * per * (r.rho - l.rho) + w.rho * spread),
          -per * (0.5 * (l.u + r.u) * (r.u - l.u) + (r.p - l.p) / w.rho),
          -(w.u * per * (r.p - l.p) + gamma * w.p * spread), -w.u * per * (r.fresh - l.fresh),
          -w.u * per * (r.fuel - l.fuel)};
}

Primitive plus(const Primitive& w, const Primitive& d) {
  return {w.rho + d.rho, w.u + d.u, w.p + d.p, w.fresh + d.fresh, w.fuel + d.fuel};
}

/// Slopes of density and of mass flow are limited each by itself; where both are steep, their ratio may run away.
bool is_gas(const Primitive& w, const Primitive& from, double sound) {
  return w.rho > 0.1 * from.rho && w.p > 0.1 * from.p && std::abs(w.u - from.u) < sound;
}

}  // namespace

void fill(const gas::WorkingGas& gas, const Duct& duct, const Primitive& w, Contents& contents, Scratch& scratch) {
  const auto n = static_cast<std::size_t>(duct.grid.cells());
  const double e = thermo(gas, w).e;
  for (auto* v : {&contents.mass, &contents.momentum, &contents.energy, &contents.fresh, &contents.fuel}) v->resize(n);
  for (std::size_t i = 0; i < n; ++i) {
    const double mass = w.rho * duct.grid.volume[i];
    contents.mass[i] = mass;
    contents.momentum[i] = mass * w.u;
    contents.energy[i] = mass * (e + 0.5 * duct.grid.kinetic[i] * w.u * w.u);
    contents.fresh[i] = mass * w.fresh;
    contents.fuel[i] = mass * w.fuel;
  }
  contents.end = {w, w};
  scratch.cell.resize(n);
  scratch.thermo.resize(n);
  scratch.left.resize(n);
  scratch.right.resize(n);
  scratch.total.resize(n);
  scratch.push.resize(n);
  scratch.flux.resize(n + 1);
}

double decode(const gas::WorkingGas& gas, const Duct& duct, const Contents& contents, Scratch& scratch) {
  double fastest = 0.0;
  for (std::size_t i = 0; i < contents.mass.size(); ++i) {
    const double mass = contents.mass[i], per = 1.0 / mass;
    Primitive& w = scratch.cell[i];
    w.rho = mass / duct.grid.volume[i];
    w.u = contents.momentum[i] * per;
    w.fresh = contents.fresh[i] * per;
    w.fuel = contents.fuel[i] * per;
    const double e = contents.energy[i] * per - 0.5 * duct.grid.kinetic[i] * w.u * w.u;
    const gas::Caloric k = gas::blend(gas, w.fresh, w.fuel);
    const double T = gas::temperature(k, gas.c, e);
    const double gamma = 1.0 + k.R / gas::cv(k, gas.c, T);
    w.p = w.rho * k.R * T;
    scratch.thermo[i] = {T, e, gamma, std::sqrt(gamma * k.R * T)};
    fastest = std::max(fastest, (std::abs(w.u) + scratch.thermo[i].sound) / duct.grid.length[i]);
  }
  return fastest;
}

void predict(const gas::WorkingGas& gas, const Duct& duct, const Contents& contents, double dt, Scratch& scratch,
             DuctAccount& account) {
  const Grid& grid = duct.grid;
  const auto n = static_cast<std::size_t>(grid.cells());
  const auto mean_area = [&](std::size_t i) { return grid.volume[i] / grid.length[i]; };
  const auto of_cell = [&](std::size_t i) { return stream(scratch.cell[i], mean_area(i), grid.kinetic[i]); };
  Stream here = of_cell(0);
  Stream behind = between(stream(contents.end[near_end], grid.area[0], 1.0), here, 0.5 * grid.length[0]);
  for (std::size_t i = 0; i < n; ++i) {
    const bool last = i + 1 == n;
    const Stream next = last ? stream(contents.end[far_end], grid.area[n], 1.0) : of_cell(i + 1);
    const Stream ahead = between(here, next, 0.5 * (grid.length[i] + (last ? 0.0 : grid.length[i + 1])));
    const Stream slope = n == 1   ? Stream{}
                         : i == 0 ? limited_end(ahead, behind)
                         : last   ? limited_end(behind, ahead)
                                  : limited(behind, ahead);
    const Primitive& w = scratch.cell[i];
    const double half = 0.5 * grid.length[i], area_l = grid.area[i], area_r = grid.area[i + 1];
    const Primitive l = through(moved(here, slope, -half), area_l), r = through(moved(here, slope, half), area_r);
    const Primitive d =
        change(w, scratch.thermo[i].gamma, l, r, area_l, area_r, grid.length[i], grid.volume[i], 0.5 * dt);
    scratch.left[i] = plus(l, d);
    scratch.right[i] = plus(r, d);
    Primitive middle = plus(w, d);
    const double sound = scratch.thermo[i].sound;
    if (!is_gas(scratch.left[i], w, sound) || !is_gas(scratch.right[i], w, sound) || !is_gas(middle, w, sound)) {
      scratch.left[i] = scratch.right[i] = middle = w;
      ++account.floors;
    }
    const Stream half_ahead = stream(middle, mean_area(i), grid.kinetic[i]);
    scratch.total[i] = half_ahead.total;
    scratch.push[i] = 0.5 * half_ahead.flow * half_ahead.flow / middle.rho * (1.0 / area_r - 1.0 / area_l);
    here = next;
    behind = ahead;
  }
  for (std::size_t i = 1; i < n; ++i) {
    const Primitive &l = scratch.right[i - 1], &r = scratch.left[i];
    scratch.flux[i] = flux_hllc(l, thermo(gas, l), r, thermo(gas, r));
  }
}

namespace {

/// Drag is the exact decay of du/dt = -k u |u|; what it takes of the kinetic energy stays as heat in the gas.
void drag(const Duct& duct, double dt, const Scratch& scratch, Contents& contents, DuctAccount& account) {
  const Grid& grid = duct.grid;
  const auto slow = [&](std::size_t i, double k) {
    const double u = contents.momentum[i] / contents.mass[i];
    const double factor = 1.0 / (1.0 + dt * k * std::abs(u));
    contents.momentum[i] *= factor;
    return 0.5 * grid.kinetic[i] * contents.mass[i] * u * u * (1.0 - factor * factor);
  };
  if (duct.friction > 0.0)
    for (std::size_t i = 0; i < contents.mass.size(); ++i)
      account.wall_friction += slow(i, 0.5 * duct.friction / grid.bore[i]);
  for (std::size_t j = 0; j < duct.losses.size(); ++j) {
    const Loss& loss = duct.losses[j];
    const auto i = static_cast<std::size_t>(loss.cell);
    const double K = scratch.cell[i].u >= 0.0 ? loss.forward : loss.backward;
    const double wider = loss.area > 0.0 ? grid.volume[i] / grid.length[i] / loss.area : 1.0;
    account.lost[j] += slow(i, 0.5 * K * wider * wider / grid.length[i]);
  }
}

/// Reynolds' analogy, St = f/8, beside laminar conduction Nu = 3.66 in air of 0.03 W/m K; never past the wall's own
/// temperature. @source{incropera_dewitt, eq. 8.53 and 6.70}
void warm(const gas::WorkingGas& gas, const Duct& duct, double dt, const Scratch& scratch, Contents& contents,
          DuctAccount& account) {
  for (std::size_t i = 0; i < contents.mass.size(); ++i) {
    const Primitive& w = scratch.cell[i];
    const gas::Caloric k = gas::blend(gas, w.fresh, w.fuel);
    const double cv = k.R / (scratch.thermo[i].gamma - 1.0), cp = cv + k.R;
    const double film = duct.friction / 8.0 * w.rho * std::abs(w.u) * cp + 3.66 * 0.03 / duct.grid.bore[i];
    const double reach = duct.heat_share * film * duct.grid.wall[i] * dt / (contents.mass[i] * cv);
    const double heat = contents.mass[i] * cv * (duct.wall_temperature - scratch.thermo[i].T) * (reach / (1.0 + reach));
    contents.energy[i] += heat;
    account.wall_heat += heat;
  }
}

}  // namespace

void advance(const gas::WorkingGas& gas, const Duct& duct, double dt, const Scratch& scratch, Contents& contents,
             DuctAccount& account) {
  const std::vector<double>& area = duct.grid.area;
  for (std::size_t i = 0; i < contents.mass.size(); ++i) {
    const Flux &in = scratch.flux[i], &out = scratch.flux[i + 1];
    const double a = area[i], b = area[i + 1], p = scratch.total[i];
    contents.mass[i] -= dt * (out.mass * b - in.mass * a);
    contents.momentum[i] -= dt * (((out.momentum - p) * b - (in.momentum - p) * a) - scratch.push[i]);
    contents.energy[i] -= dt * (out.energy * b - in.energy * a);
    contents.fresh[i] -= dt * (out.fresh * b - in.fresh * a);
    contents.fuel[i] -= dt * (out.fuel * b - in.fuel * a);
  }
  if (duct.friction > 0.0 || !duct.losses.empty()) drag(duct, dt, scratch, contents, account);
  if (duct.heat_share > 0.0) warm(gas, duct, dt, scratch, contents, account);
}

Totals totals(const Contents& contents) {
  Totals sum;
  for (std::size_t i = 0; i < contents.mass.size(); ++i) {
    sum.mass += contents.mass[i];
    sum.momentum += contents.momentum[i];
    sum.energy += contents.energy[i];
    sum.fresh += contents.fresh[i];
    sum.fuel += contents.fuel[i];
  }
  return sum;
}

}  // namespace portwright::flow
