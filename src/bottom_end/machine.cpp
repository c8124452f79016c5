#include "bottom_end/machine.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/rings.hpp"
#include "tables/assumptions.hpp"

namespace portwright::bottom_end {

namespace {

constexpr double turn = 2.0 * std::numbers::pi;
constexpr double least_wall = 0.01;                 ///< share that stands for none, so that no pressure is boundless
constexpr double slowest = 10.0, fastest = 1000.0;  // where a life is looked for [rev/s]
constexpr double life_tolerance = 1e-7;             // of the logarithm of its hours

std::size_t index(Place place) { return static_cast<std::size_t>(place); }

Force force_on(Place place, const NodeForces& at) {
  if (place == Place::big_end) return at.big_end;
  if (place == Place::small_end) return at.small_end;
  // Two main bearings; each is taken to carry half.
  return {0.5 * at.main.along, 0.5 * at.main.aside};
}

std::vector<double> at_even(const std::vector<double>& values, int count) {
  std::vector<double> out;
  const double n = static_cast<double>(values.size());
  for (int k = 0; k < count; ++k) {
    const double at = n * k / count;
    const auto i = static_cast<std::size_t>(at);
    const double share = at - static_cast<double>(i);
    out.push_back((1.0 - share) * values[i] + share * values[(i + 1) % values.size()]);
  }
  return out;
}

GasTrace at_even(const GasTrace& gas, int count) {
  if (gas.empty() || static_cast<int>(gas.cylinder.size()) == count) return gas;
  return {at_even(gas.cylinder, count), at_even(gas.crankcase, count)};
}

/// w >= 0 at which |a + w b| reaches a load; 0 where a alone is more.
double square_at_load(const Force& a, const Force& b, double load) {
  const double aa = a.along * a.along + a.aside * a.aside, bb = b.along * b.along + b.aside * b.aside,
               ab = a.along * b.along + a.aside * b.aside;
  const double left = load * load - aa;
  if (left <= 0.0) return 0.0;
  if (!(bb > 0.0)) return 1e300;
  return (std::sqrt(ab * ab + bb * left) - ab) / bb;
}

}  // namespace

Duty usual_duty() {
  return {tables::assumption("duty_work").value, tables::assumption("duty_free").value,
          tables::assumption("idle_speed").value, tables::assumption("idle_gas").value};
}

Bench::Bench(const Machine& machine, int nodes)
    : machine_(machine),
      grid_(machine.slider, nodes),
      gas_(at_even(machine.gas, nodes)),
      area_(0.25 * std::numbers::pi * machine.bore * machine.bore) {
  for (const TurnGrid::Node& node : grid_.nodes) {
    greatest_acceleration_ = std::max(greatest_acceleration_, std::abs(node.acceleration));
    big_turns_.push_back(node.big_end_turn);
    small_turns_.push_back(node.small_end_turn);
    main_turns_.push_back(1.0);
  }
  if (machine.wall_pressed.empty() || machine.wall_other.empty()) return;
  wall_pressed_ = at_even(machine.wall_pressed, nodes);
  wall_other_ = at_even(machine.wall_other, nodes);
}

const std::vector<double>& Bench::turns(Place place) const {
  return place == Place::big_end ? big_turns_ : place == Place::small_end ? small_turns_ : main_turns_;
}

std::vector<NodeForces> Bench::cut(const Drawn& drawn, double speed) const {
  return turn_forces(grid_, drawn.masses, area_, gas_, speed, drawn.gas);
}

std::vector<NodeForces> Bench::free(const Drawn& drawn, double speed) const {
  return turn_forces(grid_, drawn.masses, area_, {}, speed);
}

std::optional<double> Bench::wall_at(std::size_t node, double thrust) const {
  if (wall_pressed_.empty()) return std::nullopt;
  return thrust >= 0.0 ? wall_pressed_[node] : wall_other_[node];
}

double Bench::wall_pressure_at(std::size_t node, double thrust) const {
  const std::optional<double> share = wall_at(node, thrust);
  return share ? wall_pressure(thrust, std::max(least_wall, *share), machine_.skirt, machine_.bore) : 0.0;
}

double Bench::ring_height(std::size_t ring, const Drawn& drawn) const {
  return machine_.rings[ring].at(drawn.ring_error);
}

std::vector<double> Bench::loads(Place place, const std::vector<NodeForces>& forces) const {
  std::vector<double> out;
  out.reserve(forces.size());
  for (const NodeForces& at : forces) out.push_back(force_on(place, at).size());
  return out;
}

Way Bench::way(const std::vector<NodeForces>& forces, double speed, const Drawn& drawn) const {
  Way out;
  out.peaks = peaks_of(forces);
  out.acceleration = greatest_acceleration_ * std::pow(turn * speed, 2);
  for (std::size_t i = 0; i < machine_.rings.size(); ++i)
    out.flutter = std::max(out.flutter, out.acceleration / geometry::flutter_acceleration(ring_height(i, drawn)));
  for (std::size_t i = 0; i < forces.size(); ++i)
    out.wall_pressure = std::max(out.wall_pressure, wall_pressure_at(i, forces[i].thrust));
  const double peaks[] = {out.peaks.big_end, out.peaks.small_end, 0.5 * out.peaks.main};
  for (const Place place : places) {
    const Bearing& bearing = machine_.parts.bearings[index(place)];
    if (!bearing.rating) continue;
    out.safety[index(place)] = drawn.static_rating(bearing) / std::max(peaks[index(place)], 1e-9);
    out.equivalent[index(place)] = equivalent_load(loads(place, forces), turns(place), bearing.kind);
  }
  return out;
}

double Bench::life(Place place, const Question& question, const std::vector<NodeForces>& cut,
                   const std::vector<NodeForces>& free, const std::vector<NodeForces>& idle) const {
  const Bearing& bearing = machine_.parts.bearings[index(place)];
  if (!bearing.rating) return 0.0;
  const std::vector<double> at_work = loads(place, cut), at_free = loads(place, free), at_idle = loads(place, idle);
  const DutyPart duty[] = {{at_work, turns(place), question.cut_speed, question.duty.work},
                           {at_free, turns(place), question.free_speed, question.duty.free},
                           {at_idle, turns(place), question.duty.idle_speed, question.duty.idle()}};
  return life_hours(*bearing.rating, bearing.kind, duty);
}

Numbers Bench::numbers(const Question& question, const Drawn& drawn) const {
  Numbers out;
  const std::vector<NodeForces> unloaded = free(drawn, question.free_speed);
  out.free = way(unloaded, question.free_speed, drawn);
  out.balance = drawn.masses.balance();
  if (!has_gas()) return out;
  const std::vector<NodeForces> loaded = cut(drawn, question.cut_speed);
  out.cut = way(loaded, question.cut_speed, drawn);
  Drawn idling = drawn;
  idling.gas *= question.duty.idle_gas;
  const std::vector<NodeForces> idle = cut(idling, question.duty.idle_speed);
  for (const Place place : places) out.life[index(place)] = life(place, question, loaded, unloaded, idle);
  return out;
}

double Bench::speed_at_load(Place place, double load, const Drawn& drawn, bool with_gas) const {
  constexpr double unit_speed = 1.0 / turn;  // one radian a second
  double least = 1e300;
  for (std::size_t i = 0; i < grid_.nodes.size(); ++i) {
    const Force moving = force_on(place, forces_at(grid_, i, drawn.masses, area_, {}, 1.0, unit_speed));
    const Force gas =
        with_gas ? force_on(place, forces_at(grid_, i, drawn.masses, area_, gas_, drawn.gas, 0.0)) : Force{};
    least = std::min(least, square_at_load(gas, moving, load));
  }
  return std::sqrt(least) / turn;
}

double Bench::speed_at_life(Place place, double hours, const Drawn& drawn, bool with_gas, double near) const {
  const Bearing& bearing = machine_.parts.bearings[index(place)];
  if (!bearing.rating) return 0.0;
  const auto excess = [&](double log_speed) {  // of the logarithm of its hours
    const double speed = std::exp(log_speed);
    const std::vector<double> load = loads(place, with_gas ? cut(drawn, speed) : free(drawn, speed));
    const DutyPart all[] = {{load, turns(place), speed, 1.0}};
    return std::log(life_hours(*bearing.rating, bearing.kind, all) / hours);
  };
  // Life falls with speed nearly as a power of it, 2 p + 1 free: a secant of the logarithms is soon there, and a
  // bracket holds it where gas makes it bend.
  double low = std::log(slowest), high = std::log(fastest);
  double x = std::log(near), y = excess(x), slope = -(2.0 * life_exponent(bearing.kind) + 1.0);
  for (int step = 0; step < 60 && std::abs(y) > life_tolerance && high - low > 1e-12; ++step) {
    (y > 0.0 ? low : high) = x;
    double next = x - y / slope;
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    const double there = excess(next);
    if (there != y) slope = std::min(-0.1, (there - y) / (next - x));
    x = next;
    y = there;
  }
  return std::exp(x);
}

double Bench::speed_at_flutter(double height) const {
  return std::sqrt(geometry::flutter_acceleration(height) / greatest_acceleration_) / turn;
}

}  // namespace portwright::bottom_end
