#include "cycle/lanes/march_lanes.hpp"

#include <algorithm>
#include <numbers>

#include "cycle/openings.hpp"
#include "flow/lanes/ends_lanes.hpp"

namespace portwright::cycle {

template <class T>
MarchLanes<T>::Side::Side(const flow::Duct& pattern)
    : duct(pattern),
      contents(duct.cells),
      scratch(duct.cells),
      account(static_cast<int>(pattern.losses.size())),
      doors(2, flow::door_columns, flow::lanes_of_machine<T>()),
      passed(2, flow::passed_columns, flow::lanes_of_machine<T>()) {}

template <class T>
MarchLanes<T>::MarchLanes(const Network& pattern)
    : dt_(1, 1, flow::lanes_of_machine<T>()),
      rate_(1, 1, flow::lanes_of_machine<T>()),
      added_(static_cast<int>(pattern.ducts.size()), 2, flow::lanes_of_machine<T>()),
      plain_gaps_(pattern.gaps.size()),
      side_gaps_(pattern.side_gaps.size()),
      gaps_(static_cast<int>(plain_gaps_ + side_gaps_), gap_columns, flow::lanes_of_machine<T>()),
      gap_flows_(gaps_.rows(), gap_flow_columns, flow::lanes_of_machine<T>()),
      lanes_(static_cast<std::size_t>(flow::lanes_of_machine<T>())) {
  sides_.reserve(pattern.ducts.size());
  for (const flow::Duct& duct : pattern.ducts) sides_.emplace_back(duct);
}

template <class T>
bool MarchLanes<T>::takes(const Network& network) const {
  return network.ducts.size() == sides_.size() && network.gaps.size() == plain_gaps_ &&
         network.side_gaps.size() == side_gaps_ &&
         std::equal(sides_.begin(), sides_.end(), network.ducts.begin(),
                    [](const Side& side, const flow::Duct& duct) { return side.duct.takes(duct); });
}

namespace {

/// Turns as they stand in a row.
class InOrder final : public TurnSupply {
 public:
  explicit InOrder(std::span<const LaneTurn> turns) : turns_(turns) {}
  const LaneTurn* next(const LaneTurn*) override { return next_ < turns_.size() ? &turns_[next_++] : nullptr; }

