#include "cycle/ensemble.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <mutex>
#include <optional>
#include <thread>

#include "cycle/build.hpp"
#include "cycle/lanes/reach_lanes.hpp"
#include "numerics/normal.hpp"
#include "numerics/sampling.hpp"

namespace portwright::cycle {

std::vector<Assumptions> ensemble_members(int members) {
  const auto ranges = assumption_ranges();
  std::vector<Assumptions> out(static_cast<std::size_t>(std::max(1, members)), middle_assumptions());
  const numerics::NormalDraws draws(static_cast<int>(ranges.size()), std::max(1, members), 1);
  for (int k = 1; k < members; ++k) {
    const auto row_of = draws.row(k);
    Assumptions& member = out[static_cast<std::size_t>(k)];
    for (std::size_t r = 0; r < ranges.size(); ++r) {
      const tables::RunRow& row = *ranges[r].row;
      // Triangular about the middle: the ends of a range are seldom met together.
      const double u = numerics::normal_cdf(row_of[r]), knee = (row.value - row.low) / (row.high - row.low);
      const double x = u < knee ? std::sqrt(u * knee) : 1.0 - std::sqrt((1.0 - u) * (1.0 - knee));
      member.*ranges[r].member = row.low + x * (row.high - row.low);
    }
    member.second_law = k % 2 == 1 ? 1.0 : 0.0;
  }
  return out;
}

namespace {

/// One engine under one set: its network, and at each speed where its turn began and what it gave.
struct Ran {
  std::optional<Network> network;
  std::vector<State> states;
  std::vector<Point> points;
};

/// How an engine is searched that starts where stock ended under the same set: what a turn leaves of a push was found
/// there, so the search goes on until a turn moves the work so little that what is to come stays under the tolerance,
/// and is not proven again.
CurvePlan as_stock_was(const CurvePlan& plan, const Point& stock) {
  CurvePlan out = plan;
  if (stock.label != Label::stable) return out;
  const double m = std::min(stock.multiplier, 0.99);
  out.proven = false;
  out.search.tolerance = 0.25 * plan.search.tolerance / std::max(1.0, m / (1.0 - m));
  return out;
}

/// @param near  where the search starts, speed by speed; from cold and the speed before where it does not say
/// @param same_set  whether `near` ran under the same set
Ran run_member(const geometry::Engine& engine, std::span<const std::string> readings, const Assumptions& member,
               const EnsemblePlan& plan, const Ran& near, bool same_set, const StopCall& stop) {
  Ran out;
  if (auto built = build(engine, member, readings, plan.fineness)) out.network = *std::move(built);
  if (!out.network) return out;
  State state;
  for (std::size_t i = 0; i < plan.speeds.size(); ++i) {
    State there;
    if (i < near.states.size()) there = carried(*near.network, near.states[i], *out.network);
    const bool known = !there.rooms.empty();
    if (known) state = std::move(there);
    const CurvePlan run = known && same_set ? as_stock_was(plan.run, near.points[i]) : plan.run;
    out.points.push_back(reach(*out.network, plan.speeds[i], run, state, stop));
    if (stop.now()) return {};
    out.states.push_back(state);
  }
  return out;
}

/// Whoever watches, asked from all threads. Once it has said so all is stopped.
struct Watch {
  const Tell& tell;
  std::size_t asked_for = 1;  ///< points
  std::atomic<std::size_t> done{0};
  std::atomic<bool> stopped{false};
  std::mutex telling{};

