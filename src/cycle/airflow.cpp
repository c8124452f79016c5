#include "cycle/airflow.hpp"

#include <algorithm>

namespace portwright::cycle {

namespace {

/// Losses of a duct by cause: several of one cause are one row.
void add_loss(std::vector<CauseLoss>& losses, Cause cause, double energy) {
  for (CauseLoss& loss : losses)
    if (loss.cause == cause) {
      loss.energy += energy;
      return;
    }
  losses.push_back({cause, energy, 0.0});
}

DuctFlow split(const Network& network, std::size_t d, const DuctTurn& turn) {
  DuctFlow out;
  out.name = network.names[d];
  // The far end is the one nearer the cylinder, or the muffler; only the exhaust's near end is at the cylinder.
  const bool exhaust = out.name.role == Role::exhaust;
  out.forward = exhaust ? turn.near_in : turn.far_out;
  out.back = exhaust ? turn.near_out : turn.far_in;
  out.pressed = turn.pressed;
  const flow::Duct& duct = network.ducts[d];
  double known = turn.account.wall_friction;
  for (std::size_t j = 0; j < duct.losses.size(); ++j) {
    add_loss(out.losses, static_cast<Cause>(duct.losses[j].cause), turn.account.lost[j]);
    known += turn.account.lost[j];
  }
  add_loss(out.losses, Cause::wall, turn.account.wall_friction);
  add_loss(out.losses, Cause::window, std::max(0.0, turn.pressed - known));
  const double volume = (out.forward + out.back) / network.day_density;
  for (CauseLoss& loss : out.losses) loss.pressure = volume > 0.0 ? loss.energy / volume : 0.0;
  return out;
}

}  // namespace

Airflow air_flow(const Network& network, double speed, const CurvePlan& plan, const Tell& tell) {
  const Traced traced = run_traced(network, speed, plan, tell);
  Airflow out;
  out.point = traced.point;
  for (std::size_t d = 0; d < network.ducts.size(); ++d) out.ducts.push_back(split(network, d, traced.turn.ducts[d]));
  for (DuctFlow& duct : out.ducts) {
    double whole = 0.0;
    for (const DuctFlow& other : out.ducts)
      if (other.name.role == duct.name.role) whole += other.forward - other.back;
    duct.share = whole > 0.0 ? (duct.forward - duct.back) / whole : 0.0;
  }
  out.drawn = traced.turn.drawn;
  out.trapped = traced.turn.trapped_fresh;
  out.short_lost = std::max(0.0, traced.turn.delivered_fresh - traced.turn.trapped_fresh);
  return out;
}

const char* cause_name(Cause cause) {
  switch (cause) {
    case Cause::entry:
      return "entry";
    case Cause::throttle:
      return "throttle";
    case Cause::venturi:
      return "venturi";
    case Cause::block:
      return "reed block";
    case Cause::gasket:
      return "gasket";
    case Cause::mouth:
      return "mouth";
    case Cause::bend:
      return "bend";
    case Cause::wall:
      return "wall friction";
    case Cause::window:
      return "window";
  }
  return "";
}

}  // namespace portwright::cycle
