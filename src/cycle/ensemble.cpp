#include "cycle/ensemble.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <mutex>
#include <thread>

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

std::vector<Point> run_member(const geometry::Engine& engine, std::span<const std::string> readings,
                              const Assumptions& member, const EnsemblePlan& plan, const Tell& stop) {
  const auto network = build(engine, member, readings, plan.fineness);
  if (!network) return {};
  CurvePlan run = plan.run;
  run.speeds = plan.speeds;
  run.both_ways = false;
  const Curve curve = run_curve(*network, run, stop);
  return curve.stopped ? std::vector<Point>{} : curve.points;
}

}  // namespace

Ensemble run_ensemble(const geometry::Engine& engine, std::span<const std::string> readings, const EnsemblePlan& plan,
                      const Tell& tell) {
  const std::vector<Assumptions> members = ensemble_members(plan.members);
  Ensemble out;
  out.points.resize(members.size());
  out.weight.assign(members.size(), 1.0 / static_cast<double>(members.size()));
  std::atomic<std::size_t> next{0}, done{0};
  std::atomic<bool> stopped{false};
  std::mutex telling;
  const Tell ask = [&](double) {
    if (stopped || !tell) return stopped.load();
    const std::lock_guard lock(telling);
    if (tell(static_cast<double>(done) / static_cast<double>(members.size()))) stopped = true;
    return stopped.load();
  };
  const auto work = [&] {
    for (std::size_t k = next++; k < members.size() && !stopped; k = next++) {
      out.points[k] = run_member(engine, readings, members[k], plan, ask);
      ++done;
    }
  };
  {
    std::vector<std::jthread> threads;
    for (int t = 1; t < std::max(1, plan.threads); ++t) threads.emplace_back(work);
    work();
  }
  out.stopped = stopped;
  return out;
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