 private:
  std::span<const LaneTurn> turns_;
  std::size_t next_ = 0;
};

}  // namespace

template <class T>
void MarchLanes<T>::turn(std::span<const LaneTurn> turns) {
  InOrder in_order(turns);
  turn(in_order);
}

template <class T>
void MarchLanes<T>::turn(TurnSupply& supply) {
  const int lanes = static_cast<int>(lanes_.size());
  const LaneTurn* first = supply.next(nullptr);
  if (first == nullptr) return;
  int busy = 0;
  for (int lane = 0; lane < lanes; ++lane) {
    const LaneTurn* next = lane == 0 ? first : supply.next(nullptr);
    // Where turns are fewer than lanes the first one's gas stands in the others, so that they hold numbers.
    if (next != nullptr) {
      load(lane, *next);
      ++busy;
    } else {
      load_gas(lane, *first);
      stand_still(lane);
    }
  }
  decode();
  while (busy > 0) {
    step();
    bool loaded = false;
    for (int lane = 0; lane < lanes; ++lane) {
      const LaneTurn* now = lanes_[static_cast<std::size_t>(lane)].turn;
      if (now == nullptr || move_on(lane)) continue;
      unload(lane);
      --busy;
      const LaneTurn* next = supply.next(now);
      if (next == nullptr) continue;
      load(lane, *next);
      ++busy;
      loaded = true;
    }
    if (loaded) decode();
  }
}

/// The gas of a turn's ducts, and what they are.
template <class T>
void MarchLanes<T>::load_gas(int lane, const LaneTurn& turn) {
  const Network& net = turn.march->network();
  gas_.set(lane, net.gas);
  for (std::size_t d = 0; d < sides_.size(); ++d) {
    Side& side = sides_[d];
    side.duct.set(lane, net.ducts[d]);
    side.contents.set(lane, turn.state->ducts[d]);
    for (int i = 0; i <= flow::account_floors; ++i) side.account.sum.at(0, i, lane) = T(0);
    for (int i = 0; i < side.account.lost.columns(); ++i) side.account.lost.at(0, i, lane) = T(0);
    for (const int end : {flow::near_end, flow::far_end}) {
      const double p = turn.state->end_pressure[d][static_cast<std::size_t>(end)];
      side.doors.at(end, flow::door_p, lane) = static_cast<T>(p);
      side.doors.at(end, flow::door_T, lane) = static_cast<T>(net.day.T);
      side.doors.at(end, flow::door_guess, lane) = static_cast<T>(p);
    }
  }
}

template <class T>
void MarchLanes<T>::load(int lane, const LaneTurn& turn) {
  Lane& now = lanes_[static_cast<std::size_t>(lane)];
  now = {};
  now.turn = &turn;
  now.began = turn.march->begin_turn(*turn.state, *turn.sums, turn.draw);
  load_gas(lane, turn);
}

template <class T>
void MarchLanes<T>::unload(int lane) {
  Lane& now = lanes_[static_cast<std::size_t>(lane)];
  const LaneTurn& turn = *now.turn;
  for (std::size_t d = 0; d < sides_.size(); ++d) {
    const Side& side = sides_[d];
    side.contents.get(lane, turn.state->ducts[d]);
    flow::DuctAccount& account = turn.sums->ducts[d].account;
    account.wall_heat += double{side.account.sum.at(0, flow::account_wall_heat, lane)};
    account.wall_friction += double{side.account.sum.at(0, flow::account_wall_friction, lane)};
    account.floors += static_cast<int>(side.account.sum.at(0, flow::account_floors, lane));
    for (std::size_t i = 0; i < account.lost.size(); ++i)
      account.lost[i] += double{side.account.lost.at(0, static_cast<int>(i), lane)};
  }
  turn.march->end_turn(now.began, *turn.state, *turn.sums);
  stand_still(lane);
}

/// No step, every end shut: nothing is searched there.
template <class T>
void MarchLanes<T>::stand_still(int lane) {
  lanes_[static_cast<std::size_t>(lane)].turn = nullptr;
  dt_.at(0, 0, lane) = T(0);
  for (Side& side : sides_)
    for (const int end : {flow::near_end, flow::far_end}) side.doors.at(end, flow::door_opening, lane) = T(0);
  for (int row = 0; row < gaps_.rows(); ++row) gaps_.at(row, gap_area, lane) = T(0);
}

template <class T>
void MarchLanes<T>::decode() {
  for (int lane = 0; lane < rate_.lanes(); ++lane) rate_.at(0, 0, lane) = T(0);
  for (Side& side : sides_) flow::decode(gas_, side.duct, side.contents, side.scratch, rate_);
}

/// Adds the time since the last lap to a part, where somebody watches. A lap of a few microseconds that took a tenth of
/// a millisecond was the machine's doing something else.
template <class T>
void MarchLanes<T>::lap(double LaneTimes::*part) {
  if (times_ == nullptr) return;
  const auto now = std::chrono::steady_clock::now();
  const double spent = std::chrono::duration<double>(now - last_).count();
  if (part != nullptr && spent < 1e-4) times_->*part += spent;
  last_ = now;
}

template <class T>
void MarchLanes<T>::step() {
  const int lanes = static_cast<int>(lanes_.size());
  const auto each = [&](auto&& work) {
    for (int lane = 0; lane < lanes; ++lane)
      if (lanes_[static_cast<std::size_t>(lane)].turn != nullptr) work(lane);
  };
  lap(nullptr);
  each([&](int lane) { before_ends(lane); });
  lap(&LaneTimes::rest);
  for (Side& side : sides_) flow::predict(gas_, side.duct, side.contents, dt_, side.scratch, side.account);
  lap(&LaneTimes::ducts);
  for (Side& side : sides_) flow::pass_ends(gas_, side.duct, side.doors, side.scratch, side.contents, side.passed);
  lap(&LaneTimes::ends);
  through_gaps(gas_, gaps_, dt_, gap_flows_);
  lap(&LaneTimes::gaps);
  each([&](int lane) { after_ends(lane); });
  lap(&LaneTimes::rest);
  for (Side& side : sides_) flow::advance(side.duct, dt_, side.scratch, side.contents, side.account);
  decode();
  lap(&LaneTimes::ducts);
  each([&](int lane) { after_ducts(lane); });
  lap(&LaneTimes::rest);
}

template <class T>
void MarchLanes<T>::before_ends(int lane) {
  Lane& now = lanes_[static_cast<std::size_t>(lane)];
  March& march = *now.turn->march;
  State& state = *now.turn->state;
  if (now.part == 0) {
    now.parts = march.parts_of(now.began.dt);
    now.dt = now.began.dt / now.parts;
    now.from = state.angle;
  }
  march.fastest_ = std::max(march.fastest_, march.rate_);
  dt_.at(0, 0, lane) = static_cast<T>(now.dt);
  march.before_ends(state, now.dt, *now.turn->sums);
  for (std::size_t d = 0; d < sides_.size(); ++d)
    for (const int end : {flow::near_end, flow::far_end}) set_door(lane, d, end);
  set_gaps(lane);
}

template <class T>
void MarchLanes<T>::set_door(int lane, std::size_t d, int end) {
  const March& march = *lanes_[static_cast<std::size_t>(lane)].turn->march;
  const DuctEnd& door = march.net_.ends[d][static_cast<std::size_t>(end)];
  const March::Mixed mixed = march.at_door(d, end);
  const flow::Reservoir& gas = mixed.gas;
  added_.at(static_cast<int>(d), end, lane) = mixed.fuel;
  const auto put = [&](int column, double number) { sides_[d].doors.at(end, column, lane) = static_cast<T>(number); };
  put(flow::door_p, gas.p);
  put(flow::door_T, gas.T);
  put(flow::door_fresh, gas.fresh);
  put(flow::door_fuel, gas.fuel);
  put(flow::door_opening, march.area_[static_cast<std::size_t>(door.opening)]);
}

template <class T>
void MarchLanes<T>::take_end(int lane, std::size_t d, int end) {
  const Lane& now = lanes_[static_cast<std::size_t>(lane)];
  Side& side = sides_[d];
  const auto passed = [&](int column) { return double{side.passed.at(end, column, lane)}; };
  const auto there = [&](int column) { return passed(flow::passed_gas + column); };
  const flow::EndFlow out{
      {passed(flow::passed_mass), passed(flow::passed_momentum), passed(flow::passed_energy),
       passed(flow::passed_fresh), passed(flow::passed_fuel)},
      {there(flow::at_rho), there(flow::at_u), there(flow::at_p), there(flow::at_fresh), there(flow::at_fuel)},
      static_cast<int>(passed(flow::passed_floors))};
  // The next search starts where the pressures of two steps point.
  double& before = now.turn->state->end_pressure[d][static_cast<std::size_t>(end)];
  const double ahead = 2.0 * out.gas.p - before;
  before = out.gas.p;
  side.doors.at(end, flow::door_guess, lane) = static_cast<T>(ahead > 0.5 * before ? ahead : before);
  March& march = *now.turn->march;
  march.take_end(d, end, out, added_.at(static_cast<int>(d), end, lane), now.dt, *now.turn->sums);
}

template <class T>
void MarchLanes<T>::after_ends(int lane) {
  const Lane& now = lanes_[static_cast<std::size_t>(lane)];
  March& march = *now.turn->march;
  march.begin_ends();
  for (std::size_t d = 0; d < sides_.size(); ++d)
    for (const int end : {flow::near_end, flow::far_end}) take_end(lane, d, end);
  march.end_ends();
  take_gaps(lane);
  march.after_ends(*now.turn->state, now.dt, *now.turn->sums, now.turn->draw);
}

/// What through_gaps asks of a lane: the gaps' rows, then the side gaps'.
template <class T>
void MarchLanes<T>::set_gaps(int lane) {
  const Lane& now = lanes_[static_cast<std::size_t>(lane)];
  const March& march = *now.turn->march;
  const Network& net = march.net_;
  int row = 0;
  const auto put = [&](int column, double number) { gaps_.at(row, column, lane) = static_cast<T>(number); };
  const auto put_side = [&](int first, const flow::Reservoir& gas, double size) {
    put(first + gap_p, gas.p);
    put(first + gap_T, gas.T);
    put(first + gap_fresh, gas.fresh);
    put(first + gap_fuel, gas.fuel);
    put(first + gap_size, size);
  };
  for (std::size_t n = 0; n < net.gaps.size(); ++n, ++row) {
    const Gap& gap = net.gaps[n];
    const March::Sides sides = march.on_both_sides(gap);
    put_side(gap_p, sides.a.gas, sides.a.size);
    put_side(gap_other_p, sides.b.gas, sides.b.size);
    put(gap_area, March::held_shut(gap, sides) ? 0.0 : march.area_[static_cast<std::size_t>(gap.opening)]);
    put(gap_before, now.turn->state->gap_flow[n]);
  }
  for (const SideGap& gap : net.side_gaps) {
    const auto& state = sides_[static_cast<std::size_t>(gap.duct)].scratch.state;
    const auto gas = [&](int column) { return double{state.at(gap.cell, column, lane)}; };
    const Beside room = march.beside(gap);
    put_side(gap_p, {gas(flow::state_p), gas(flow::state_T), gas(flow::state_fresh), gas(flow::state_fuel)},
             net.ducts[static_cast<std::size_t>(gap.duct)].grid.volume[static_cast<std::size_t>(gap.cell)]);
    put_side(gap_other_p, room.gas, room.size);
    put(gap_area, march.area_[static_cast<std::size_t>(gap.opening)]);
    put(gap_before, 0.0);
    ++row;
  }
}

template <class T>
void MarchLanes<T>::take_gaps(int lane) {
  const Lane& now = lanes_[static_cast<std::size_t>(lane)];
  March& march = *now.turn->march;
  int row = 0;
  const auto through = [&] {
    const auto of = [&](int column) { return double{gap_flows_.at(row, column, lane)}; };
    return flow::Inflow{of(gap_flow_mass), of(gap_flow_energy), of(gap_flow_fresh), of(gap_flow_fuel)};
  };
  for (std::size_t n = 0; n < march.net_.gaps.size(); ++n, ++row) {
    const flow::Inflow in = through();
    now.turn->state->gap_flow[n] = in.mass;
    march.take_gap(march.net_.gaps[n], in, now.dt, *now.turn->sums);
  }
  for (const SideGap& gap : march.net_.side_gaps) {
    const flow::Inflow in = through();
    ++row;
    march.in_[static_cast<std::size_t>(gap.room)] += in;
    flow::Table<T>& cell = sides_[static_cast<std::size_t>(gap.duct)].contents.cell;
    const auto kept = [&](int column) -> T& { return cell.at(gap.cell, column, lane); };
    lose_sideways(in, now.dt, kept(flow::content_mass), kept(flow::content_momentum), kept(flow::content_energy),
                  kept(flow::content_fresh), kept(flow::content_fuel));
  }
}

template <class T>
void MarchLanes<T>::after_ducts(int lane) {
  const Lane& now = lanes_[static_cast<std::size_t>(lane)];
  March& march = *now.turn->march;
  march.rate_ = double{rate_.at(0, 0, lane)};
  march.advance_rooms(*now.turn->state, now.dt, *now.turn->sums);
  ++now.turn->sums->steps;
}

/// To the next part or step. @return whether the turn goes on
template <class T>
bool MarchLanes<T>::move_on(int lane) {
  Lane& now = lanes_[static_cast<std::size_t>(lane)];
  const March& march = *now.turn->march;
  State& state = *now.turn->state;
  if (++now.part < now.parts) {
    state.angle = now.from + 2.0 * std::numbers::pi * march.speed_ * now.dt * now.part;
    return true;
  }
  now.part = 0;
  state.angle = march.angle_after(++now.step);
  if (now.step == march.steps_) return false;
  return !march.asks_to_stop(now.step + 1);
}

template class MarchLanes<double>;
template class MarchLanes<float>;

}  // namespace portwright::cycle