  bool stop() {
    if (stopped || !tell) return stopped;
    const std::lock_guard lock(telling);
    if (!stopped && tell(static_cast<double>(done) / static_cast<double>(asked_for))) stopped = true;
    return stopped;
  }
  StopCall call() {
    return {[](void* self) { return static_cast<Watch*>(self)->stop(); }, this};
  }
};

/// The members of one engine that know where to begin, side by side; the others each by itself, speed after speed.
/// @param ran  what is there already stays
void run_members(const geometry::Engine& engine, std::span<const std::string> readings,
                 const std::vector<Assumptions>& members, const EnsemblePlan& plan, const std::vector<const Ran*>& near,
                 bool same_set, std::vector<Ran>& ran, Watch& watch) {
  const std::size_t speeds = plan.speeds.size();
  std::vector<LanePoint> points;
  std::vector<std::size_t> beside, alone;
  for (std::size_t k = 0; k < members.size(); ++k) {
    if (ran[k].network) continue;
    auto built = build(engine, members[k], readings, plan.fineness);
    if (!built) {
      watch.done += speeds;
      continue;
    }
    ran[k].network = *std::move(built);
    const Ran& from = *near[k];
    bool known = !plan.run.pace.rests_at_bdc && from.states.size() == speeds;
    const std::size_t before = points.size();
    for (std::size_t i = 0; i < speeds && known; ++i) {
      points.push_back({&*ran[k].network, plan.speeds[i], same_set ? as_stock_was(plan.run, from.points[i]) : plan.run,
                        carried(*from.network, from.states[i], *ran[k].network), Point{}, false});
      known = !points.back().state.rooms.empty();
    }
    if (!known) points.resize(before);
    (known ? beside : alone).push_back(k);
  }
  reach_side_by_side(points, plan.threads, watch.call(), watch.done);
  for (std::size_t n = 0; n < beside.size(); ++n) {
    const auto first = points.begin() + static_cast<std::ptrdiff_t>(n * speeds);
    const auto end = first + static_cast<std::ptrdiff_t>(speeds);
    if (!std::all_of(first, end, [](const LanePoint& point) { return point.reached; })) continue;
    for (auto point = first; point != end; ++point) {
      ran[beside[n]].points.push_back(point->point);
      ran[beside[n]].states.push_back(std::move(point->state));
    }
  }
  std::atomic<std::size_t> next{0};
  const auto work = [&] {
    for (std::size_t n = next++; n < alone.size() && !watch.stopped; n = next++) {
      const std::size_t k = alone[n];
      ran[k] = run_member(engine, readings, members[k], plan, *near[k], same_set, watch.call());
      watch.done += speeds;
    }
  };
  std::vector<std::jthread> threads;
  for (int t = 1; t < std::max(1, plan.threads); ++t) threads.emplace_back(work);
  work();
}

}  // namespace

std::vector<Ensemble> run_ensembles(std::span<const geometry::Engine* const> engines,
                                    std::span<const std::string> readings, const EnsemblePlan& plan, const Tell& tell) {
  const std::vector<Assumptions> members = ensemble_members(plan.members);
  std::vector<Ensemble> out(engines.size());
  for (Ensemble& one : out) {
    one.points.resize(members.size());
    one.weight.assign(members.size(), 1.0 / static_cast<double>(members.size()));
  }
  Watch watch{tell, std::max<std::size_t>(1, engines.size() * members.size() * plan.speeds.size())};
  std::vector<Ran> stock(members.size());
  stock[0] = run_member(*engines[0], readings, members[0], plan, {}, false, watch.call());
  if (stock[0].network) watch.done += plan.speeds.size();
  std::vector<const Ran*> near(members.size(), &stock[0]);
  for (std::size_t e = 0; e < engines.size(); ++e) {
    std::vector<Ran> ran(e == 0 ? 0 : members.size());
    std::vector<Ran>& now = e == 0 ? stock : ran;
    if (!watch.stopped) run_members(*engines[e], readings, members, plan, near, e > 0, now, watch);
    for (std::size_t k = 0; k < members.size(); ++k) {
      out[e].points[k] = now[k].points;
      near[k] = &stock[k];
    }
  }
  for (Ensemble& one : out) one.stopped = watch.stopped;
  return out;
}

Ensemble run_ensemble(const geometry::Engine& engine, std::span<const std::string> readings, const EnsemblePlan& plan,
                      const Tell& tell) {
  const geometry::Engine* one[] = {&engine};
  return run_ensembles(one, readings, plan, tell).front();
}

void weigh_by_power(Ensemble& stock, const EnsemblePlan& plan, double power, double speed, double sigma) {
  std::size_t at = 0;
  for (std::size_t i = 1; i < plan.speeds.size(); ++i)
    if (std::abs(plan.speeds[i] - speed) < std::abs(plan.speeds[at] - speed)) at = i;
  std::vector<double> weight(stock.points.size(), 0.0);
  double sum = 0.0;
  for (std::size_t k = 0; k < stock.points.size(); ++k) {
    if (at >= stock.points[k].size()) continue;
    const double off = (stock.points[k][at].power / power - 1.0) / sigma;
    weight[k] = std::exp(-0.5 * off * off);
    sum += weight[k];
  }
  if (!(sum > 1e-6)) return;
  for (double& w : weight) w /= sum;
  stock.weight = std::move(weight);
}

Band band_of(const std::vector<double>& values, const std::vector<double>& weight) {
  std::vector<std::pair<double, double>> rows;
  double whole = 0.0, mean = 0.0;
  for (std::size_t k = 0; k < values.size(); ++k) {
    if (!(weight[k] > 0.0)) continue;
    rows.emplace_back(values[k], weight[k]);
    whole += weight[k];
    mean += weight[k] * values[k];
  }
  if (rows.empty()) return {};
  std::sort(rows.begin(), rows.end());
  const auto quantile = [&](double share) {
    double below = 0.0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
      const double middle = below + 0.5 * rows[i].second;
      const double next = i + 1 < rows.size() ? below + rows[i].second + 0.5 * rows[i + 1].second : whole;
      if (share * whole <= middle) return rows[i].first;
      if (i + 1 < rows.size() && share * whole < next)
        return rows[i].first + (rows[i + 1].first - rows[i].first) * (share * whole - middle) / (next - middle);
      below += rows[i].second;
    }
    return rows.back().first;
  };
  return {mean / whole, quantile(0.025), quantile(0.975)};
}

namespace {

template <class Value>
Band over_members(const Ensemble& of, std::size_t speed, Value&& value) {
  std::vector<double> values, weights;
  for (std::size_t k = 0; k < of.points.size(); ++k)
    if (speed < of.points[k].size() && value(k, values)) weights.push_back(of.weight[k]);
  return band_of(values, weights);
}

}  // namespace

Band band(const Ensemble& ensemble, double Point::*figure, std::size_t speed) {
  return over_members(ensemble, speed, [&](std::size_t k, std::vector<double>& out) {
    out.push_back(ensemble.points[k][speed].*figure);
    return true;
  });
}

Band change_band(const Ensemble& stock, const Ensemble& cut, double Point::*figure, std::size_t speed) {
  return over_members(stock, speed, [&](std::size_t k, std::vector<double>& out) {
    if (k >= cut.points.size() || speed >= cut.points[k].size()) return false;
    out.push_back(cut.points[k][speed].*figure - stock.points[k][speed].*figure);
    return true;
  });
}

}  // namespace portwright::cycle
