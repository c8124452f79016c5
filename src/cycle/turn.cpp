#include "cycle/turn.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "cycle/cylinder.hpp"
#include "cycle/openings.hpp"

namespace portwright::cycle {

namespace {

constexpr double turn_angle = 2.0 * std::numbers::pi;
constexpr int steps_between_asking = 128;
/// A wave that outruns its steps so many times is no wave: the turn goes on without more of them, and ends.
constexpr double most_parts = 32.0, most_steps = 8.0;

/// How fast a wave may be expected to run through a cell of any duct, as cells per second: by the duct's place alone,
/// so that a turn's steps hang on engine and speed and not on the turns before. 1.4 times the sound of the gas there.
double expected_rate(const Network& net) {
  double rate = 0.0;
  for (std::size_t d = 0; d < net.ducts.size(); ++d) {
    constexpr double warm = 400.0, hot = 900.0;
    const Role role = net.names[d].role;
    const double T = role == Role::tract ? net.day.T : role == Role::transfer ? warm : hot;
    const gas::Caloric k = gas::blend(net.gas, net.day.fresh, net.day.fuel);
    const double sound = std::sqrt(gas::gamma(k, net.gas.c, T) * k.R * T);
    for (const double length : net.ducts[d].grid.length) rate = std::max(rate, 1.4 * sound / length);
  }
  return rate;
}

}  // namespace

March::March(const Network& network, double speed, const Pace& pace) : net_(network), speed_(speed), pace_(pace) {
  scratch_.resize(net_.ducts.size());
  const std::size_t rooms = net_.rooms.size();
  for (auto* v : {&size_now_, &size_half_, &size_next_, &pressure_now_}) v->resize(rooms);
  half_.resize(rooms);
  in_.resize(rooms);
  area_.resize(net_.openings.size());
  flow::Contents shape;
  for (std::size_t d = 0; d < net_.ducts.size(); ++d)
    flow::fill(net_.gas, net_.ducts[d], flow::Primitive{}, shape, scratch_[d]);
  expected_ = expected_rate(net_);
  fastest_ = expected_;
}

Turn March::empty_turn() const {
  Turn turn;
  turn.ducts.resize(net_.ducts.size());
  for (std::size_t d = 0; d < net_.ducts.size(); ++d) turn.ducts[d].account.lost.resize(net_.ducts[d].losses.size());
  return turn;
}

State March::cold() const {
  State state;
  state.angle = net_.start;
  const double p = net_.day.p;
  std::vector<double> sizes(net_.rooms.size());
  sizes_at(net_.slider.drop(state.angle), 0.0, sizes);
  flow::Reservoir spent{p, 700.0, 0.0, 0.0}, fresh = net_.day;
  fresh.fuel = 1.0 / (1.0 + net_.burning.air_fuel);
  fresh.T = net_.day.T + 20.0;
  if (!net_.fires) spent = fresh;
  const auto gas_at = [&](const flow::Reservoir& r) {
    const gas::Caloric k = gas::blend(net_.gas, r.fresh, r.fuel);
    return flow::Primitive{r.p / (k.R * r.T), 0.0, r.p, r.fresh, r.fuel};
  };
  for (std::size_t i = 0; i < net_.rooms.size(); ++i) {
    const Room& room = net_.rooms[i];
    flow::Reservoir r = room.behind_exhaust ? spent : room.before_fuel ? net_.day : fresh;
    if (room.by == SizedBy::cylinder && net_.fires) {
      r.T = 450.0;
      r.fresh *= 0.7;
      r.fuel *= 0.7;
    }
    state.rooms.push_back(flow::filled(net_.gas, r, sizes[i]));
    state.rates.emplace_back();
  }
  flow::Scratch unused;
  for (std::size_t d = 0; d < net_.ducts.size(); ++d) {
    const Role role = net_.names[d].role;
    const bool behind = role == Role::exhaust || role == Role::pipe;
    flow::Contents contents;
    flow::fill(net_.gas, net_.ducts[d], gas_at(behind ? spent : fresh), contents, unused);
    state.ducts.push_back(std::move(contents));
    state.end_pressure.push_back({p, p});
  }
  state.gap_flow.assign(net_.gaps.size(), 0.0);
  return state;
}

/// Sizes of the rooms with the crown edge `drop` [m] below its TDC place and the petals having swept `swept` [m³].
void March::sizes_at(double drop, double swept, std::vector<double>& sizes) const {
  const double moved = net_.piston_area * drop;
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    sizes[i] = net_.rooms[i].size;
    switch (net_.rooms[i].by) {
      case SizedBy::nothing:
        break;
      case SizedBy::cylinder:
        sizes[i] += moved;
        break;
      case SizedBy::crankcase:
        sizes[i] -= moved;
        break;
      case SizedBy::reed_cage:
        break;
    }
  }
  if (net_.has_reed) {
    sizes[static_cast<std::size_t>(net_.reed_from)] += swept;
    sizes[static_cast<std::size_t>(net_.reed_to)] -= swept;
  }
}

