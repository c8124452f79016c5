#pragma once
// How far short of a number to stop, how often to read, and when to put the tool down.
//
// The last reading and the last touch together have a scatter s; a band of +-h holds when h >= 2.5 s. Aimed a fifth of
// h short, past it falls 0.1 %, short of it 2.3 %, before passes and their stop rule are counted.

#include <string>
#include <vector>

#include "base/error.hpp"

namespace portwright::plan {

/// What a gauge's number is: the figure itself, the height of its edge, or the metal that is gone from a mark.
enum class Reads { figure, height, amount };

/// A way to read a number at the bench. Half of a reading's variance belongs to this edge in this set-up and does not
/// average out; the other half does.
struct Gauge {
  std::string name;    ///< "degree wheel, opening and closing"
  double fixed = 0.0;  ///< one sigma that repeats do not lessen, in the figure's unit
  double each = 0.0;   ///< one sigma of one reading, in the figure's unit
  Reads reads = Reads::figure;
};

/// The hand at one tool, one sigma, in the figure's unit.
struct Hand {
  double coarse = 0.0;  ///< of a cut to a mark
  double fine = 0.0;    ///< of the last touches
};

struct Guard {
  std::string gauge;
  int repeats = 1;         ///< of the reading that the band takes
  double sigma = 0.0;      ///< of the last reading and the hand together
  double half_band = 0.0;  ///< h
  double short_of = 0.0;   ///< stop mark of the coarse cut, short of the target; all in the figure's unit
  double aim_short = 0.0;  ///< of the fine passes, short of the target
  double put_down = 0.0;   ///< a reading this near to the target, or nearer: put the tool down
  Reads reads = Reads::figure;
};

inline constexpr int most_repeats = 9;
inline constexpr double sigmas_in_band = 2.5;
/// Fine passes after the coarse cut; more of them go past oftener than they mend.
inline constexpr int most_fine_passes = 2;

/// The first gauge that a band of +-half takes, with as few readings as do. Error (impossible): none does; the message
/// says the narrowest band of each, so that one can be chosen.
/// @param what the edge, for the sentence; unit of all numbers
[[nodiscard]] base::Result<Guard> guard_of(const std::vector<Gauge>& gauges, const Hand& hand, double half,
                                           const std::string& what, const std::string& unit);

}  // namespace portwright::plan
