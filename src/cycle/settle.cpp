#include "cycle/settle.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <deque>

#include <Eigen/Dense>

namespace portwright::cycle {

double net_pressure(const Network& network, const Turn& turn) { return (turn.work + turn.case_work) / network.swept; }

namespace {

using Vector = Eigen::VectorXd;

/// Visits every number of the gas with a typical size of it. The petals' place and speed follow the gas within a turn;
/// they are carried along as they come and never mixed, which could put them through their seat.
template <class S, class Visit>
void visit(const Network& net, S& state, Visit&& see) {
  for (std::size_t d = 0; d < state.ducts.size(); ++d) {
    auto& c = state.ducts[d];
    for (std::size_t i = 0; i < c.mass.size(); ++i) {
      const double mass = 1.2 * net.ducts[d].grid.volume[i];
      see(c.mass[i], mass);
      see(c.momentum[i], mass * 100.0);
      see(c.energy[i], mass * 2e5);
      see(c.fresh[i], mass);
      see(c.fuel[i], mass / 14.0);
    }
  }
  for (std::size_t r = 0; r < state.rooms.size(); ++r) {
    auto& v = state.rooms[r];
    const bool is_cylinder = static_cast<int>(r) == net.cylinder;
    const double mass = 1.2 * (is_cylinder ? net.chamber + net.swept : std::max(net.rooms[r].size, net.chamber));
    see(v.mass, mass);
    see(v.energy, mass * 2e5);
    see(v.fresh, mass);
    see(v.fuel, mass / 14.0);
  }
}

Vector to_vector(const Network& net, const State& state) {
  std::vector<double> x;
  visit(net, state, [&](double value, double scale) { x.push_back(value / scale); });
  return Eigen::Map<Vector>(x.data(), static_cast<Eigen::Index>(x.size()));
}

void from_vector(const Network& net, const Vector& x, State& state) {
  Eigen::Index i = 0;
  visit(net, state, [&](double& value, double scale) { value = x[i++] * scale; });
}

/// Whether gas stands with mass and heat. Shares of fresh gas and fuel that a mixed guess put a little beyond nothing
/// or all are drawn in: near the mouth all is fresh, and there every second guess would be thrown away for it.
bool made_sound(double mass, double heat, double& fresh, double& fuel) {
  if (!(std::isfinite(mass + heat + fresh + fuel) && mass > 0.0 && heat > 5e4 * mass && heat < 4e6 * mass))
    return false;
  fresh = std::clamp(fresh, 0.0, mass);
  fuel = std::clamp(fuel, 0.0, std::min(0.2 * mass, fresh));
  return true;
}

/// The same for all of a state.
bool made_sound(const Network& net, State& state) {
  for (std::size_t d = 0; d < state.ducts.size(); ++d) {
    flow::Contents& c = state.ducts[d];
    for (std::size_t i = 0; i < c.mass.size(); ++i) {
      const double moving = 0.5 * net.ducts[d].grid.kinetic[i] * c.momentum[i] * c.momentum[i] / c.mass[i];
      if (!made_sound(c.mass[i], c.energy[i] - moving, c.fresh[i], c.fuel[i])) return false;
    }
  }
  for (flow::Volume& v : state.rooms)
    if (!made_sound(v.mass, v.energy, v.fresh, v.fuel)) return false;
  return true;
}

/// The last few points of the search: where each turn began, and where it led.
class Mixing {
 public:
  /// The next point to try.
  Vector next(const Vector& x, const Vector& g) {
    const Vector r = g - x;
    if (has_last_) {
      steps_.push_back(g - last_g_);
      turns_.push_back(r - last_r_);
      if (steps_.size() > memory) {
        steps_.pop_front();
        turns_.pop_front();
      }
    }
    last_g_ = g;
    last_r_ = r;
    has_last_ = true;
    if (steps_.empty()) return g;
    const auto n = static_cast<Eigen::Index>(steps_.size());
    Eigen::MatrixXd dr(r.size(), n);
    for (Eigen::Index k = 0; k < n; ++k) dr.col(k) = turns_[static_cast<std::size_t>(k)];
    const Vector weight = dr.colPivHouseholderQr().solve(r);
    if (!(weight.lpNorm<1>() < greatest_weight)) {  // the turns are all but alike: no direction to be had from them
      forget();
      return g;
    }
    Vector y = g;
    for (Eigen::Index k = 0; k < n; ++k) y -= weight[k] * steps_[static_cast<std::size_t>(k)];
    return y;
  }
  void forget() {
    steps_.clear();
    turns_.clear();
    has_last_ = false;
  }