/// Steps of a turn: as many as the expected wave asks for, with a margin, and then no longer changed unless a wave
/// outruns them, so that neither a small change of an engine nor where its turns came from changes its steps.
void March::plan_steps() {
  const double period = 1.0 / speed_;
  const double asked = period * std::min(fastest_, most_steps * expected_) / pace_.courant;
  if (steps_ == 0 || asked > steps_ || (!pace_.keeps_steps && 1.1 * asked < 0.9 * steps_))
    steps_ = static_cast<int>(std::ceil(std::max(1.1 * asked, turn_angle / pace_.greatest_angle)));
  fastest_ = 0.0;
}

/// In how many parts one of the turn's equal steps is taken: more than one where a wave would outrun it.
int March::parts_of(double dt) const {
  const double asked = rate_ * dt;
  return static_cast<int>(std::ceil(asked < most_parts ? std::max(asked, 1.0) : most_parts));
}

void March::stride(State& state, double dt, Turn& sums, const Draw& draw) {
  const int parts = parts_of(dt);
  const double part = dt / parts, from = state.angle;
  for (int i = 0; i < parts; ++i) {
    fastest_ = std::max(fastest_, rate_);
    step(state, part, sums, draw);
    state.angle = from + turn_angle * speed_ * part * (i + 1);
  }
}

bool March::asks_to_stop(int step) const { return step % steps_between_asking == 0 && stop_.now(); }

double March::angle_after(int steps) const {
  return steps < steps_ ? net_.start + turn_angle * steps / steps_ : net_.start;
}

March::Began March::begin_turn(State& state, Turn& sums, const Draw& draw) {
  const double mean_speed = speed_;
  speed_ *= draw.speed;
  begin(state, sums);
  plan_steps();
  return {mean_speed, 1.0 / (speed_ * steps_), contents_of(state)};
}

void March::end_turn(const Began& began, const State& state, Turn& sums) {
  close_accounts(began.contents, contents_of(state), sums);
  speed_ = began.mean_speed;
}

void March::turn(State& state, Turn& sums, const Draw& draw, std::vector<Instant>* trace) {
  const Began began = begin_turn(state, sums, draw);
  const double bdc = net_.slider.bdc();
  for (int i = 1; i <= steps_; ++i) {
    if (asks_to_stop(i)) break;
    const double was = state.angle;
    stride(state, began.dt, sums, draw);
    state.angle = angle_after(i);
    if (trace != nullptr) look(state, *trace);
    if (pace_.rests_at_bdc && was < bdc && (state.angle >= bdc || i == steps_)) put_to_rest(state);
  }
  end_turn(began, state, sums);
}

