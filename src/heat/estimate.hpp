#pragma once
// One load under many sets of assumptions: how far places can be told apart, and how far a difference can. Where one
// spot was read on this saw, every set is brought to it first.

#include <functional>
#include <optional>

#include "heat/places.hpp"

namespace portwright::heat {

/// A spot that was read, as a place of the map.
struct Spot {
  bool plug = false;       ///< the plug's seat; else the fins' roots
  bool all_round = false;  ///< fins, nobody said where
  double angle = 0.0;      ///< of the fins [rad]
  double T = 0.0;          ///< as read [K]
  double sigma = 0.0;      ///< of the reading [K]
};

/// Where a spot was read, from its words: "plug seat"; "fins at 90 deg"; "fins". Error (unreadable) with what would be
/// understood.
[[nodiscard]] base::Result<Spot> spot_of(const std::string& where);

/// Temperature of the spot in a map [K].
[[nodiscard]] double at_spot(const Spot& spot, const Load& load, const Map& map);

/// The air factor at which a map shows the spot as it was read [-]; none within a fifth and five times what is assumed.
/// @param T  what is to be met [K]  @param near  where to begin [-]
[[nodiscard]] std::optional<double> fitted_air(const Spot& spot, double T, const Load& load,
                                               const Assumptions& assumptions, double near = 1.0);
[[nodiscard]] std::optional<double> fitted_air(const Spot& spot, double T, const Load& load,
                                               const Assumptions& assumptions, double near,
                                               ThermalNetwork::Order& order);

/// Least and greatest air factor that a reading may ask for.
inline constexpr double least_air = 0.2, greatest_air = 5.0;

/// Mean and 95 % range.
struct Told {
  double value = 0.0, low = 0.0, high = 0.0;
  [[nodiscard]] bool distinguishable() const { return low > 0.0 || high < 0.0; }
};
/// Of values that stand for one set each; the first, the middles, is the value shown.
[[nodiscard]] Told told(std::vector<double> values);

/// One load seen by one set.
struct Seen {
  std::vector<Place> places;
  Place hottest;
  double mean = 0.0;  ///< of the bore's wall [K]
  Growth growth;
  HeatFlows flows;
  std::vector<double> wall;  ///< inner surface by cell, as in Map [K]
};
[[nodiscard]] base::Result<Seen> see(const Load& load, const Assumptions& assumptions);
[[nodiscard]] base::Result<Seen> see(const Load& load, const Assumptions& assumptions, ThermalNetwork::Order& order);

/// Sets fit to be used: those of the ensemble, or those that one reading could be met by.
struct Sets {
  std::vector<Assumptions> sets;
  int left_out = 0;  ///< that no air could bring to the reading
  bool calibrated = false;
};
/// Where the middles themselves cannot meet the reading, or fewer than half the sets, nothing is calibrated.
/// @param load  at the reading's speed; null without one
[[nodiscard]] Sets sets_for(int members, const Spot* spot, const Load* load);

/// A load under all sets: seen[k] is by set k. With a coarse body the first set, the middles, is seen on the fine one,
/// and the others as far from it as they are on the coarse one. @param stop asked before each set
[[nodiscard]] base::Result<std::vector<Seen>> see_all(const Load& load, const Sets& sets,
                                                      const std::function<bool()>& stop = {});

}  // namespace portwright::heat
