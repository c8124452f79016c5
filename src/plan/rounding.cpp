#include "plan/rounding.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace portwright::plan {
namespace {

constexpr std::size_t most_tried = 12;  // moves whose two neighbours are all tried with each other

/// Whole steps below and above an amount; the same one twice where it is one already.
std::array<double, 2> neighbours(const Move& move, double amount, double step) {
  const double place = amount / step;
  const bool whole = std::abs(place - std::round(place)) < 1e-6;
  const double low = whole ? std::round(place) : std::floor(place), high = whole ? low : std::ceil(place);
  return {std::min(low * step, move.most), std::min(high * step, move.most)};
}

bool holds(const Task& task, const Levels& levels) {
  return std::all_of(task.bounds.begin(), task.bounds.end(), [&](const Bound& bound) {
    const double off = *levels[bound.level] - bound.value;
    return (bound.at_most ? -off : off) > -1e-12;
  });
}

/// Greatest miss against its usual size, a little of all others, so that one of two equal is chosen by the rest.
double misses(const Task& task, const Levels& levels) {
  double worst = 0.0, sum = 0.0;
  for (const Goal& goal : task.goals) {
    const double miss = std::abs(goal.missed(goal.shown(task.frame, levels))) / usual_miss(goal);
    if (!std::isfinite(miss)) return std::numeric_limits<double>::infinity();
    worst = std::max(worst, miss);
    sum += miss;
  }
  return worst + 0.01 * sum;
}

}  // namespace

double usual_miss(const Goal& goal) {
  switch (goal.aspect) {
    case Aspect::opens:
    case Aspect::closes:
    case Aspect::blowdown:
    case Aspect::width_of_bore:
      return 1.0;
    case Aspect::duration:
      return 2.0;
    default:
      return 0.1;
  }
}

std::optional<Amounts> rounded(const Task& task, const Amounts& amounts, double step) {
  std::vector<std::size_t> used;
  std::vector<std::array<double, 2>> choices;
  Amounts nearest = amounts;
  for (std::size_t m = 0; m < amounts.size(); ++m) {
    if (amounts[m] <= 0.0) continue;
    const auto both = neighbours(task.moves[m], amounts[m], step);
    nearest[m] = std::abs(both[0] - amounts[m]) <= std::abs(both[1] - amounts[m]) ? both[0] : both[1];
    if (both[0] == both[1]) continue;
    used.push_back(m);
    choices.push_back(both);
  }
  std::optional<Amounts> best;
  double least = std::numeric_limits<double>::infinity();
  const std::size_t tried = std::min(used.size(), most_tried);
  for (std::size_t bits = 0; bits < (std::size_t{1} << tried); ++bits) {
    Amounts x = nearest;
    for (std::size_t u = 0; u < tried; ++u) x[used[u]] = choices[u][bits >> u & 1U];
    const Levels levels = moved(task.stock, task.moves, x);
    if (!holds(task, levels)) continue;
    const double miss = misses(task, levels);
    if (miss < least - 1e-12) least = miss, best = std::move(x);
  }
  return best;
}

}  // namespace portwright::plan
