#pragma once
// The gas at one place of a duct, and what its temperature says of it.

#include <cmath>

#include "gas/working_gas.hpp"

namespace portwright::flow {

/// Gas at a place: density [kg/m³], speed along the duct [m/s], pressure [Pa], mass fractions of fresh charge (air and
/// fuel vapour together) and of fuel [-].
struct Primitive {
  double rho = 1.2, u = 0.0, p = 101325.0, fresh = 1.0, fuel = 0.0;
};

/// What follows from a Primitive: temperature [K], sensible energy [J/kg], ratio of heats [-], speed of sound [m/s].
struct Thermo {
  double T, e, gamma, sound;
};

/// One square root for energy and heat capacity together, one for the speed of sound.
inline Thermo thermo(const gas::WorkingGas& gas, const Primitive& w) {
  const gas::Caloric k = gas::blend(gas, w.fresh, w.fuel);
  const double T = w.p / (w.rho * k.R);
  const double root = std::sqrt(T * T + gas.c * gas.c);
  const double gamma = 1.0 + k.R / (k.a + k.b * T / root);
  return {T, k.a * T + k.b * (root - gas.c), gamma, std::sqrt(gamma * w.p / w.rho)};
}

/// Flux through a face, per area: mass [kg/m²s], momentum [Pa], energy [W/m²], fresh and fuel [kg/m²s].
struct Flux {
  double mass = 0.0, momentum = 0.0, energy = 0.0, fresh = 0.0, fuel = 0.0;
};

}  // namespace portwright::flow