void March::close_accounts(const flow::Totals& before, const flow::Totals& after, Turn& sums) const {
  sums.mass_residual = (after.mass - before.mass + sums.out_mass) / before.mass;
  sums.fresh_residual = (after.fresh - before.fresh + sums.out_fresh + sums.fresh_burnt) / before.fresh;
  sums.fuel_residual = (after.fuel - before.fuel + sums.out_fuel + sums.fuel_burnt) / before.fuel;
  const double done = sums.work + sums.case_work + sums.reed_work;
  const double given = sums.heat_cylinder + sums.heat_rooms + sums.latent_heat - sums.burn_heat - sums.heat_ducts();
  sums.energy_residual = (after.energy - before.energy + sums.out_energy + done + given) / before.energy;
  sums.knock = charge_.end_gas.integral;
  sums.purity = charge_.purity;
}

void March::begin(State& state, Turn& sums) {
  state.angle = net_.start;
  const double swept = net_.has_reed ? flow::swept_volume(net_.reed, state.reed) : 0.0;
  sizes_at(net_.slider.drop(state.angle), swept, size_now_);
  const auto c = static_cast<std::size_t>(net_.cylinder);
  const flow::Volume& v = state.rooms[c];
  charge_ = trapped(net_, v, flow::reservoir(net_.gas, v, size_now_[c]), size_now_[c]);
  sums.trapped_fresh = v.fresh;
  sums.trapped_mass = v.mass;
  if (net_.has_reed) reed_area_ = flow::area(net_.reed, state.reed);
  rate_ = 0.0;
  for (std::size_t d = 0; d < net_.ducts.size(); ++d)
    rate_ = std::max(rate_, flow::decode(net_.gas, net_.ducts[d], state.ducts[d], scratch_[d]));
}

/// The rooms' gas half a step ahead: what flowed in at the last step goes on, the walls move as they will.
void March::predict_rooms(const State& state, double dt) {
  for (std::size_t i = 0; i < net_.rooms.size(); ++i) {
    const flow::Inflow& rate = state.rates[i];
    flow::Volume v = state.rooms[i];
    pressure_now_[i] = flow::reservoir(net_.gas, v, size_now_[i]).p;
    const double h = 0.5 * dt;
    v.energy += h * rate.energy - pressure_now_[i] * (size_half_[i] - size_now_[i]);
    v.mass += h * rate.mass;
    v.fresh += h * rate.fresh;
    v.fuel += h * rate.fuel;
    if (!(v.mass > 0.2 * state.rooms[i].mass) || !(v.energy > 0.2 * state.rooms[i].energy)) v = state.rooms[i];
    v.fresh = std::clamp(v.fresh, 0.0, v.mass);
    v.fuel = std::clamp(v.fuel, 0.0, v.mass);
    half_[i] = flow::reservoir(net_.gas, v, size_half_[i]);
  }
}

/// Of a step what comes before the ducts: walls, rooms, petals, openings.
void March::before_ends(State& state, double dt, Turn& sums) {
  // 1. Where the walls are half a step and a step ahead, petals as they move now; the rooms' gas there.
  const double turned = turn_angle * speed_ * dt;
  double swept = 0.0, swept_half = 0.0;
  if (net_.has_reed) {
    swept = flow::swept_volume(net_.reed, state.reed);
    swept_half = swept + 0.5 * dt * flow::swept_rate(net_.reed, state.reed);
  }
  const double drop = net_.slider.drop(state.angle + 0.5 * turned);
  sizes_at(drop, swept_half, size_half_);
  predict_rooms(state, dt);

  // 2. The petals, under the half step's pressures.
  double reed_area = 0.0;
  if (net_.has_reed) {
    const double push =
        half_[static_cast<std::size_t>(net_.reed_from)].p - half_[static_cast<std::size_t>(net_.reed_to)].p;
    flow::step(net_.reed, state.reed, push, dt);
    const double next = flow::area(net_.reed, state.reed);
    reed_area = 0.5 * (reed_area_ + next);
    reed_area_ = next;
    swept = flow::swept_volume(net_.reed, state.reed);
    sums.reed_lift = std::max(sums.reed_lift, flow::tip_lift(net_.reed, state.reed));
    sums.reed_impact = std::max(sums.reed_impact, flow::impact_speed(net_.reed, state.reed));
  }
  sizes_at(net_.slider.drop(state.angle + turned), swept, size_next_);

  // 3. Openings, and what the exhaust gets.
  open_areas(net_, drop, reed_area, area_);
  std::fill(in_.begin(), in_.end(), flow::Inflow{});
  exit_ = exhaust_exit(net_, charge_, half_[static_cast<std::size_t>(net_.cylinder)]);
}

