#pragma once
// The ladder of limits that speed climbs, free and in the cut apart, with ranges and with what would move each. Only
// hard rungs set the ceiling; ring flutter, bearing life and the lower mark of piston speed are notes.

#include <optional>
#include <vector>

#include "bottom_end/machine.hpp"

namespace portwright::bottom_end {

/// A number with its 95 % range.
struct Ranged {
  double value = 0.0;
  std::optional<double> low, high;
};

enum class RungKind {
  piston_speed,       ///< 3,500 ft/min, note @source{jennings1973, mean piston speed}
  piston_speed_most,  ///< 4,500 ft/min, hard; 3,800 is the low end of its range @source{bell, mean piston speed}
  flutter,            ///< of one ring, note @source{jennings1973, rings}
  load,  ///< of one bearing, hard: its peak reaches the static rating @source{iso76, static safety factor 1}
  life,  ///< of one bearing, note: steady running gives `life_of_note` hours @source{iso281, basic life}
};

/// Mean piston speeds [m/s]: 3,500, 3,800 and 4,500 ft/min.
inline constexpr double speed_to_last = 17.78, speed_to_start = 19.304, speed_at_most = 22.86;
/// Hours of steady running at which the life rung stands: own judgement.
inline constexpr double life_of_note = 300.0;

struct Rung {
  RungKind kind = RungKind::piston_speed;
  int ring = -1;                 ///< counted from the top ring, 0; flutter only
  Place place = Place::big_end;  ///< load and life only
  bool hard = false;
  std::optional<Ranged> free, cut;  ///< [rev/s]; none: see `waits`
  bool waits_for_rating = false;
  /// The same, free, with a piston a tenth lighter, or a ring of the next thinner row of the table [rev/s]; none where
  /// neither moves it.
  std::optional<double> lighter_piston, thinner_ring;
  double thinner = 0.0;  ///< that ring's height [m]
};

struct Ceiling {
  std::optional<Ranged> free, cut;    ///< [rev/s]
  int free_rung = -1, cut_rung = -1;  ///< that sets it, in `rungs`
};

struct Ladder {
  std::vector<Rung> rungs;  ///< as named above
  Ceiling ceiling;
};

/// Draws shared by every engine that is compared: standard normal, one row each.
class Draws {
 public:
  static constexpr int count = 64;
  Draws();
  /// Values of one engine in one draw. @param stock  whose counterweight it keeps, null: its own
  /// @param other_piston  this engine's piston is not the stock one, so its error is its own
  [[nodiscard]] Drawn drawn(const Parts& parts, int draw, const Parts* stock, bool other_piston) const;
  /// The middles.
  [[nodiscard]] static Drawn middle(const Parts& parts, const Parts* stock);

 private:
  std::vector<double> values_;
};

/// An engine and whose counterweight it keeps.
struct Subject {
  const Machine* machine = nullptr;
  const Parts* stock = nullptr;  ///< null: it is the stock engine
  bool other_piston = false;
};

[[nodiscard]] Ladder ladder_of(const Subject& subject, const Draws& draws);

/// Numbers at the question's speeds: the middle, and every draw for the ranges.
struct Sampled {
  Numbers middle;
  std::vector<Numbers> draws;
};
[[nodiscard]] Sampled sample(const Subject& subject, const Question& question, const Draws& draws);

/// 95 % range about a middle of one number taken out of every draw.
[[nodiscard]] Ranged ranged(double middle, std::vector<double> draws);

}  // namespace portwright::bottom_end
