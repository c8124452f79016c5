#include "cycle/ensemble.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <mutex>
#include <optional>
#include <thread>

#include "cycle/asking.hpp"
#include "cycle/build.hpp"
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

}  // namespace

std::vector<Ensemble> run_ensembles(std::span<const geometry::Engine* const> engines,
                                    std::span<const std::string> readings, const EnsemblePlan& plan, const Tell& tell) {
  const std::vector<Assumptions> members = ensemble_members(plan.members);
  std::vector<Ensemble> out(engines.size());
  for (Ensemble& one : out) {
    one.points.resize(members.size());
    one.weight.assign(members.size(), 1.0 / static_cast<double>(members.size()));
  }
  std::atomic<std::size_t> next{1}, done{0};
  std::atomic<bool> stopped{false};
  std::mutex telling;
  const Tell ask = [&](double) {
    if (stopped || !tell) return stopped.load();
    const std::lock_guard lock(telling);
    if (tell(static_cast<double>(done) / static_cast<double>(members.size()))) stopped = true;
    return stopped.load();
  };
  const auto run_set = [&](std::size_t k, const Ran& middles) {
    Asking asking{&ask};
    const StopCall stop = stop_of(asking);
    Ran stock;
    for (std::size_t e = 0; e < engines.size() && !stopped; ++e) {
      Ran ran = run_member(*engines[e], readings, members[k], plan, e == 0 ? middles : stock, e > 0, stop);
      out[e].points[k] = ran.points;
      if (e == 0) stock = std::move(ran);
    }
    ++done;
    return stock;
  };
  const Ran middles = run_set(0, {});
  const auto work = [&] {
    for (std::size_t k = next++; k < members.size() && !stopped; k = next++) run_set(k, middles);
  };
  {
    std::vector<std::jthread> threads;
    for (int t = 1; t < std::max(1, plan.threads); ++t) threads.emplace_back(work);
    work();
  }
  for (Ensemble& one : out) one.stopped = stopped;
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
