#pragma once
// A volume of gas that is the same all through: case, cylinder, box.

#include "flow/boundary_open.hpp"

namespace portwright::flow {

/// Contents of a volume: kg, J (sensible), kg, kg.
struct Volume {
  double mass = 0.0, energy = 0.0, fresh = 0.0, fuel = 0.0;
};

/// What enters a volume per second, or in one step: kg, J, kg, kg.
struct Inflow {
  double mass = 0.0, energy = 0.0, fresh = 0.0, fuel = 0.0;
  Inflow& operator+=(const Inflow& b) {
    mass += b.mass;
    energy += b.energy;
    fresh += b.fresh;
    fuel += b.fuel;
    return *this;
  }
};

/// Gas at rest in a volume of the given size [m³].
inline Reservoir reservoir(const gas::WorkingGas& gas, const Volume& v, double size) {
  const double per = 1.0 / v.mass, fresh = v.fresh * per, fuel = v.fuel * per;
  const gas::Caloric k = gas::blend(gas, fresh, fuel);
  const double T = gas::temperature(k, gas.c, v.energy * per);
  return {v.mass * k.R * T / size, T, fresh, fuel};
}

/// The contents of a volume filled with the given gas.
inline Volume filled(const gas::WorkingGas& gas, const Reservoir& r, double size) {
  const gas::Caloric k = gas::blend(gas, r.fresh, r.fuel);
  const double mass = r.p * size / (k.R * r.T);
  return {mass, mass * gas::energy(k, gas.c, r.T), mass * r.fresh, mass * r.fuel};
}

}  // namespace portwright::flow