/// And what comes after their ends: walls and fire.
void March::after_ends(State& state, double dt, Turn& sums, const Draw& draw) {
  room_sources(dt, sums);
  cylinder_sources(state, dt, sums, draw);
}

void March::step(State& state, double dt, Turn& sums, const Draw& draw) {
  before_ends(state, dt, sums);
  for (std::size_t d = 0; d < net_.ducts.size(); ++d)
    flow::predict(net_.gas, net_.ducts[d], state.ducts[d], dt, scratch_[d], sums.ducts[d].account);
  pass_ends(state, dt, sums);
  pass_gaps(state, dt, sums);
  pass_side_gaps(state, dt);
  after_ends(state, dt, sums, draw);
  rate_ = 0.0;
  for (std::size_t d = 0; d < net_.ducts.size(); ++d) {
    flow::advance(net_.gas, net_.ducts[d], dt, scratch_[d], state.ducts[d], sums.ducts[d].account);
    rate_ = std::max(rate_, flow::decode(net_.gas, net_.ducts[d], state.ducts[d], scratch_[d]));
  }
  advance_rooms(state, dt, sums);
  ++sums.steps;
}

void March::room_sources(double dt, Turn& sums) {
  for (std::size_t i = 0; i < net_.rooms.size(); ++i) {
    const Room& room = net_.rooms[i];
    const double heat = room.film * (half_[i].T - room.wall_temperature);
    in_[i].energy -= heat;
    sums.heat_rooms += heat * dt;
  }
}

void March::cylinder_sources(State& state, double dt, Turn& sums, const Draw& draw) {
  const auto c = static_cast<std::size_t>(net_.cylinder);
  const double turned = turn_angle * speed_ * dt;
  const flow::Reservoir& gas = half_[c];
  const double heat = wall_heat(net_, charge_, gas, size_half_[c], speed_, state.angle + 0.5 * turned);
  in_[c].energy -= heat;
  sums.heat_cylinder += heat * dt;
  // What came in through the transfers still wet evaporates here.
  const double latent = wet_share() * net_.gas.latent * charge_.in_rate * charge_.in_fuel;
  in_[c].energy -= latent;
  sums.latent_heat += latent * dt;
  charge_.delivered += charge_.in_rate * dt * specific_volume(net_.gas, gas) / size_half_[c];
  if (net_.fires) {
    const Burnt burnt = burn(net_, charge_, state.rooms[c], gas, speed_, state.angle + turned, dt, draw);
    in_[c].energy += burnt.heat / dt;
    in_[c].fresh -= burnt.fresh / dt;
    in_[c].fuel -= burnt.fuel / dt;
    sums.burn_heat += burnt.heat;
    sums.fuel_burnt += burnt.fuel;
    sums.fresh_burnt += burnt.fresh;
  }
  if (gas.p > sums.peak_pressure) {
    sums.peak_pressure = gas.p;
    sums.peak_angle = state.angle + 0.5 * turned;
  }
  const flow::Reservoir& below = half_[static_cast<std::size_t>(net_.crankcase)];
  sums.case_low = std::min(sums.case_low, below.p);
  sums.case_high = std::max(sums.case_high, below.p);
}

void March::advance_rooms(State& state, double dt, Turn& sums) {
  for (std::size_t i = 0; i < net_.rooms.size(); ++i) {
    flow::Volume& v = state.rooms[i];
    const flow::Inflow& in = in_[i];
    const double work = half_[i].p * (size_next_[i] - size_now_[i]);
    v.mass += dt * in.mass;
    v.energy += dt * in.energy - work;
    v.fresh += dt * in.fresh;
    v.fuel += dt * in.fuel;
    (static_cast<int>(i) == net_.cylinder    ? sums.work
     : static_cast<int>(i) == net_.crankcase ? sums.case_work
                                             : sums.reed_work) += work;
    state.rates[i] = in;
    size_now_[i] = size_next_[i];
  }
}

