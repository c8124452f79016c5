#include "cycle/cranking.hpp"

#include <algorithm>

#include "cycle/asking.hpp"

namespace portwright::cycle {

namespace {

Opening hole(double area) {
  Opening o;
  o.area = area;
  return o;
}

}  // namespace

Network with_gauge(const Network& network, const CrankPlan& plan) {
  Network cold = network;
  cold.fires = false;
  cold.chamber += plan.gauge_volume;
  cold.rooms[static_cast<std::size_t>(cold.cylinder)].size += plan.gauge_volume;
  for (Room& room : cold.rooms) {
    room.wall_temperature = cold.day.T;
  }
  for (flow::Duct& duct : cold.ducts) duct.wall_temperature = cold.day.T;
  cold.assumptions.cylinder_wall = cold.day.T;

  Room gauge;
  gauge.size = plan.behind_valve;
  cold.rooms.push_back(gauge);
  cold.openings.push_back(hole(plan.valve_area));
  cold.gaps.push_back(
      {cold.cylinder, static_cast<int>(cold.rooms.size()) - 1, static_cast<int>(cold.openings.size()) - 1, true});
  cold.openings.push_back(hole(cold.assumptions.leak_area));
  cold.gaps.push_back({cold.cylinder, cold.crankcase, static_cast<int>(cold.openings.size()) - 1, false});
  return cold;
}

Cranked crank(const Network& network, const CrankPlan& plan, const Tell& tell) {
  const Network cold = with_gauge(network, plan);
  March march(cold, plan.speed, plan.pace);
  Asking asking{&tell};
  const StopCall stop = stop_of(asking);
  march.set_stop(stop);
  State state = march.cold();
  Cranked out;
  for (int stroke = 0; stroke < plan.strokes; ++stroke) {
    asking.share = static_cast<double>(stroke) / plan.strokes;
    Turn turn = march.empty_turn();
    march.turn(state, turn);
    if (stop.now()) break;
    const double gauge = flow::reservoir(cold.gas, state.rooms.back(), cold.rooms.back().size).p - cold.day.p;
    out.peak = std::max(out.peak, turn.peak_pressure);
    out.gauge.push_back(gauge);
    const std::size_t n = out.gauge.size();
    if (n < 4) continue;
    // What is still to come, from how fast the last rises shrink.
    const double rise = gauge - out.gauge[n - 2], before = out.gauge[n - 2] - out.gauge[n - 3];
    const double shrink = before > 0.0 ? std::clamp(rise / before, 0.0, 0.97) : 0.0;
    if (rise * shrink / (1.0 - shrink) < 0.002 * gauge) break;
  }
  if (!out.gauge.empty()) out.reading = out.gauge.back();
  return out;
}

}  // namespace portwright::cycle
