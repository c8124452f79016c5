#pragma once
// Where fins stand round the cylinder, and what the air outside takes from each place.

#include <vector>

#include "base/error.hpp"
#include "heat/assumptions.hpp"
#include "heat/fins.hpp"
#include "heat/gas_side.hpp"

namespace portwright::heat {

/// Fins over a sector, clockwise seen from the plug from `from` to `to`; 0 is the exhaust's centre.
struct Sector {
  double from = 0.0, to = 0.0;  ///< [rad], from < to <= from + 2π
  FinRow fins;
};

/// Fins filled with chips over a sector: so much of their air's speed is gone.
struct Block {
  double from = 0.0, to = 0.0;  ///< [rad]
  double share = 0.0;           ///< 0..1 [-]
};

struct Cooling {
  bool fan = true;
  std::vector<Sector> sectors;
  Block block;
};

/// Says what is wrong with a set of sectors, a sentence each: none at all (nothing decides then where it runs hot),
/// sectors that overlap, fins thicker than their pitch or longer and closer than the correlation for their air.
[[nodiscard]] base::ResultAll<void> check(const Cooling& cooling);

/// Share of the arc from `from` to `to` [rad] that lies in a sector [-].
[[nodiscard]] double covered(double from, double to, double sector_from, double sector_to);

/// What air takes over some arc of the wall's outer surface.
class AirSide {
 public:
  /// @param bore, outer  diameter of the bore and of the wall's outside [m]
  /// `still`: the engine stands and is hot, air moves by its own warmth.
  AirSide(const Cooling& cooling, const Assumptions& assumptions, const GasSide& gas, double bore, double outer,
          bool still = false);

  /// Film over the outer surface of an arc, its fins counted into it [W/m² K]. `finned`: 0 below where the fins end.
  [[nodiscard]] double film(double from, double to, double finned) const;
  /// The same meant over the sectors that have fins: what the head is taken to be cooled like.
  [[nodiscard]] double finned_film() const { return mean_; }
  [[nodiscard]] double temperature() const { return temperature_; }
  /// Volume of the fins on a square metre of the wall's outside [m].
  [[nodiscard]] double fin_volume(double from, double to) const;

 private:
  struct Row {
    double from, to, clear, blocked, volume;
  };
  /// A row of fins with its air at a share of its usual speed; density counts as speed does.
  [[nodiscard]] double gained(const FinRow& fins, double quicker) const;
  [[nodiscard]] double bare(double quicker) const;

  const Cooling& cooling_;
  const Assumptions& take_;
  bool still_;
  double outer_, temperature_, usual_air_, bare_ = 0.0, bare_blocked_ = 0.0, mean_ = 0.0;
  std::vector<Row> rows_;
};

}  // namespace portwright::heat
