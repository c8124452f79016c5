#include "cycle/point.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace portwright::cycle {

namespace {

/// The larger way of a gap's two, as a share of the smaller: 0 where nothing flowed.
double share(double part, double whole) { return whole > 0.0 ? part / whole : 0.0; }

}  // namespace

double lost_pressure(const Network& network, double speed) {
  const Assumptions& a = network.assumptions;
  const double fan = speed / 150.0 * network.bore / 0.050;
  return a.friction_pressure + a.friction_speed * 2.0 * network.stroke * speed + a.fan_pressure * fan * fan;
}

Point point_of(const Network& network, double speed, const Turn& turn) {
  Point p;
  p.speed = speed;
  p.imep = net_pressure(network, turn);
  p.case_mep = -turn.case_work / network.swept;
  p.fmep = lost_pressure(network, speed);
  p.bmep = p.imep - p.fmep;
  p.power = p.bmep * network.swept * speed;
  p.torque = p.bmep * network.swept / (2.0 * std::numbers::pi);
  const double whole = network.day_density * network.swept;
  p.delivery_ratio = turn.drawn / whole;
  p.charging = turn.trapped_fresh / whole;
  p.trapping = share(turn.trapped_fresh, turn.delivered_fresh);
  p.scavenging = share(turn.trapped_fresh, turn.trapped_mass);
  p.peak_pressure = turn.peak_pressure;
  p.peak_angle = turn.peak_angle;
  p.exhaust_temperature = share(turn.exhaust_heat, turn.exhaust_mass);
  p.case_low = turn.case_low;
  p.case_high = turn.case_high;
  const double work = p.bmep * network.swept;
  p.fuel = work > 0.0 ? turn.drawn_fuel / work : 0.0;
  p.knock = turn.knock;
  p.spit_back = share(turn.intake_back, turn.intake_in);
  p.blow_back = share(turn.blown_back, turn.delivered_mass);
  p.reed_lift = turn.reed_lift;
  p.reed_impact = turn.reed_impact;
  p.heat_cylinder = turn.heat_cylinder * speed;
  p.fuel_lost = turn.drawn_fuel > 0.0 ? 1.0 - turn.fuel_burnt / turn.drawn_fuel : 0.0;
  p.floors = turn.floors;
  p.mass_residual = turn.mass_residual;
  p.energy_residual = turn.energy_residual;
  return p;
}

}  // namespace portwright::cycle