 private:
  static constexpr std::size_t memory = 5;
  /// What dies out by m a turn asks for m / (1 - m): 50 is a mode that keeps 98 % of itself.
  static constexpr double greatest_weight = 50.0;
  std::deque<Vector> steps_, turns_;
  Vector last_g_, last_r_;
  bool has_last_ = false;
};

double distance(const Vector& a, const Vector& b) {
  return std::sqrt((a - b).squaredNorm() / static_cast<double>(a.size()));
}

/// How a small push dies out: the multiplier of a turn, whether it swings from side to side, and how much of a distance
/// of the state, as it dies out last, the work feels.
struct Response {
  double multiplier = 0.0;
  bool swings = false;
  double felt = 0.0;
};

/// Turns, each followed by a mixed guess of where the next should begin.
struct Approach {
  Turner& turner;
  March& march;
  Turn turn;
  int turns = 0;
  double pressure = 0.0;  ///< net, of the last turn [Pa]

  [[nodiscard]] Turner::Asked run(State& of) {
    turn = march.empty_turn();
    ++turns;
    return turner.turn(march, of, turn);
  }
  [[nodiscard]] double now() const { return net_pressure(march.network(), turn); }
  /// Raises a step by what the last turn moved the work; what older ones did counts half as much each time.
  void note(double& step) {
    step = std::max(0.5 * step, std::abs(now() - pressure) / std::max(std::abs(now()), 1e4));
    pressure = now();
  }

  /// The turns before the search.
  Course begin(State& state, int plain_turns) {
    for (int i = 0; i < plain_turns; ++i) co_await run(state);
    pressure = now();
  }

  static constexpr int patience = 5;  ///< turns

  /// On until as many turns as asked for bring the state back to where it began, and give the work of the turn before,
  /// both within `enough`, of the work. @param step  how far the last turn still moved it
  Course until(State& state, double enough, double felt, const Search& search, StopCall stop, double& step) {
    const Network& net = march.network();
    State tried;
    double last_size = 1e300, best = 1e300;
    step = 1.0;
    int plain = 0, since = 0, small = 0;
    while (turns < search.most_turns && !stop.now()) {
      const Vector x = to_vector(net, state);
      co_await run(state);
      const Vector g = to_vector(net, state);
      const double size = distance(g, x);
      step = std::max(std::abs(now() - pressure) / std::max(std::abs(now()), 1e4), felt * size);
      pressure = now();
      small = step < enough ? small + 1 : 0;
      if (small >= search.small_steps) break;
      if (!(size < 2.0 * last_size)) mixing.forget();
      last_size = size;
      // Mixing that gets no nearer has met what turns differ by, not what they have in common: on as they come.
      since = size < 0.9 * best ? 0 : since + 1;
      best = std::min(best, size);
      if (since >= patience) {
        mixing.forget();
        plain = patience;
        since = 0;
        best = size;
      }
      if (plain-- > 0) continue;
      tried = state;
      from_vector(net, mixing.next(x, g), tried);
      if (made_sound(net, tried))
        std::swap(state, tried);
      else
        mixing.forget();
    }
  }

