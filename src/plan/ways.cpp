#include "plan/ways.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <optional>

namespace portwright::plan {
namespace {

constexpr double step = 1e-7;      // of a difference quotient [m]
constexpr double met = 1e-9;       // a goal [mm, deg, cc, -]
constexpr double slack = 1e-9;     // of a bound [mm]
constexpr double too_flat = 1e-7;  // a pivot that says nothing, against its row's greatest
constexpr double may_turn = 1e-3;  // how far below nothing the first straight guess may lie [m]
constexpr std::size_t most_active = 3;
constexpr double most_corners = 400000;

/// One number that is to be nought, or at least nought, as a function of the levels [mm, deg, cc, -].
struct Row {
  const Goal* goal = nullptr;
  const Bound* bound = nullptr;

  [[nodiscard]] double value(const Task& task, const Levels& levels) const {
    if (goal != nullptr) {
      const double off = goal->shown(task.frame, levels) - goal->shown_target();
      return goal->relation == Relation::at_most ? -off : off;
    }
    const double off = 1e3 * (*levels[bound->level] - bound->value);
    return bound->at_most ? -off : off;
  }
};

class Search {
 public:
  explicit Search(const Task& task) : task_(task) {
    for (const Goal& goal : task.goals) {
      if (goal.relation == Relation::is)
        equalities_.push_back({&goal, nullptr});
      else
        inequalities_.push_back({&goal, nullptr});
    }
    // What was typed to more digits stands; of several that follow from each other the coarsest is only checked.
    std::stable_sort(equalities_.begin(), equalities_.end(),
                     [](const Row& a, const Row& b) { return a.goal->within < b.goal->within; });
    for (const Bound& bound : task.bounds) inequalities_.push_back({nullptr, &bound});
    choose_moves();
    choose_rows();
  }

  base::Result<std::vector<Amounts>> find() {
    if (corners() > most_corners)
      return base::fail(base::ErrorCode::usage, "So many wishes at once make too many ways to look through.", "wishes",
                        "Wish for less at once: plan the squish and the exhaust first, then the rest.");
    for (std::size_t active = 0; active <= std::min(most_active, inequalities_.size()); ++active)
      choose(inequalities_.size(), active, [&](const std::vector<std::size_t>& chosen) { with_active(chosen); });
    return std::move(found_);
  }

  /// Goals that were not taken among the independent ones.
  [[nodiscard]] std::vector<std::size_t> redundant() const {
    std::vector<std::size_t> out;
    for (std::size_t g = 0; g < task_.goals.size(); ++g) {
      if (task_.goals[g].relation != Relation::is) continue;
      const auto taken = [&](const Row& row) { return row.goal == &task_.goals[g]; };
      if (std::none_of(independent_.begin(), independent_.end(), taken)) out.push_back(g);
    }
    return out;
  }

 private:
  [[nodiscard]] double count(double n, double k) const {
    double out = 1.0;
    for (double i = 0; i < k; ++i) out *= (n - i) / (i + 1.0);
    return n < k ? 0.0 : out;
  }
  [[nodiscard]] double corners() const {
    double all = 0.0;
    const auto moves = static_cast<double>(usable_.size()), rows = static_cast<double>(independent_.size());
    for (std::size_t k = 0; k <= std::min(most_active, inequalities_.size()); ++k)
      all += count(static_cast<double>(inequalities_.size()), static_cast<double>(k)) *
             count(moves, rows + static_cast<double>(k));
    return all;
  }

  static void choose(std::size_t n, std::size_t k, const std::function<void(const std::vector<std::size_t>&)>& use) {
    if (k > n) return;
    std::vector<std::size_t> at(k);
    for (std::size_t i = 0; i < k; ++i) at[i] = i;
    while (true) {
      use(at);
      std::size_t i = k;
      while (i > 0 && at[i - 1] == n - k + i - 1) --i;
      if (i == 0) return;
      ++at[i - 1];
      for (std::size_t j = i; j < k; ++j) at[j] = at[j - 1] + 1;
    }
  }

  /// Change of a row for 1 mm of a move, from the stock's place.
  [[nodiscard]] double slope(const Row& row, const Amounts& x, std::size_t move) const {
    Amounts more = x;
    more[move] += step;
    return (row.value(task_, moved(task_.stock, task_.moves, more)) -
            row.value(task_, moved(task_.stock, task_.moves, x))) /
           (1e3 * step);
  }

