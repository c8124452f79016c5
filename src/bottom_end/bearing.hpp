#pragma once
// Rolling bearings: basic rating life at a duty, and how far a peak stands from the static rating. It ranks engines and
// changes against each other; the life of caged needles in oil mist it does not predict.

#include <span>
#include <vector>

namespace portwright::bottom_end {

enum class Rolling { needle, roller, ball };

/// p of the life law: 10/3 for rollers and needles, 3 for balls. @source{iso281, basic rating life}
[[nodiscard]] double life_exponent(Rolling kind);

/// Basic rating life L10 = (C / P)^p in million turns: what nine in ten of a kind outlive. Load > 0.
/// @source{iso281, basic rating life}
[[nodiscard]] double basic_life(double rating, double load, Rolling kind);

/// One part of a duty: the load at even crank angles, and how far the bearing turns there.
struct DutyPart {
  std::span<const double> load;   ///< [N]
  std::span<const double> turns;  ///< turn of the bearing for a turn of the crank [-]; the same length
  double speed = 0.0;             ///< [rev/s]
  double share = 0.0;             ///< of the time [-]
};

/// Hours until nine in ten are still whole: the parts' wear added up by time (Palmgren and Miner).
/// Without any load or turning: infinity. @source{iso281, basic rating life}
[[nodiscard]] double life_hours(double rating, Rolling kind, std::span<const DutyPart> duty);

/// Load over a turn that wears as much as the varying one [N]: the p-mean, weighed by how far the bearing turns.
[[nodiscard]] double equivalent_load(std::span<const double> load, std::span<const double> turns, Rolling kind);

}  // namespace portwright::bottom_end
