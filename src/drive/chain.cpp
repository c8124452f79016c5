#include "drive/chain.hpp"

#include <numbers>

namespace portwright::drive {

double chain_per_turn(const Chain& chain) { return 2.0 * chain.pitch * chain.teeth; }

double chain_speed(const Chain& chain, double speed) { return chain_per_turn(chain) * speed; }

double chain_force(const Chain& chain, double torque, double drag) {
  return torque * (1.0 - drag) * 2.0 * std::numbers::pi / chain_per_turn(chain);
}

double torque_for(const Chain& chain, double force, double drag) {
  return force * chain_per_turn(chain) / (2.0 * std::numbers::pi * (1.0 - drag));
}

Clutch clutch_at(double speed, double engages, double holds) {
  return speed < engages ? Clutch::open : speed < engages * holds ? Clutch::slips : Clutch::holds;
}

}  // namespace portwright::drive