  Mixing mixing = {};
};

/// Pushes a state a little and watches how far plain turns take it from its twin that was not pushed: so what the
/// state itself has still to go does not count. `settled` goes on as the twin, with its turns.
/// @param step  raised by what those turns move the work
Course push(Approach& approach, State& settled, int turns, double& step, StopCall stop, Response& out) {
  const Network& net = approach.march.network();
  State pushed = settled;
  // Every room a little fuller and warmer, and the exhaust's boxes staler: what dies slowest is often what fills them.
  for (std::size_t r = 0; r < pushed.rooms.size(); ++r) {
    flow::Volume& room = pushed.rooms[r];
    for (double* content : {&room.mass, &room.fresh, &room.fuel}) *content *= 1.0 + 1e-3;
    room.energy *= 1.0 + 2e-3;
    if (net.rooms[r].behind_exhaust) room.fresh *= 1.0 - 1e-2;
  }
  Vector before = to_vector(net, pushed) - to_vector(net, settled);
  std::vector<double> sizes;
  int turned = 0;
  double apart = 0.0;
  for (int i = 0; i < turns; ++i) {
    co_await approach.run(pushed);
    const double moved = approach.now();
    co_await approach.run(settled);
    const double stayed = approach.now();
    if (!stop.now()) approach.note(step);
    apart = std::abs(moved - stayed) / std::max(std::abs(stayed), 1e4);
    const Vector off = to_vector(net, pushed) - to_vector(net, settled);
    turned += off.dot(before) < 0.0 ? 1 : 0;
    before = off;
    sizes.push_back(std::sqrt(off.squaredNorm() / static_cast<double>(off.size())));
  }
  // The first turns hold what dies at once; the last ones what stays longest.
  const std::size_t n = sizes.size(), from = n / 2;
  const double ratio = sizes[from - 1] > 0.0 ? sizes[n - 1] / sizes[from - 1] : 0.0;
  const double felt = sizes[n - 1] > 0.0 ? apart / sizes[n - 1] : 0.0;
  out = {std::pow(ratio, 1.0 / static_cast<double>(n - from)), turned > turns / 2, felt};
}

/// How much of a distance of the state the work feels, before a push has told.
constexpr double felt_at_first = 0.1;

}  // namespace

Course looking(Turner& turner, March& march, State& state, const Search& search, Settled& out, StopCall stop) {
  out = Settled{};
  march.set_stop(stop);
  Approach approach{turner, march, march.empty_turn()};
  co_await approach.begin(state, search.plain_turns);
  co_await approach.until(state, search.tolerance, felt_at_first, search, stop, out.error);
  out.state = state;
  out.turn = approach.turn;
  out.turns = approach.turns;
}

Course settling(Turner& turner, March& march, State& state, const Search& search, Settled& out, StopCall stop) {
  const Network& net = march.network();
  out = Settled{};
  march.set_stop(stop);
  Approach approach{turner, march, march.empty_turn()};
  co_await approach.begin(state, search.plain_turns);

  double enough = 0.25 * search.tolerance, felt = felt_at_first;
  for (int round = 0; round < 3 && !stop.now(); ++round) {
    // 1. Search until a turn brings the state back to where it began.
    double step = 0.0;
    co_await approach.until(state, enough, felt, search, stop, step);

    // 2. A push tells how fast what is left would die out, or that it would grow.
    const State before = state;
    Response response;
    if (!stop.now()) {
      step = 0.0;
      co_await push(approach, state, search.proof_turns, step, stop, response);
    }
    out.turn = approach.turn;
    out.turns = approach.turns;
    out.state = state;
    felt = std::clamp(2.0 * response.felt, 1e-3, felt);
    step = std::max(step, felt * distance(to_vector(net, state), to_vector(net, before)) / search.proof_turns);
    out.error = step;
    if (stop.now()) co_return;
    out.multiplier = response.multiplier;
    const bool holds = out.multiplier < 0.995;
    const double to_come = holds ? std::max(1.0, out.multiplier / (1.0 - out.multiplier)) : 200.0;
    out.error = step * to_come;
    out.label = holds && out.error < search.tolerance ? Label::stable
                : !holds && response.swings           ? Label::alternating
                                                      : Label::not_settled;
    if (out.label == Label::stable || !holds || out.turns >= search.most_turns) co_return;
    enough = 0.25 * search.tolerance / to_come;  // slow to die out: come nearer
  }
}

void look(March& march, State& state, const Search& search, Settled& out, const StopCall& stop) {
  Turner alone;
  looking(alone, march, state, search, out, stop).finish();
}

void settle(March& march, State& state, const Search& search, Settled& out, const StopCall& stop) {
  Turner alone;
  settling(alone, march, state, search, out, stop).finish();
}

}  // namespace portwright::cycle
