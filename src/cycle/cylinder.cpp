#include "cycle/cylinder.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "combustion/burning.hpp"
#include "combustion/knock.hpp"
#include "combustion/wall_heat.hpp"
#include "cycle/build.hpp"

namespace portwright::cycle {

namespace {

/// Rises from 0 at -1 to 1 at 1, smooth in value and slope.
double smooth_step(double x) {
  const double t = std::clamp(0.5 * (x + 1.0), 0.0, 1.0);
  return t * t * (3.0 - 2.0 * t);
}

}  // namespace

double specific_volume(const gas::WorkingGas& gas, const flow::Reservoir& r) {
  return gas::blend(gas, r.fresh, r.fuel).R * r.T / r.p;
}

double total_temperature(const gas::WorkingGas& gas, const flow::Primitive& w) {
  const flow::Thermo t = flow::thermo(gas, w);
  const gas::Caloric k = gas::blend(gas, w.fresh, w.fuel);
  return gas::temperature({k.R, k.a + k.R, k.b}, gas.c, t.e + w.p / w.rho + 0.5 * w.u * w.u);
}

flow::Primitive at_rest(const gas::WorkingGas& gas, const flow::Reservoir& day, const flow::Contents& c) {
  const flow::Totals sum = flow::totals(c);
  const double fresh = sum.fresh / sum.mass, fuel = sum.fuel / sum.mass;
  return {day.p / (gas::blend(gas, fresh, fuel).R * day.T), 0.0, day.p, fresh, fuel};
}

Charge trapped(const Network& network, const flow::Volume& contents, const flow::Reservoir& gas, double size) {
  (void)network;
  Charge charge;
  charge.trapped_pressure = gas.p;
  charge.trapped_temperature = gas.T;
  charge.trapped_size = size;
  charge.trapped_mass = contents.mass;
  charge.trapped_fresh = contents.fresh;
  charge.purity = contents.fresh / contents.mass;
  charge.end_gas = {gas.p, gas.T, 0.0};
  return charge;
}

flow::Reservoir exhaust_exit(const Network& network, const Charge& charge, const flow::Reservoir& gas) {
  const Assumptions& a = network.assumptions;
  const double y = std::clamp(gas.fresh, 0.0, 1.0);
  const double biased = y * (1.0 - a.exit_bias * (1.0 - y * y));
  const double displaced = y * smooth_step((charge.delivered - a.displaced) / 0.1);
  double fresh = (1.0 - a.second_law) * biased + a.second_law * displaced;
  double fuel = y > 0.0 ? gas.fuel * fresh / y : 0.0;
  // What crosses at once, as a share of what leaves.
  const double crossing = (a.short_circuit + a.short_circuit_rise * charge.delivered) * charge.in_rate;
  if (charge.out_rate > 0.0 && crossing > 0.0) {
    const double share = crossing / (crossing + charge.out_rate);
    fresh += share * (charge.in_fresh - fresh);
    fuel += share * (charge.in_fuel - fuel);
  }
  return {gas.p, gas.T, fresh, fuel};
}

double wall_film(const Network& network, const Charge& charge, const flow::Reservoir& gas, double size, double speed,
                 double angle) {
  const double piston_speed = 2.0 * network.stroke * speed;
  const double shut = 1.0 - smooth_step((angle - network.exhaust_opens) / 0.05);
  const combustion::ShutIn from{charge.trapped_pressure, charge.trapped_temperature, charge.trapped_size};
  const double motored = from.p * std::pow(from.volume / size, 1.32);
  const double over = charge.burnt * (gas.p - motored);  // what burning has added
  const double stir = combustion::woschni_speed(piston_speed, shut, network.swept, from, over);
  return network.assumptions.woschni_factor * combustion::woschni_film(network.bore, gas.p, gas.T, stir);
}

double wall_heat(const Network& network, const Charge& charge, const flow::Reservoir& gas, double size, double speed,
                 double angle) {
  const double film = wall_film(network, charge, gas, size, speed, angle);
  // Crown and head, and the wall as far as the piston has left it.
  const double wall = ends_of_piston_area * network.piston_area + 4.0 / network.bore * (size - network.chamber);
  return film * wall * (gas.T - network.assumptions.cylinder_wall);
}

Burnt burn(const Network& network, Charge& charge, const flow::Volume& contents, const flow::Reservoir& gas,
           double speed, double to, double dt, const Draw& draw) {
  const combustion::BurnAssumptions& law = network.burning.law;
  const double spark = -advance_at(network, speed);
  if (!charge.lit && to >= spark) {
    charge.lit = true;
    charge.burn = combustion::burn(law, spark, speed, charge.purity);
    charge.burn.duration *= draw.burn_angle;
    const double air = contents.fresh - contents.fuel;
    const double share = draw.completeness * combustion::burnt_fuel(law, charge.purity, network.burning.lambda);
    charge.fuel_to_burn = std::min(1.0, share) * std::min(contents.fuel, air / network.gas.air_per_fuel);
  }
  Burnt out;
  if (charge.lit) {
    const double share = combustion::burnt_share(charge.burn, to);
    // As planned when lit, or, once the exhaust has taken some of it, of what is left.
    const double planned = (1.0 - charge.burnt) * charge.fuel_to_burn;
    const double there = std::min(contents.fuel, (contents.fresh - contents.fuel) / network.gas.air_per_fuel);
    const double left = planned > 0.0 ? std::clamp(there / planned, 0.0, 1.0) : 0.0;
    out.fuel = (share - charge.burnt) * charge.fuel_to_burn * left;
    charge.burnt = share;
    out.fresh = out.fuel * (1.0 + network.gas.air_per_fuel);
    out.heat = out.fuel * network.gas.heat_per_fuel;
  }
  // The end gas is followed while the charge is shut in and something of it is left to burn.
  if (to < network.exhaust_opens && charge.burnt < 0.99) {
    const double fresh = charge.purity, fuel = fresh / (1.0 + network.burning.air_fuel);
    charge.end_gas = combustion::later(charge.end_gas, gas::blend(network.gas, fresh, fuel), network.gas.c, gas.p, dt,
                                       network.burning.octane);
  }
  return out;
}

}  // namespace portwright::cycle
