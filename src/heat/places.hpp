#pragma once
// A map in the places that a builder knows, ranked; how a hot bore grows and what room the piston has in it.

#include <string>
#include <vector>

#include "heat/map.hpp"

namespace portwright::heat {

/// A place with its temperature.
struct Place {
  std::string name;     ///< "exhaust roof", "far side, near TDC", "ring groove"
  bool piston = false;  ///< else the cylinder
  double angle = 0.0;   ///< [rad]; 0 where the place goes all round
  double drop = 0.0;    ///< below the crown edge's TDC place [m]
  bool round = false;   ///< goes all round: the angle says nothing
  double T = 0.0;       ///< [K]
};

/// The places of one body, always the same ones in the same order, so that two maps of it can be held against each
/// other: exhaust roof, the wall beside the exhaust, its bridge where there is one; four sides near TDC; the middle of
/// each stretch without fins; head, base; crown, ring groove, skirt, pin.
[[nodiscard]] std::vector<Place> places(const Load& load, const Map& map);

/// The hottest place of the bore's metal.
[[nodiscard]] Place hottest(const Body& body, const Map& map);
/// Mean of the bore's metal, area by area [K].
[[nodiscard]] double mean_wall(const Body& body, const Map& map);

/// What heat does to sizes, against 20 C all over [m].
struct Growth {
  double bore = 0.0;          ///< of the bore's diameter at mid-stroke
  double out_of_round = 0.0;  ///< greatest radius less least, where it is worst, above the exhaust's floor
  double clearance = 0.0;     ///< change of the diametral room of the skirt at mid-stroke; negative closes
  double land = 0.0;          ///< the same of the top land near TDC
};
/// Bores that are pushed aside as a whole stay round: the first harmonic is left out. What stiffness leaves of the free
/// growth of a hot place is an assumption.
[[nodiscard]] Growth growth(const Body& body, const Map& map, const Assumptions& assumptions);

}  // namespace portwright::heat