  /// Moves whose effect on what is looked at is known, and is not nothing.
  void choose_moves() {
    const Amounts nothing(task_.moves.size(), 0.0);
    for (std::size_t m = 0; m < task_.moves.size(); ++m) {
      bool moves_goal = false, known = true;
      for (const std::vector<Row>* rows : {&equalities_, &inequalities_}) {
        for (const Row& row : *rows) {
          const double by = is_known(m) ? slope(row, nothing, m) : 0.0;
          known = known && std::isfinite(by);
          moves_goal = moves_goal || std::abs(by) > 1e-6;
        }
      }
      if (moves_goal && known && is_known(m)) usable_.push_back(m);
    }
  }

  [[nodiscard]] bool is_known(std::size_t m) const {
    return std::all_of(task_.moves[m].effect.begin(), task_.moves[m].effect.end(),
                       [](const Known& effect) { return effect.known(); });
  }

  /// Goals that follow from others are only checked: rows that are left nothing by those before them.
  void choose_rows() {
    const Amounts nothing(task_.moves.size(), 0.0);
    std::vector<std::vector<double>> kept;
    for (const Row& row : equalities_) {
      std::vector<double> line;
      for (const std::size_t m : usable_) line.push_back(slope(row, nothing, m));
      const double whole = greatest(line);
      for (const std::vector<double>& other : kept) {
        const auto lead = static_cast<std::size_t>(leading(other));
        const double f = line[lead] / other[lead];
        for (std::size_t j = 0; j < line.size(); ++j) line[j] -= f * other[j];
      }
      if (row.goal->slack > 0.0 || greatest(line) <= 1e-6 * std::max(whole, 1e-3)) continue;
      kept.push_back(line);
      independent_.push_back(row);
    }
  }
  static double greatest(const std::vector<double>& line) {
    double most = 0.0;
    for (const double one : line) most = std::max(most, std::abs(one));
    return most;
  }
  static std::ptrdiff_t leading(const std::vector<double>& line) {
    return std::max_element(line.begin(), line.end(), [](double a, double b) { return std::abs(a) < std::abs(b); }) -
           line.begin();
  }

  void with_active(const std::vector<std::size_t>& active) {
    rows_ = independent_;
    for (const std::size_t i : active) rows_.push_back(inequalities_[i]);
    const std::size_t n = rows_.size();
    const Amounts nothing(task_.moves.size(), 0.0);
    slopes_.assign(n, std::vector<double>(usable_.size()));
    start_.assign(n, 0.0);
    for (std::size_t r = 0; r < n; ++r) {
      start_[r] = -rows_[r].value(task_, task_.stock);
      for (std::size_t u = 0; u < usable_.size(); ++u) slopes_[r][u] = slope(rows_[r], nothing, usable_[u]);
    }
    choose(usable_.size(), n, [&](const std::vector<std::size_t>& chosen) { try_corner(chosen); });
  }

  void try_corner(const std::vector<std::size_t>& chosen) {
    const std::size_t n = rows_.size();
    Matrix a(n, std::vector<double>(n));
    for (std::size_t r = 0; r < n; ++r) {
      bool touched = false;
      for (std::size_t c = 0; c < n; ++c) {
        a[r][c] = slopes_[r][chosen[c]];
        touched = touched || a[r][c] != 0.0;
      }
      if (!touched) return;
    }
    const auto first = solve(std::move(a), start_);
    if (!first || std::any_of(first->begin(), first->end(), [](double mm) { return mm < -1e3 * may_turn; })) return;
    Amounts x(task_.moves.size(), 0.0);
    for (std::size_t c = 0; c < n; ++c) x[usable_[chosen[c]]] = 1e-3 * std::max((*first)[c], 0.0);
    if (walk(chosen, x)) keep(x);
  }

  /// Newton's steps on the rows; every one is smooth but where another window comes to open first.
  bool walk(const std::vector<std::size_t>& chosen, Amounts& x) const {
    const std::size_t n = rows_.size();
    for (int round = 0; round < 20; ++round) {
      const Levels levels = moved(task_.stock, task_.moves, x);
      std::vector<double> off(n);
      double worst = 0.0;
      for (std::size_t r = 0; r < n; ++r) {
        off[r] = -rows_[r].value(task_, levels);
        if (!std::isfinite(off[r])) return false;
        worst = std::max(worst, std::abs(off[r]));
      }
      if (worst < 0.01 * met) return true;
      Matrix a(n, std::vector<double>(n));
      for (std::size_t c = 0; c < n; ++c) {
        Amounts more = x;
        more[usable_[chosen[c]]] += step;
        const Levels there = moved(task_.stock, task_.moves, more);
        for (std::size_t r = 0; r < n; ++r) a[r][c] = (rows_[r].value(task_, there) + off[r]) / (1e3 * step);
      }
      const auto change = solve(std::move(a), off);
      if (!change) return false;
      for (std::size_t c = 0; c < n; ++c) x[usable_[chosen[c]]] += 1e-3 * (*change)[c];
    }
    return false;
  }

