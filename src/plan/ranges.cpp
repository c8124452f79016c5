#include "plan/ranges.hpp"

#include <algorithm>
#include <cmath>

#include "numerics/statistics.hpp"
#include "plan/rounding.hpp"
#include "study/drawn.hpp"

namespace portwright::plan {
namespace {

using geometry::Engine;

constexpr double difference = 1e-7;  // of a quotient [m]
constexpr double leans = 1e-6;       // a wish of one side, or a bound, that is met exactly [mm, deg, cc, -]
constexpr int fewest = 16;           // samples that a range is made from
constexpr int rounds = 4;            // Newton's steps, with the slopes of the saw as read

/// What the amounts are settled by: a goal that is met, or a bound that is reached.
struct Held {
  const Goal* goal = nullptr;
  const Bound* bound = nullptr;
  bool as_stock = false;

  [[nodiscard]] double value(const Frame& frame, const Levels& levels, const Levels& stock) const {
    if (bound != nullptr) return 1e3 * (levels[bound->level].value_or(NAN) - bound->value);
    const double target = goal->shown_target() + (as_stock ? goal->shown(frame, stock) - goal->shown_stock() : 0.0);
    return (goal->shown(frame, levels) - target) / usual_miss(*goal);
  }
};

class Ranger {
 public:
  Ranger(const Asked& asked, const Engine& stock) : asked_(asked), task_(asked.task), stock_(levels_of(stock)) {
    Engine cut = stock;
    cuts::apply(*asked.list, cut);
    there_ = levels_of(cut);
    for (std::size_t m = 0; m < task_.moves.size(); ++m)
      if (asked.amounts[m] > no_cut && asked.amounts[m] < task_.moves[m].most - no_cut) used_.push_back(m);
    hold();
    slope();
  }

  [[nodiscard]] std::vector<std::optional<double>> ask(const std::vector<Engine>& samples) const {
    std::vector<std::optional<double>> out(task_.moves.size());
    if (used_.empty() || held_.size() < used_.size()) return out;
    std::vector<std::vector<double>> moved(used_.size());
    for (const Engine& sample : samples) {
      const auto change = change_in(sample);
      for (std::size_t u = 0; change && u < used_.size(); ++u) moved[u].push_back((*change)[u]);
    }
    const std::size_t count = moved.front().size();
    if (count < fewest || 2 * count < samples.size()) return out;
    const numerics::RangeEstimator estimator(static_cast<int>(count));
    for (std::size_t u = 0; u < used_.size(); ++u) {
      const numerics::Range range = estimator.central95(moved[u]);
      out[used_[u]] = 0.5 * (range.high - range.low);
    }
    return out;
  }

 private:
  void hold() {
    for (std::size_t g = 0; g < task_.goals.size(); ++g) {
      const Goal& goal = task_.goals[g];
      const Held one{&goal, nullptr, asked_.as_stock[g]};
      const bool follows = goal.slack > 0.0;
      const bool met = std::abs(one.value(task_.frame, there_, stock_)) < leans;
      if (!follows && (goal.relation == Relation::is || met)) held_.push_back(one);
    }
    for (const Bound& bound : task_.bounds) {
      const Held one{nullptr, &bound, false};
      if (std::abs(one.value(task_.frame, there_, stock_)) < leans) held_.push_back(one);
    }
  }

  /// Change of each that is held for 1 m of each move, and what solves the least squares of it.
  void slope() {
    slopes_.assign(held_.size(), std::vector<double>(used_.size()));
    for (std::size_t u = 0; u < used_.size(); ++u) {
      const Levels more = with(u, difference);
      for (std::size_t h = 0; h < held_.size(); ++h)
        slopes_[h][u] = (held_[h].value(task_.frame, more, stock_) - held_[h].value(task_.frame, there_, stock_)) /
                        (1e3 * difference);
    }
  }

  [[nodiscard]] Levels with(std::size_t u, double by) const {
    Levels out = there_;
    for (std::size_t i = 0; i < level::count; ++i) out[i] += task_.moves[used_[u]].effect[i] * Known(by);
    return out;
  }

  /// What of each used move [m] a sample asks for beside the way's own amount.
  [[nodiscard]] std::optional<std::vector<double>> change_in(const Engine& sample) const {
    const Frame frame(sample);
    const Levels as_it_is = levels_of(sample);
    Engine cut = sample;
    cuts::apply(*asked_.list, cut);
    Levels there = levels_of(cut);
    std::vector<double> out(used_.size(), 0.0);
    for (int round = 0; round < rounds; ++round) {
      const auto step = step_from(frame, there, as_it_is);
      if (!step) return std::nullopt;
      for (std::size_t u = 0; u < used_.size(); ++u) {
        out[u] += (*step)[u];
        for (std::size_t i = 0; i < level::count; ++i) there[i] += task_.moves[used_[u]].effect[i] * Known((*step)[u]);
      }
    }
    return out;
  }

  /// Newton's step [m], by least squares where more is held than there are moves.
  [[nodiscard]] std::optional<std::vector<double>> step_from(const Frame& frame, const Levels& there,
                                                             const Levels& as_it_is) const {
    const std::size_t n = used_.size(), rows = held_.size();
    std::vector<double> off(rows);
    for (std::size_t h = 0; h < rows; ++h) {
      off[h] = -held_[h].value(frame, there, as_it_is);
      if (!std::isfinite(off[h])) return std::nullopt;
    }
    if (rows == n) return in_metres(solve(slopes_, off));
    Matrix a(n, std::vector<double>(n, 0.0));
    std::vector<double> b(n, 0.0);
    for (std::size_t h = 0; h < rows; ++h)
      for (std::size_t i = 0; i < n; ++i) {
        b[i] += slopes_[h][i] * off[h];
        for (std::size_t j = 0; j < n; ++j) a[i][j] += slopes_[h][i] * slopes_[h][j];
      }
    return in_metres(solve(std::move(a), std::move(b)));
  }

  static std::optional<std::vector<double>> in_metres(std::optional<std::vector<double>> step) {
    if (step)
      for (double& one : *step) one *= 1e-3;
    return step;
  }

  const Asked& asked_;
  const Task& task_;
  Levels stock_, there_;
  std::vector<std::size_t> used_;
  std::vector<Held> held_;
  Matrix slopes_;
};

}  // namespace

std::vector<Engine> sampled_engines(const geometry::Survey& survey, int count) {
  std::vector<Engine> out;
  Engine engine = geometry::resolve(survey);
  for (const std::vector<double>& values : study::drawn_values(survey, count)) {
    geometry::resolve(survey, values, engine);
    out.push_back(engine);
  }
  return out;
}

std::vector<std::optional<double>> half_widths(const Asked& asked, const Engine& stock,
                                               const std::vector<Engine>& samples) {
  return Ranger(asked, stock).ask(samples);
}

}  // namespace portwright::plan
