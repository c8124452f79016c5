#include "bottom_end/turn_forces.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace portwright::bottom_end {

namespace {

constexpr double turn = 2.0 * std::numbers::pi;

double into_turn(double angle) {
  const double rest = std::fmod(angle, turn);
  return rest < 0.0 ? rest + turn : rest;
}

TurnGrid::Node node_at(const geometry::CrankSlider& slider, double angle, double phase) {
  const double throw_sin = std::sin(angle + phase), throw_cos = std::cos(angle + phase);
  const double rod_sin = (slider.radius() * throw_sin + slider.pin_offset()) / slider.rod();
  const double rod_cos = std::sqrt(1.0 - rod_sin * rod_sin);
  // The rod leans one way while the crank turns the other: the big end turns by both together.
  const double swing = slider.radius() * throw_cos / (slider.rod() * rod_cos);
  return {
      angle,   slider.drop(angle), slider.velocity(angle), slider.acceleration(angle), throw_sin, throw_cos, rod_sin,
      rod_cos, 1.0 + swing,        std::abs(swing)};
}

}  // namespace

GasTrace even_trace(std::span<const double> angles, std::span<const double> cylinder, std::span<const double> crankcase,
                    int count) {
  if (angles.size() < 3 || cylinder.size() != angles.size() || crankcase.size() != angles.size() || count < 8)
    throw std::logic_error("a trace of pressures needs three instants and as many of each");
  std::vector<std::array<double, 3>> rows;
  for (std::size_t i = 0; i < angles.size(); ++i) rows.push_back({into_turn(angles[i]), cylinder[i], crankcase[i]});
  std::stable_sort(rows.begin(), rows.end(), [](const auto& a, const auto& b) { return a[0] < b[0]; });
  GasTrace out;
  std::size_t next = 0;
  for (int k = 0; k < count; ++k) {
    const double angle = turn * k / count;
    while (next < rows.size() && rows[next][0] < angle) ++next;
    const auto &after = rows[next % rows.size()], &before = rows[(next + rows.size() - 1) % rows.size()];
    const double from = next == 0 ? before[0] - turn : before[0];
    const double to = next == rows.size() ? after[0] + turn : after[0];
    const double share = to > from ? (angle - from) / (to - from) : 0.0;
    out.cylinder.push_back(before[1] + share * (after[1] - before[1]));
    out.crankcase.push_back(before[2] + share * (after[2] - before[2]));
  }
  return out;
}

TurnGrid::TurnGrid(const geometry::CrankSlider& slider, int count) : radius(slider.radius()) {
  // Angles run from the true dead centre, where throw and rod lie on one line through the crank's axis.
  const double phase = -std::asin(slider.pin_offset() / (slider.rod() + slider.radius()));
  nodes.reserve(static_cast<std::size_t>(count));
  for (int k = 0; k < count; ++k) nodes.push_back(node_at(slider, turn * k / count, phase));
}

double Force::size() const { return std::sqrt(along * along + aside * aside); }

double TurnGrid::step() const { return turn / static_cast<double>(nodes.size()); }

NodeForces forces_at(const TurnGrid& grid, std::size_t node, const Masses& masses, double piston_area,
                     const GasTrace& gas, double factor, double speed) {
  const TurnGrid::Node& at = grid.nodes[node];
  const double omega = turn * speed, centrifugal = grid.radius * omega * omega;
  const double acceleration = at.acceleration * omega * omega;
  NodeForces out;
  if (!gas.empty()) out.gas = factor * piston_area * (gas.cylinder[node] - gas.crankcase[node]);
  const double along = out.gas - masses.reciprocating() * acceleration;
  out.rod = along / at.rod_cos;
  out.thrust = out.rod * at.rod_sin;
  out.small_end = {masses.piston * acceleration - out.gas, out.thrust};
  out.big_end = {-along + masses.rod_big * centrifugal * at.throw_cos,
                 out.thrust + masses.rod_big * centrifugal * at.throw_sin};
  // The counterweight holds the big end's mass besides, which cancels here.
  out.main = {-along - masses.counter * centrifugal * at.throw_cos,
              out.thrust - masses.counter * centrifugal * at.throw_sin};
  out.shake = {masses.reciprocating() * acceleration - masses.counter * centrifugal * at.throw_cos,
               -masses.counter * centrifugal * at.throw_sin};
  out.torque = grid.radius * out.rod * (at.rod_sin * at.throw_cos + at.rod_cos * at.throw_sin);
  return out;
}

std::vector<NodeForces> turn_forces(const TurnGrid& grid, const Masses& masses, double piston_area, const GasTrace& gas,
                                    double speed, double factor) {
  if (!gas.empty() && gas.cylinder.size() != grid.nodes.size())
    throw std::logic_error("a trace of pressures of another length than the grid");
  std::vector<NodeForces> out;
  out.reserve(grid.nodes.size());
  for (std::size_t i = 0; i < grid.nodes.size(); ++i)
    out.push_back(forces_at(grid, i, masses, piston_area, gas, factor, speed));
  return out;
}

Peaks peaks_of(std::span<const NodeForces> forces) {
  Peaks out;
  for (const NodeForces& at : forces) {
    out.thrust_pressed = std::max(out.thrust_pressed, at.thrust);
    out.thrust_other = std::max(out.thrust_other, -at.thrust);
    out.rod_compression = std::max(out.rod_compression, at.rod);
    out.rod_tension = std::max(out.rod_tension, -at.rod);
    out.small_end = std::max(out.small_end, at.small_end.size());
    out.big_end = std::max(out.big_end, at.big_end.size());
    out.main = std::max(out.main, at.main.size());
    out.shaking = std::max(out.shaking, at.shake.size());
  }
  return out;
}

}  // namespace portwright::bottom_end
