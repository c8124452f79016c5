#pragma once
// One duct on a bench: contents set as wanted, ends of any sort, marched at a Courant number.

#include <algorithm>
#include <cmath>
#include <vector>

#include "flow/boundary_open.hpp"
#include "flow/duct.hpp"
#include "flow/flux_hllc.hpp"
#include "flow/profile.hpp"
#include "flow/volume.hpp"

namespace portwright::reference {

/// All ingredients alike, constant ratio of heats.
inline gas::WorkingGas perfect_gas(double R = 1.0, double gamma = 1.4) {
  gas::WorkingGas g;
  g.air = g.fuel = g.burned = {R, R / (gamma - 1.0), 0.0};
  g.c = 1000.0;
  return g;
}

/// The gas of an engine.
inline gas::WorkingGas engine_gas() { return gas::working_gas(12.8, 0.0).value(); }

inline flow::Primitive gas_of(const gas::WorkingGas& gas, double p, double T, double fresh = 1.0, double fuel = 0.0,
                              double u = 0.0) {
  return {p / (gas::blend(gas, fresh, fuel).R * T), u, p, fresh, fuel};
}

inline flow::Flux toward_far(flow::Flux f) {
  f.mass = -f.mass;
  f.energy = -f.energy;
  f.fresh = -f.fresh;
  f.fuel = -f.fuel;
  return f;
}

inline flow::Primitive turned(flow::Primitive w) {
  w.u = -w.u;
  return w;
}

/// A uniform duct of unit area, or any stations.
inline flow::Grid uniform_grid(int cells, double length = 1.0, double area = 1.0) {
  const flow::Station stations[] = {{0.0, area}, {length, area}};
  return flow::make_grid(stations, length / cells);
}

struct Rig {
  gas::WorkingGas gas;
  flow::Duct duct;
  flow::Contents contents;
  flow::Scratch scratch;
  flow::DuctAccount account;
  double time = 0.0;

  Rig(const gas::WorkingGas& g, const flow::Duct& d, const flow::Primitive& w = {}) : gas(g), duct(d) {
    flow::fill(gas, duct, w, contents, scratch);
    account.lost.resize(duct.losses.size());
  }
  [[nodiscard]] std::size_t cells() const { return contents.mass.size(); }
  [[nodiscard]] double near_area() const { return duct.grid.area.front(); }
  [[nodiscard]] double far_area() const { return duct.grid.area.back(); }

  /// Contents from the gas as a function of place, by four Gauss points over each cell; `area` of place likewise.
  template <class Gas, class Area>
  void set(Gas&& gas_at, Area&& area_at) {
    double from = 0.0;
    for (std::size_t i = 0; i < cells(); ++i) {
      const double dx = duct.grid.length[i];
      const flow::Totals t = integral(gas_at, area_at, from, dx);
      contents.mass[i] = t.mass;
      contents.momentum[i] = t.momentum;
      contents.energy[i] = t.energy;
      contents.fresh[i] = t.fresh;
      contents.fuel[i] = t.fuel;
      from += dx;
    }
    contents.end = {gas_at(0.0), gas_at(from)};
  }
  template <class Gas>
  void set(Gas&& gas_at) {
    set(gas_at, [this](double) { return near_area(); });
  }
  template <class Gas, class Area>
  flow::Totals integral(Gas&& gas_at, Area&& area_at, double from, double dx) const {
    constexpr double node[] = {-0.8611363115940526, -0.3399810435848563, 0.3399810435848563, 0.8611363115940526};
    constexpr double weight[] = {0.3478548451374538, 0.6521451548625461, 0.6521451548625461, 0.3478548451374538};
    flow::Totals t;
    for (int k = 0; k < 4; ++k) {
      const double x = from + 0.5 * dx * (1.0 + node[k]);
      const flow::Primitive w = gas_at(x);
      const double m = 0.5 * dx * weight[k] * area_at(x) * w.rho;
      t.mass += m;
      t.momentum += m * w.u;
      t.energy += m * (flow::thermo(gas, w).e + 0.5 * w.u * w.u);
      t.fresh += m * w.fresh;
      t.fuel += m * w.fuel;
    }
    return t;
  }
  /// Contents of one cell.
  void set_cell(std::size_t i, const flow::Primitive& w) {
    const double mass = w.rho * duct.grid.volume[i];
    contents.mass[i] = mass;
    contents.momentum[i] = mass * w.u;
    contents.energy[i] = mass * (flow::thermo(gas, w).e + 0.5 * duct.grid.kinetic[i] * w.u * w.u);
    contents.fresh[i] = mass * w.fresh;
    contents.fuel[i] = mass * w.fuel;
  }
  /// Gas in the cells, as last contents say.
  const std::vector<flow::Primitive>& gases() {
    flow::decode(gas, duct, contents, scratch);
    return scratch.cell;
  }

  /// One step of dt; `ends(near_outward, far_outward)` returns the two EndFlows, all counted outward.
  template <class Ends>
  void step(double dt, Ends&& ends) {
    flow::decode(gas, duct, contents, scratch);
    flow::predict(gas, duct, contents, dt, scratch, account);
    const auto [a, b] = ends(turned(scratch.left.front()), scratch.right.back());
    scratch.flux.front() = toward_far(a.flux);
    scratch.flux.back() = b.flux;
    contents.end = {turned(a.gas), b.gas};
    flow::advance(gas, duct, dt, scratch, contents, account);
    time += dt;
  }
  /// To a time, at a Courant number.
  template <class Ends>
  void march(double until, double courant, Ends&& ends) {
    while (time < until * (1.0 - 1e-12)) {
      const double fastest = flow::decode(gas, duct, contents, scratch);
      step(std::min(courant / fastest, until - time), ends);
    }
  }
  [[nodiscard]] flow::EndFlow closed(const flow::Primitive& inner) const {
    return flow::boundary_open(gas, inner, {}, 1.0, 0.0, inner.p);
  }
  [[nodiscard]] auto both_closed() const {
    return [this](const flow::Primitive& a, const flow::Primitive& b) { return std::pair{closed(a), closed(b)}; };
  }
  /// Against gas that stands beyond the end: the flux of the two.
  [[nodiscard]] flow::EndFlow against(const flow::Primitive& inner, const flow::Primitive& beyond) const {
    flow::EndFlow out;
    out.flux = flow::flux_hllc(inner, flow::thermo(gas, inner), beyond, flow::thermo(gas, beyond));
    out.gas = beyond;
    return out;
  }
  /// Far end joined to near end.
  [[nodiscard]] auto ring() const {
    return [this](const flow::Primitive& a, const flow::Primitive& b) {
      flow::EndFlow far = against(b, turned(a)), near = against(a, turned(b));
      far.gas = {0.5 * (a.rho + b.rho), 0.5 * (b.u - a.u), 0.5 * (a.p + b.p), 0.5 * (a.fresh + b.fresh),
                 0.5 * (a.fuel + b.fuel)};
      near.gas = turned(far.gas);
      return std::pair{near, far};
    };
  }
};

/// Observed order of errors on grids that double.
inline double order(const std::vector<double>& errors) { return std::log2(errors[errors.size() - 2] / errors.back()); }

}  // namespace portwright::reference
