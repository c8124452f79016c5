#include "heat/gas_side.hpp"

#include <algorithm>
#include <cmath>

namespace portwright::heat {

namespace {

constexpr int slices = 96;

void add(Exposure& to, const cycle::Instant& at, double share) {
  to.film += share * at.film;
  to.pull += share * at.film * at.temperature;
}

DuctHeat duct_heat(const cycle::Network& network, const cycle::Traced& traced, std::size_t d) {
  DuctHeat out;
  out.port = network.names[d].port;
  out.exhaust = network.names[d].role == cycle::Role::exhaust;
  out.heat = -traced.turn.ducts[d].account.wall_heat * traced.point.speed;
  if (!out.exhaust) return out;
  out.gas = traced.point.exhaust_temperature;
  const double over = out.gas - network.ducts[d].wall_temperature;
  if (over > 1.0) out.conductance = std::max(0.0, out.heat / over);
  return out;
}

}  // namespace

Exposure GasSide::over(double from, double to) const {
  Exposure sum;
  const double height = to - from;
  const auto take = [&](const Exposure& e, double low, double high) {
    const double share = std::max(0.0, std::min(to, high) - std::max(from, low)) / height;
    sum.film += share * e.film;
    sum.pull += share * e.pull;
  };
  take(ends, -1e9, 0.0);
  for (std::size_t i = 0; i < slices.size(); ++i)
    take(slices[i], slice * static_cast<double>(i), slice * static_cast<double>(i + 1));
  return sum;
}

GasSide gas_side(const cycle::Network& network, const cycle::Traced& traced) {
  GasSide out;
  out.speed = traced.point.speed;
  out.bore = network.bore;
  out.stroke = network.stroke;
  out.piston_area = network.piston_area;
  out.slices.resize(slices);
  out.ring_travel.assign(slices, 0.0);
  const double greatest = network.slider.drop(network.slider.bdc());
  out.slice = greatest / slices;
  const double share = 1.0 / static_cast<double>(std::max<std::size_t>(1, traced.instants.size()));
  for (const cycle::Instant& at : traced.instants) {
    add(out.ends, at, share);
    out.case_temperature += share * at.case_temperature;
    const double bare = std::clamp(network.slider.drop(at.angle) / out.slice, 0.0, static_cast<double>(slices));
    const auto whole = static_cast<std::size_t>(bare);
    for (std::size_t i = 0; i < std::min<std::size_t>(whole, slices); ++i) add(out.slices[i], at, share);
    if (whole < slices) add(out.slices[whole], at, share * (bare - static_cast<double>(whole)));
    out.ring_travel[std::min<std::size_t>(whole, slices - 1)] += share;
  }
  for (std::size_t d = 0; d < network.ducts.size(); ++d)
    if (network.names[d].role == cycle::Role::exhaust || network.names[d].role == cycle::Role::transfer)
      out.ducts.push_back(duct_heat(network, traced, d));
  out.day = network.day.T;
  out.day_density = network.day_density;
  out.case_wall = network.assumptions.case_wall;
  out.muffler_wall = network.assumptions.muffler_wall;
  out.wall = network.assumptions.cylinder_wall;
  out.burnt = traced.turn.burn_heat * out.speed;
  out.into_wall = traced.point.heat_cylinder;
  out.exhaust_temperature = traced.point.exhaust_temperature;
  const cycle::Assumptions& a = network.assumptions;
  const double rubbing = a.friction_pressure + a.friction_speed * 2.0 * network.stroke * out.speed;
  out.friction = rubbing * network.swept * out.speed;
  return out;
}

}  // namespace portwright::heat