/// Tract, reed block and petals, and all that a step remembers of them.
void March::put_to_rest(State& state) {
  for (std::size_t d = 0; d < net_.ducts.size(); ++d) {
    if (net_.names[d].role != Role::tract) continue;
    flow::Contents& c = state.ducts[d];
    flow::fill(net_.gas, net_.ducts[d], at_rest(net_.gas, net_.day, c), c, scratch_[d]);
    flow::decode(net_.gas, net_.ducts[d], c, scratch_[d]);
    state.end_pressure[d] = {net_.day.p, net_.day.p};
  }
  if (!net_.has_reed) return;
  state.reed = flow::ReedState{};
  reed_area_ = flow::area(net_.reed, state.reed);
  const auto cage = static_cast<std::size_t>(net_.reed_from);
  sizes_at(net_.slider.drop(state.angle), 0.0, size_now_);
  const flow::Reservoir was = flow::reservoir(net_.gas, state.rooms[cage], size_now_[cage]);
  state.rooms[cage] = flow::filled(net_.gas, {net_.day.p, net_.day.T, was.fresh, was.fuel}, size_now_[cage]);
  state.rates[cage] = {};
  for (std::size_t n = 0; n < net_.gaps.size(); ++n)
    if (net_.gaps[n].from == net_.reed_from) state.gap_flow[n] = 0.0;
}

flow::Totals March::contents_of(const State& state) const {
  flow::Totals sum;
  for (const flow::Contents& c : state.ducts) {
    const flow::Totals t = flow::totals(c);
    sum.mass += t.mass;
    sum.energy += t.energy;
    sum.fresh += t.fresh;
    sum.fuel += t.fuel;
  }
  for (const flow::Volume& v : state.rooms) {
    sum.mass += v.mass;
    sum.energy += v.energy;
    sum.fresh += v.fresh;
    sum.fuel += v.fuel;
  }
  return sum;
}

void March::look(const State& state, std::vector<Instant>& trace) const {
  const auto c = static_cast<std::size_t>(net_.cylinder), k = static_cast<std::size_t>(net_.crankcase);
  Instant now;
  now.angle = state.angle;
  const flow::Reservoir gas = flow::reservoir(net_.gas, state.rooms[c], size_now_[c]);
  now.cylinder = gas.p;
  now.temperature = gas.T;
  now.purity = gas.fresh;
  now.burnt = charge_.burnt;
  now.film = wall_film(net_, charge_, gas, size_now_[c], speed_, state.angle);
  const flow::Reservoir below = flow::reservoir(net_.gas, state.rooms[k], size_now_[k]);
  now.crankcase = below.p;
  now.case_temperature = below.T;
  for (std::size_t d = 0; d < net_.ducts.size(); ++d) {
    const auto& end = state.ducts[d].end;
    const flow::Grid& grid = net_.ducts[d].grid;
    const double near = end[flow::near_end].rho * end[flow::near_end].u * grid.area.front();
    const double far = end[flow::far_end].rho * end[flow::far_end].u * grid.area.back();
    switch (net_.names[d].role) {
      case Role::exhaust:
        now.exhaust = end[flow::near_end].p;
        now.exhaust_flow += near;
        break;
      case Role::transfer:
        now.transfer_flow += far;
        break;
      case Role::tract:
        now.tract = end[flow::far_end].p;
        now.intake_flow += far;
        break;
      case Role::pipe:
        break;
    }
  }
  sum_areas(net_, area_, now);
  if (net_.has_reed) now.reed_lift = flow::tip_lift(net_.reed, state.reed);
  trace.push_back(now);
}

}  // namespace portwright::cycle
