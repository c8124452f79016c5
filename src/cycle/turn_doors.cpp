// Of a step what passes the ends of ducts and the gaps between rooms, and into whose account it goes.
#include <algorithm>
#include <cmath>

#include "cycle/cylinder.hpp"
#include "cycle/openings.hpp"
#include "cycle/turn.hpp"

namespace portwright::cycle {

namespace {

flow::Primitive outward(const flow::Primitive& w, int end) {
  flow::Primitive o = w;
  if (end == flow::near_end) o.u = -o.u;
  return o;
}

}  // namespace

/// The gas behind a duct's end, half a step ahead.
const flow::Reservoir& March::behind(std::size_t d, int end) const {
  const int room = net_.ends[d][static_cast<std::size_t>(end)].room;
  if (room == outdoors) return net_.day;
  const bool exhaust = net_.names[d].role == Role::exhaust && room == net_.cylinder;
  return exhaust ? exit_ : half_[static_cast<std::size_t>(room)];
}

/// The same with the fuel that a carburettor adds.
March::Mixed March::at_door(std::size_t d, int end) const {
  const flow::Reservoir& room = behind(d, end);
  return net_.ends[d][static_cast<std::size_t>(end)].carburetted ? carburetted(room) : Mixed{room, 0.0};
}

/// The end of every duct against its room: the flux there, and what the room gets.
void March::pass_ends(State& state, double dt, Turn& sums) {
  begin_ends();
  for (std::size_t d = 0; d < net_.ducts.size(); ++d) {
    const flow::Grid& grid = net_.ducts[d].grid;
    flow::Scratch& scratch = scratch_[d];
    for (const int end : {flow::near_end, flow::far_end}) {
      const auto e = static_cast<std::size_t>(end);
      const bool near = end == flow::near_end;
      const double area = near ? grid.area.front() : grid.area.back();
      const double opening = area_[static_cast<std::size_t>(net_.ends[d][e].opening)];
      const flow::Primitive inner = outward(near ? scratch.left.front() : scratch.right.back(), end);
      const Mixed mixed = at_door(d, end);
      double& guess = state.end_pressure[d][e];
      const flow::EndFlow out = flow::boundary_open(net_.gas, inner, mixed.gas, area, opening, guess);
      guess = out.gas.p;
      flow::Flux& flux = near ? scratch.flux.front() : scratch.flux.back();
      flux = out.flux;
      if (near) flux = {-flux.mass, flux.momentum, -flux.energy, -flux.fresh, -flux.fuel};
      state.ducts[d].end[e] = outward(out.gas, end);
      take_end(d, end, out, mixed.fuel, dt, sums);
    }
  }
  end_ends();
}

void March::begin_ends() { charge_.in_rate = charge_.in_fresh = charge_.in_fuel = charge_.out_rate = 0.0; }

/// What passed an end goes to its room and into the accounts. @param fuel  share of what is drawn that was added there
void March::take_end(std::size_t d, int end, const flow::EndFlow& out, double fuel, double dt, Turn& sums) {
  const DuctEnd& door = net_.ends[d][static_cast<std::size_t>(end)];
  const flow::Grid& grid = net_.ducts[d].grid;
  const double area = end == flow::near_end ? grid.area.front() : grid.area.back();
  const flow::Inflow in{out.flux.mass * area, out.flux.energy * area, out.flux.fresh * area, out.flux.fuel * area};
  sums.floors += out.floors;
  give(door.room, in, dt, sums);
  if (door.carburetted) {
    if (in.mass < 0.0 && fuel > 0.0) {
      const flow::Inflow added = add_fuel(behind(d, end), -in.mass * fuel);
      give(door.room, added, dt, sums);
      note_outdoors({-added.mass, -added.energy, -added.fresh, -added.fuel}, dt, sums);
    }
    sums.drawn -= in.mass * dt;
    sums.drawn_fuel -= in.fuel * dt;
  }
  note_end(d, end, in.mass * dt, sums);
  if (end == flow::far_end && door.room != outdoors) {
    const int before = net_.ends[d][flow::near_end].room;
    const double p = before == outdoors ? net_.day.p : half_[static_cast<std::size_t>(before)].p;
    sums.ducts[d].pressed += (p - half_[static_cast<std::size_t>(door.room)].p) * in.mass / out.gas.rho * dt;
  }
  if (door.intake) note_intake(in.mass * dt, sums);
  if (door.room != net_.cylinder) return;
  if (net_.names[d].role == Role::exhaust) {
    if (in.mass < 0.0) {
      charge_.out_rate -= in.mass;
      sums.exhaust_mass -= in.mass * dt;
      sums.exhaust_heat -= in.mass * dt * total_temperature(net_.gas, out.gas);
    }
  } else if (in.mass > 0.0) {
    charge_.in_rate += in.mass;
    charge_.in_fresh += in.fresh;
    charge_.in_fuel += in.fuel;
    sums.delivered_mass += in.mass * dt;
    sums.delivered_fresh += in.fresh * dt;
  } else {
    sums.blown_back -= in.mass * dt;
  }
}

void March::end_ends() {
  if (!(charge_.in_rate > 0.0)) return;
  charge_.in_fresh /= charge_.in_rate;
  charge_.in_fuel /= charge_.in_rate;
}

/// The fuel that the stream takes up at the venturi, as if it came from outside into the room it is drawn from: the
/// room gives the mixture, and gets this back. What of it evaporates before the cylinder has done so by then.
flow::Inflow March::add_fuel(const flow::Reservoir& room, double rate) const {
  const double enthalpy = gas::enthalpy(net_.gas.fuel, net_.gas.c, room.T) - (1.0 - wet_share()) * net_.gas.latent;
  return {rate, rate * enthalpy, rate, rate};
}

/// Share of the fuel that reaches the cylinder as drops; the gauge is pulled without fuel.
double March::wet_share() const { return net_.fires ? 1.0 - net_.assumptions.evaporated_in_case : 0.0; }

/// A room's gas with fuel up to the engine's air/fuel ratio, cooled by what evaporates; `fuel` is what was added, of
/// the mixture's mass.
March::Mixed March::carburetted(const flow::Reservoir& room) const {
  const double aim = 1.0 / (1.0 + net_.burning.air_fuel);
  if (room.fuel >= aim) return {room, 0.0};
  const double added = (aim - room.fuel) / (1.0 - aim), per = 1.0 / (1.0 + added);
  Mixed out{{room.p, room.T, (room.fresh + added) * per, aim}, added * per};
  const gas::Caloric k = gas::blend(net_.gas, out.gas.fresh, aim);
  const double cooled = (1.0 - wet_share()) * net_.gas.latent * out.fuel;
  out.gas.T = gas::temperature_of_enthalpy(k, net_.gas.c, gas::enthalpy(k, net_.gas.c, room.T) - cooled);
  return out;
}

void March::give(int room, const flow::Inflow& in, double dt, Turn& sums) {
  if (room != outdoors)
    in_[static_cast<std::size_t>(room)] += in;
  else
    note_outdoors(in, dt, sums);
}

void March::note_outdoors(const flow::Inflow& in, double dt, Turn& sums) {
  sums.out_mass += in.mass * dt;
  sums.out_energy += in.energy * dt;
  sums.out_fresh += in.fresh * dt;
  sums.out_fuel += in.fuel * dt;
}

void March::note_end(std::size_t d, int end, double out, Turn& sums) {
  DuctTurn& duct = sums.ducts[d];
  if (end == flow::near_end)
    (out > 0.0 ? duct.near_out : duct.near_in) += std::abs(out);
  else
    (out > 0.0 ? duct.far_out : duct.far_in) += std::abs(out);
}

void March::note_intake(double in, Turn& sums) { (in > 0.0 ? sums.intake_in : sums.intake_back) += std::abs(in); }

/// A gap's two sides, half a step ahead.
March::Sides March::on_both_sides(const Gap& gap) const {
  const auto gas = [&](int room) -> const flow::Reservoir& {
    return room == outdoors ? net_.day : half_[static_cast<std::size_t>(room)];
  };
  const auto size = [&](int room) { return room == outdoors ? 1e9 : size_half_[static_cast<std::size_t>(room)]; };
  return {{gas(gap.from), size(gap.from)}, {gas(gap.to), size(gap.to)}};
}

/// Whether it is a check valve that the pressures hold shut.
bool March::held_shut(const Gap& gap, const Sides& sides) { return gap.one_way && sides.a.gas.p <= sides.b.gas.p; }

void March::take_gap(const Gap& gap, const flow::Inflow& in, double dt, Turn& sums) {
  if (gap.intake) note_intake(in.mass * dt, sums);
  give(gap.to, in, dt, sums);
  give(gap.from, {-in.mass, -in.energy, -in.fresh, -in.fuel}, dt, sums);
}

void March::pass_gaps(State& state, double dt, Turn& sums) {
  for (std::size_t n = 0; n < net_.gaps.size(); ++n) {
    const Gap& gap = net_.gaps[n];
    const Sides sides = on_both_sides(gap);
    const double area = held_shut(gap, sides) ? 0.0 : area_[static_cast<std::size_t>(gap.opening)];
    const flow::Inflow in = through_gap(net_.gas, sides.a, sides.b, area, dt, state.gap_flow[n]);
    state.gap_flow[n] = in.mass;
    take_gap(gap, in, dt, sums);
  }
}

/// A cell's gas beside a room, half a step ahead there.
Beside March::beside(const SideGap& gap) const {
  const auto r = static_cast<std::size_t>(gap.room);
  return {half_[r], size_half_[r]};
}

/// A room beside a duct: what flows from the cell to it.
void March::pass_side_gaps(State& state, double dt) {
  for (const SideGap& gap : net_.side_gaps) {
    const auto d = static_cast<std::size_t>(gap.duct), i = static_cast<std::size_t>(gap.cell);
    const flow::Primitive& w = scratch_[d].cell[i];
    const flow::Reservoir gas{w.p, scratch_[d].thermo[i].T, w.fresh, w.fuel};
    const flow::Inflow in = through_gap(net_.gas, {gas, net_.ducts[d].grid.volume[i]}, beside(gap),
                                        area_[static_cast<std::size_t>(gap.opening)], dt);
    in_[static_cast<std::size_t>(gap.room)] += in;
    flow::Contents& c = state.ducts[d];
    lose_sideways(in, dt, c.mass[i], c.momentum[i], c.energy[i], c.fresh[i], c.fuel[i]);
  }
}

}  // namespace portwright::cycle
