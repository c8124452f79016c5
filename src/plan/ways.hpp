#pragma once
// Every way to reach goals within limits. Inside the module only.
//
// Levels are linear in the amounts x >= 0 of the moves, and metal is linear in them or grows slower. What reaches the
// goals is a polytope, or nearly one, and the least metal lies at a corner of it: a set of moves of which none can be
// left out. So the corners are the ways, and every other way is a mixture of them.

#include <vector>

#include "plan/goals.hpp"
#include "plan/moves.hpp"

namespace portwright::plan {

/// A level that must not pass a bound, margin included.
struct Bound {
  std::size_t level = 0;
  bool at_most = false;
  double value = 0.0;  ///< [m]
  std::string rule;    ///< row of data/limits
};

/// What is looked for.
struct Task {
  const Frame& frame;
  const Levels& stock;
  const std::vector<Move>& moves;
  std::vector<Goal> goals;
  std::vector<Bound> bounds;
};

using Matrix = std::vector<std::vector<double>>;

/// Solves a x = b in place; none when the rows depend on each other.
[[nodiscard]] std::optional<std::vector<double>> solve(Matrix a, std::vector<double> b);

/// Amounts of the corners, each once. Empty: the goals cannot be reached within the bounds. Fails (usage) when there
/// are so many wishes that looking would take too long.
[[nodiscard]] base::Result<std::vector<Amounts>> find_ways(const Task& task);

/// Goals that follow from others, as a blowdown from both its openings, need not be met to more than they were typed:
/// sets their slack, and that of all others to none.
void loosen_redundant(Task& task);

/// Greatest miss of any goal at some levels [mm, deg, cc, -]; infinite where a figure has no value.
[[nodiscard]] double greatest_miss(const Task& task, const Levels& levels);

/// Puts right by small steps what the linear effects leave, on the engine itself. False when the goals are not met to
/// 1e-8 then.
/// @param reached levels after the cuts of some amounts
[[nodiscard]] bool polish(const Task& task, Amounts& amounts, const std::function<Levels(const Amounts&)>& reached);

}  // namespace portwright::plan
