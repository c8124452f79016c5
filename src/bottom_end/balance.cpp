#include "bottom_end/balance.hpp"

#include <cmath>
#include <numbers>

namespace portwright::bottom_end {

double balance_mass(const Rotor& rotor, double crank_radius, double at_radius) {
  return (rotor.rotating + rotor.share * rotor.reciprocating) * crank_radius / at_radius;
}

double primary_shaking(const Rotor& rotor, double radius, double speed, double angle) {
  const double omega = 2.0 * std::numbers::pi * speed, force = rotor.reciprocating * radius * omega * omega;
  return force * std::hypot((1.0 - rotor.share) * std::cos(angle), rotor.share * std::sin(angle));
}

}  // namespace portwright::bottom_end