  void keep(Amounts x) {
    for (std::size_t m = 0; m < x.size(); ++m) {
      if (x[m] < -no_cut || x[m] > task_.moves[m].most + no_cut) return;
      if (x[m] < no_cut) x[m] = 0.0;
      x[m] = std::min(x[m], task_.moves[m].most);
    }
    const Levels levels = moved(task_.stock, task_.moves, x);
    for (const Row& row : equalities_)
      if (!(std::abs(row.value(task_, levels)) < 1e3 * met + row.goal->slack)) return;
    for (const Row& row : inequalities_)
      if (!(row.value(task_, levels) > -1e3 * slack)) return;
    const auto same = [&](const Amounts& other) {
      for (std::size_t m = 0; m < x.size(); ++m)
        if (std::abs(x[m] - other[m]) > 10.0 * no_cut) return false;
      return true;
    };
    if (std::none_of(found_.begin(), found_.end(), same)) found_.push_back(std::move(x));
  }

  const Task& task_;
  std::vector<Row> equalities_, inequalities_, independent_, rows_;
  std::vector<std::size_t> usable_;
  Matrix slopes_;
  std::vector<double> start_;
  std::vector<Amounts> found_;
};

}  // namespace

std::optional<std::vector<double>> solve(Matrix a, std::vector<double> b) {
  const std::size_t n = b.size();
  for (std::size_t k = 0; k < n; ++k) {
    std::size_t best = k;
    for (std::size_t i = k + 1; i < n; ++i)
      if (std::abs(a[i][k]) > std::abs(a[best][k])) best = i;
    if (!(std::abs(a[best][k]) > too_flat)) return std::nullopt;
    std::swap(a[k], a[best]);
    std::swap(b[k], b[best]);
    for (std::size_t i = k + 1; i < n; ++i) {
      const double f = a[i][k] / a[k][k];
      if (f == 0.0) continue;
      for (std::size_t j = k; j < n; ++j) a[i][j] -= f * a[k][j];
      b[i] -= f * b[k];
    }
  }
  for (std::size_t k = n; k-- > 0;) {
    for (std::size_t j = k + 1; j < n; ++j) b[k] -= a[k][j] * b[j];
    b[k] /= a[k][k];
  }
  return b;
}

void loosen_redundant(Task& task) {
  for (Goal& goal : task.goals) goal.slack = 0.0;
  for (const std::size_t g : Search(task).redundant()) task.goals[g].slack = std::max(task.goals[g].within, 1e-6);
}

base::Result<std::vector<Amounts>> find_ways(const Task& task) { return Search(task).find(); }

double greatest_miss(const Task& task, const Levels& levels) {
  double worst = 0.0;
  for (const Goal& goal : task.goals) {
    const double miss = std::max(0.0, std::abs(goal.missed(goal.shown(task.frame, levels))) - goal.slack);
    if (!std::isfinite(miss)) return std::numeric_limits<double>::infinity();
    worst = std::max(worst, miss);
  }
  return worst;
}

bool polish(const Task& task, Amounts& amounts, const std::function<Levels(const Amounts&)>& reached) {
  constexpr double good = 1e-8;
  Task near{task.frame, task.stock, task.moves, task.goals, task.bounds};
  const auto shifted = [&](const Levels& there) {
    // The stock's levels, moved by what the effects leave out at these amounts.
    Levels out = task.stock;
    const Levels by_effects = moved(task.stock, task.moves, amounts);
    for (std::size_t i = 0; i < level::count; ++i) out[i] += there[i] - by_effects[i];
    return out;
  };
  for (int round = 0; round < 8; ++round) {
    const Levels there = reached(amounts);
    if (greatest_miss(task, there) < good) return true;
    const Levels from = shifted(there);
    const Task corrected{task.frame, from, near.moves, near.goals, near.bounds};
    // Only the moves that are used may change.
    std::vector<Move> used = task.moves;
    for (std::size_t m = 0; m < used.size(); ++m)
      if (amounts[m] <= 0.0) used[m].effect.fill(0.0);
    const Task again{corrected.frame, from, used, corrected.goals, corrected.bounds};
    const auto ways = find_ways(again);
    if (!ways || ways->empty()) return false;
    const auto distance = [&](const Amounts& way) {
      double sum = 0.0;
      for (std::size_t m = 0; m < way.size(); ++m) sum += std::abs(way[m] - amounts[m]);
      return sum;
    };
    amounts = *std::min_element(ways->begin(), ways->end(),
                                [&](const Amounts& a, const Amounts& b) { return distance(a) < distance(b); });
  }
  return greatest_miss(task, reached(amounts)) < good;
}

}  // namespace portwright::plan
