#include "flow/duct.hpp"

#include <algorithm>

#include "flow/flux_hllc.hpp"
#include "flow/limiter.hpp"

namespace portwright::flow {

namespace {

/// Rise per metre of the five variables.
struct Slope {
  double rho, u, p, fresh, fuel;
};

Slope between(const Primitive& a, const Primitive& b, double distance) {
  const double per = 1.0 / distance;
  return {(b.rho - a.rho) * per, (b.u - a.u) * per, (b.p - a.p) * per, (b.fresh - a.fresh) * per,
          (b.fuel - a.fuel) * per};
}

Slope limited(const Slope& a, const Slope& b) {
  return {limit(a.rho, b.rho), limit(a.u, b.u), limit(a.p, b.p), limit(a.fresh, b.fresh), limit(a.fuel, b.fuel)};
}

/// Time derivative of the five variables in a cell of the given slope; area_rate = (dA/dx)/A.
/// @source{TORO_1999, eq. 3.5}, with the area's term of quasi-one-dimensional flow
Slope rate(const Primitive& w, double gamma, const Slope& s, double area_rate) {
  const double spread = s.u + w.u * area_rate;
  return {-(w.u * s.rho + w.rho * spread), -(w.u * s.u + s.p / w.rho), -(w.u * s.p + gamma * w.p * spread),
          -w.u * s.fresh, -w.u * s.fuel};
}

Primitive moved(const Primitive& w, const Slope& s, double by, const Slope& r, double dt) {
  return {w.rho + (s.rho * by + r.rho * dt), w.u + (s.u * by + r.u * dt), w.p + (s.p * by + r.p * dt),
          w.fresh + (s.fresh * by + r.fresh * dt), w.fuel + (s.fuel * by + r.fuel * dt)};
}

bool is_gas(const Primitive& w, const Primitive& from) { return w.rho > 0.1 * from.rho && w.p > 0.1 * from.p; }

}  // namespace

void fill(const gas::WorkingGas& gas, const Duct& duct, const Primitive& w, Contents& contents, Scratch& scratch) {
  const auto n = static_cast<std::size_t>(duct.grid.cells());
  const double per_mass = thermo(gas, w).e + 0.5 * w.u * w.u;
  for (auto* v : {&contents.mass, &contents.momentum, &contents.energy, &contents.fresh, &contents.fuel}) v->resize(n);
  for (std::size_t i = 0; i < n; ++i) {
    const double mass = w.rho * duct.grid.volume[i];
    contents.mass[i] = mass;
    contents.momentum[i] = mass * w.u;
    contents.energy[i] = mass * per_mass;
    contents.fresh[i] = mass * w.fresh;
    contents.fuel[i] = mass * w.fuel;
  }
  contents.end = {w, w};
  scratch.cell.resize(n);
  scratch.thermo.resize(n);
  scratch.left.resize(n);
  scratch.right.resize(n);
  scratch.half_pressure.resize(n);
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
    const double e = contents.energy[i] * per - 0.5 * w.u * w.u;
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
  Slope behind = between(contents.end[near_end], scratch.cell[0], 0.5 * grid.length[0]);
  for (std::size_t i = 0; i < n; ++i) {
    const Primitive& w = scratch.cell[i];
    const Slope ahead = i + 1 < n ? between(w, scratch.cell[i + 1], 0.5 * (grid.length[i] + grid.length[i + 1]))
                                  : between(w, contents.end[far_end], 0.5 * grid.length[i]);
    const Slope slope = limited(behind, ahead);
    const double area_rate = (grid.area[i + 1] - grid.area[i]) / grid.volume[i];
    const Slope change = rate(w, scratch.thermo[i].gamma, slope, area_rate);
    const double half = 0.5 * grid.length[i];
    scratch.left[i] = moved(w, slope, -half, change, 0.5 * dt);
    scratch.right[i] = moved(w, slope, half, change, 0.5 * dt);
    scratch.half_pressure[i] = w.p + change.p * 0.5 * dt;
    if (!is_gas(scratch.left[i], w) || !is_gas(scratch.right[i], w)) {
      scratch.left[i] = scratch.right[i] = w;
      scratch.half_pressure[i] = w.p;
      ++account.floors;
    }
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
    return 0.5 * contents.mass[i] * u * u * (1.0 - factor * factor);
  };
  if (duct.friction > 0.0)
    for (std::size_t i = 0; i < contents.mass.size(); ++i)
      account.wall_friction += slow(i, 0.5 * duct.friction / grid.bore[i]);
  for (std::size_t j = 0; j < duct.losses.size(); ++j) {
    const Loss& loss = duct.losses[j];
    const auto i = static_cast<std::size_t>(loss.cell);
    const double K = scratch.cell[i].u >= 0.0 ? loss.forward : loss.backward;
    account.lost[j] += slow(i, 0.5 * K / grid.length[i]);
  }
}

/// Reynolds' analogy, St = f/8, beside laminar conduction Nu = 3.66 in air of 0.03 W/m K; never past the wall's own
/// temperature. @source{INCROPERA, eq. 8.53 and 6.70}
void warm(const gas::WorkingGas& gas, const Duct& duct, double dt, const Scratch& scratch, Contents& contents,
          DuctAccount& account) {
  for (std::size_t i = 0; i < contents.mass.size(); ++i) {
    const Primitive& w = scratch.cell[i];
    const gas::Caloric k = gas::blend(gas, w.fresh, w.fuel);
    const double cv = k.R / (scratch.thermo[i].gamma - 1.0), cp = cv + k.R;
    const double film = duct.friction / 8.0 * w.rho * std::abs(w.u) * cp + 3.66 * 0.03 / duct.grid.bore[i];
    const double reach = duct.heat_share * film * duct.grid.wall[i] * dt / (contents.mass[i] * cv);
    const double heat =
        contents.mass[i] * cv * (duct.wall_temperature - scratch.thermo[i].T) * (reach / (1.0 + reach));
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
    const double a = area[i], b = area[i + 1], p = scratch.half_pressure[i];
    contents.mass[i] -= dt * (out.mass * b - in.mass * a);
    contents.momentum[i] -= dt * ((out.momentum - p) * b - (in.momentum - p) * a);
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
