#include "cycle/curve.hpp"

#include <algorithm>
#include <cmath>

#include "cycle/asking.hpp"
#include "numerics/normal.hpp"

namespace portwright::cycle {

namespace {

constexpr double Point::*averaged[] = {
    &Point::power,         &Point::torque,         &Point::bmep,       &Point::imep,
    &Point::case_mep,      &Point::delivery_ratio, &Point::trapping,   &Point::scavenging,
    &Point::charging,      &Point::peak_pressure,  &Point::peak_angle, &Point::exhaust_temperature,
    &Point::case_low,      &Point::case_high,      &Point::fuel,       &Point::knock,
    &Point::spit_back,     &Point::blow_back,      &Point::reed_lift,  &Point::reed_impact,
    &Point::heat_cylinder, &Point::fuel_lost};

/// Mean of turns after the settled one, each with its draw.
/// @param mean  the settled turn's point before
Course mean_of_turns(Turner& turner, March& march, State state, const std::vector<Draw>& draws, Point& mean) {
  for (auto member : averaged) mean.*member = 0.0;
  for (const Draw& draw : draws) {  // once to leave the settled turn behind, once to count
    Turn turn = march.empty_turn();
    co_await turner.turn(march, state, turn, draw);
  }
  for (const Draw& draw : draws) {
    Turn turn = march.empty_turn();
    co_await turner.turn(march, state, turn, draw);
    const Point p = point_of(march.network(), march.speed(), turn);
    for (auto member : averaged) mean.*member += p.*member / static_cast<double>(draws.size());
  }
}

/// An answer of the search in numbers of a point.
Point told(const Network& network, double speed, const Settled& settled) {
  Point out = point_of(network, speed, settled.turn);
  out.label = settled.label;
  out.error = settled.error;
  out.multiplier = settled.multiplier;
  out.turns = settled.turns;
  return out;
}

/// One speed from the state of its neighbour. @param pressure  of the repeating turn, net [Pa]
Course sweeping(Turner& turner, const Network& network, double speed, const CurvePlan& plan, State& state,
                StopCall stop, Point& out, double& pressure) {
  March march(network, speed, plan.pace);
  if (state.rooms.empty()) state = march.cold();
  Settled settled;
  co_await (plan.proven ? settling : looking)(turner, march, state, plan.search, settled, stop);
  const bool repeats = plan.proven ? settled.label == Label::stable : settled.error <= plan.search.tolerance;
  out = told(network, speed, settled);
  pressure = out.imep;
  // A turn that does not repeat says nothing alone: then the mean of a few as they come.
  constexpr int turns_that_differ = 8;
  const std::vector<Draw> draws = plan.scattered_turns > 0 ? common_draws(plan.scattered_turns)
                                  : !repeats               ? std::vector<Draw>(turns_that_differ)
                                                           : std::vector<Draw>();
  if (!draws.empty() && !stop.now()) co_await mean_of_turns(turner, march, state, draws, out);
}

struct Swept {
  Point point;
  double pressure = 0.0;
};

Swept sweep_to(const Network& network, double speed, const CurvePlan& plan, State& state, const StopCall& stop) {
  Turner alone;
  Swept out;
  sweeping(alone, network, speed, plan, state, stop, out.point, out.pressure).finish();
  return out;
}

}  // namespace

std::vector<Draw> common_draws(int turns) {
  // A low-discrepancy walk through the normal's quantiles, each followed by its mirror.
  constexpr double golden[3] = {0.8191725133961645, 0.6710436067037893, 0.5497004779019703};
  std::vector<Draw> out;
  for (int k = 0; static_cast<int>(out.size()) < turns; ++k) {
    double z[3];
    for (int i = 0; i < 3; ++i) z[i] = numerics::normal_quantile(std::fmod(0.5 + golden[i] * (k + 1), 1.0));
    for (const double sign : {1.0, -1.0})
      if (static_cast<int>(out.size()) < turns)
        out.push_back({1.0 + sign * scatter.burn_angle * z[0], 1.0 + sign * scatter.completeness * z[1],
                       1.0 + sign * scatter.speed * z[2]});
  }
  return out;
}

std::vector<double> second_differences(const std::vector<Point>& points) {
  std::vector<double> out(points.size(), 0.0);
  double greatest = 0.0;
  for (const Point& point : points) greatest = std::max(greatest, point.power);
  if (!(greatest > 0.0)) return out;
  for (std::size_t i = 1; i + 1 < points.size(); ++i) {
    const Point &before = points[i - 1], &here = points[i], &after = points[i + 1];
    const double t = (here.speed - before.speed) / (after.speed - before.speed);
    out[i] = 2.0 * (before.power + t * (after.power - before.power) - here.power) / greatest;
  }
  return out;
}

void label_steep(std::vector<Point>& points) {
  const std::vector<double> step = second_differences(points);
  const auto near = [&](std::size_t i) {
    return points[i].speed - points[i - 1].speed <= near_enough_for_steps * (1.0 + 1e-9);
  };
  for (std::size_t i = 1; i + 1 < points.size(); ++i)
    if (points[i].label == Label::stable && std::abs(step[i]) > steep_step && near(i) && near(i + 1))
      points[i].label = Label::steep;
}

Curve run_curve(const Network& network, const CurvePlan& plan, const Tell& tell) {
  Curve out;
  State state;
  Asking asking{&tell};
  const StopCall stop = stop_of(asking);
  const std::size_t n = plan.speeds.size();
  const double each = 1.0 / static_cast<double>(std::max<std::size_t>(1, plan.both_ways ? 2 * n : n));
  std::vector<double> upward;
  for (const double speed : plan.speeds) {
    const Swept swept = sweep_to(network, speed, plan, state, stop);
    if (stop.now()) {
      out.stopped = true;
      return out;
    }
    out.points.push_back(swept.point);
    upward.push_back(swept.pressure);
    asking.share += each;
  }
  if (!plan.both_ways || n < 2) {
    label_steep(out.points);
    return out;
  }
  CurvePlan down = plan;
  down.scattered_turns = 0;
  for (std::size_t k = n - 1; k-- > 0;) {
    const Swept swept = sweep_to(network, plan.speeds[k], down, state, stop);
    if (stop.now()) {
      out.stopped = true;
      return out;
    }
    const double apart = std::abs(swept.pressure - upward[k]) / std::max(1e4, std::abs(upward[k]));
    if (apart > 4.0 * plan.search.tolerance && out.points[k].label == Label::stable)
      out.points[k].label = Label::two_solution;
    asking.share += each;
  }
  label_steep(out.points);
  return out;
}

Point reach(const Network& network, double speed, const CurvePlan& plan, State& state, const StopCall& stop) {
  return sweep_to(network, speed, plan, state, stop).point;
}

Course reaching(Turner& turner, const Network& network, double speed, const CurvePlan& plan, State& state,
                StopCall stop, Point& out) {
  double pressure = 0.0;
  co_await sweeping(turner, network, speed, plan, state, stop, out, pressure);
}

Point glance(const Network& network, double speed, State& state, const StopCall& stop) {
  constexpr Search near_enough{glance_tolerance, 40, 0, 1};
  March march(network, speed);
  if (state.rooms.empty()) state = march.cold();
  Settled settled;
  look(march, state, near_enough, settled, stop);
  return told(network, speed, settled);
}

namespace {

/// A content of a duct's cells as density along its length, told to cells of other number and size.
std::vector<double> told_again(const std::vector<double>& was, const flow::Grid& from, const flow::Grid& to) {
  const auto n = static_cast<double>(from.volume.size()), m = static_cast<double>(to.volume.size());
  std::vector<double> out(to.volume.size());
  for (std::size_t i = 0; i < out.size(); ++i) {
    const double begin = static_cast<double>(i) / m * n, end = static_cast<double>(i + 1) / m * n;
    double sum = 0.0;
    for (std::size_t k = static_cast<std::size_t>(begin); k < from.volume.size() && static_cast<double>(k) < end; ++k) {
      const double over = std::min(end, static_cast<double>(k + 1)) - std::max(begin, static_cast<double>(k));
      sum += std::max(0.0, over) * was[k] / from.volume[k];
    }
    out[i] = sum / (end - begin) * to.volume[i];
  }
  return out;
}

}  // namespace

State carried(const Network& from, const State& state, const Network& to) {
  if (from.ducts.size() != to.ducts.size() || from.rooms.size() != to.rooms.size() ||
      from.gaps.size() != to.gaps.size() || from.has_reed != to.has_reed || state.rooms.size() != from.rooms.size())
    return {};
  State out = state;
  for (std::size_t d = 0; d < to.ducts.size(); ++d) {
    const flow::Grid &was = from.ducts[d].grid, &is = to.ducts[d].grid;
    flow::Contents& c = out.ducts[d];
    for (std::vector<double>* content : {&c.mass, &c.momentum, &c.energy, &c.fresh, &c.fuel})
      *content = told_again(*content, was, is);
  }
  out.angle = to.start;
  return out;
}

Traced run_traced(const Network& network, double speed, const CurvePlan& plan, const Tell& tell) {
  Asking asking{&tell, 0.5};
  March march(network, speed, plan.pace);
  State state = march.cold();
  Settled settled;
  settle(march, state, plan.search, settled, stop_of(asking));
  Traced out;
  settled.turn = march.empty_turn();
  march.turn(state, settled.turn, {}, &out.instants);
  out.point = told(network, speed, settled);
  out.turn = std::move(settled.turn);
  return out;
}

double zero_torque_speed(const Network& network, double from, double greatest, const CurvePlan& plan,
                         const Tell& tell) {
  State state;
  Asking asking{&tell};
  const StopCall stop = stop_of(asking);
  double last = from, last_torque = 0.0;
  for (double speed = from; speed <= greatest; speed += 15.0) {
    const Swept swept = sweep_to(network, speed, plan, state, stop);
    if (stop.now()) return 0.0;
    asking.share = (speed - from) / (greatest - from);
    if (swept.point.torque <= 0.0) {
      if (speed == from) return from;
      return last + (speed - last) * last_torque / (last_torque - swept.point.torque);
    }
    last = speed;
    last_torque = swept.point.torque;
  }
  return 0.0;
}

}  // namespace portwright::cycle
