#pragma once
// What moves and what carries it, as read; where nothing was read, estimated widely from bore and stroke. A reading
// that no such piston or rod can have is refused in a sentence.

#include <optional>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "bottom_end/bearing.hpp"
#include "bottom_end/turn_forces.hpp"

namespace portwright::bottom_end {

/// One number and how well it is known, SI.
struct Doubtful {
  double value = 0.0, sigma = 0.0;  ///< one sigma
  double least = 0.0, greatest = 0.0;
  std::string assumed;  ///< row of data/assumptions.toml that stood in; empty: read

  /// Value at a standard normal draw, kept inside its ends.
  [[nodiscard]] double at(double draw) const;
};

/// A reading, or none.
struct Read {
  std::optional<double> value;
  double sigma = 0.0;
};

struct ReadBearing {
  bool named = false;            ///< the saw file has this bearing
  std::optional<double> rating;  ///< dynamic [N]
  std::optional<Rolling> kind;   ///< none: needle at big and small end, ball at the mains
};

enum class Place { big_end, small_end, main };
inline constexpr Place places[] = {Place::big_end, Place::small_end, Place::main};
[[nodiscard]] const char* place_key(Place place);   ///< "big_end"
[[nodiscard]] const char* place_name(Place place);  ///< "Big end"

struct ReadParts {
  Read piston, rod_small, rod_big;  ///< [kg]
  Read balance;                     ///< share of the reciprocating mass balanced [-]
  ReadBearing bearings[3];          ///< by Place
};

struct Bearing {
  std::optional<double> rating;  ///< [N]; none: its life and its load against it are not told
  Rolling kind = Rolling::needle;
  std::string waits;  ///< sentence when there is no rating
};

struct Parts {
  Doubtful piston, rod_small, rod_big, balance;
  Bearing bearings[3];

  /// Masses with the middles.
  [[nodiscard]] Masses middle() const;
};

/// How many times lighter or heavier than the estimate a reading may be before it is not believed [-]: own judgement.
inline constexpr double believed = 2.5;

/// Estimates grow from a piston of 50 mm bore and 36 mm stroke: the piston with the bore cubed, the rod's ends with
/// bore squared times stroke; rows of data/assumptions.toml. Errors, all at once: out_of_range for masses that no part
/// of this engine can have.
[[nodiscard]] base::ResultAll<Parts> parts_of(const ReadParts& read, double bore, double stroke);

}  // namespace portwright::bottom_end
