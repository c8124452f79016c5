#pragma once
// The cuts a plan may be made of, and what each does to the levels. Inside the module only.

#include <string>
#include <vector>

#include "cuts/cut.hpp"
#include "geometry/survey.hpp"
#include "plan/levels.hpp"

namespace portwright::plan {

/// In the order of the work: squish first, because it moves every port; widen before raising; intake; transfers least.
enum class MoveKind {
  base,
  band,
  crown_edge,
  dome,
  widen,
  roof_exhaust,
  floor_intake,
  skirt_intake,
  roof_transfer,
};

/// One cut of an amount >= 0 [m] that takes metal off. Gaskets are none: they come in thicknesses, and each is a start
/// of its own.
struct Move {
  MoveKind kind = MoveKind::base;
  std::string port;    ///< by name, where there is one
  double width = 0.0;  ///< of the crown edge's ring [m]
  double most = 0.05;  ///< greatest amount [m]
  Levels effect{};     ///< change of each level for 1 m; waits for what the cut would need to know
  bool linear = true;  ///< exactly so; else near the stock's place

  /// The cut of an amount [m].
  [[nodiscard]] cuts::Cut cut(double amount) const;
};

/// Every move that this saw allows, in the order of the work. What each does is read from one trial cut of it, so that
/// nothing here knows how a cut couples.
[[nodiscard]] std::vector<Move> moves_of(const geometry::Survey& survey, const geometry::Engine& stock);

/// Amounts of the moves [m], one for each; 0: not used.
using Amounts = std::vector<double>;

/// The list of cuts, in the order of the work; amounts of nothing are left out.
[[nodiscard]] cuts::CutList cuts_of(const std::vector<Move>& moves, const Amounts& amounts);

/// Levels after the moves, by their effects.
[[nodiscard]] Levels moved(const Levels& stock, const std::vector<Move>& moves, const Amounts& amounts);

/// Amounts below this are no cut [m].
inline constexpr double no_cut = 1e-9;

}  // namespace portwright::plan
