#pragma once
// Forces over one turn, exact for a rod taken as two masses: what the gas and the moving parts ask of wall, pin, rod,
// crank pin and main bearings. Arrays in, arrays out; it knows no saw.
//
//   Q cos ψ = G - (m_p + m_s) a      rod, compression positive; a the piston's acceleration, down positive
//   N       = Q sin ψ                on the wall, positive toward the side pressed on the power stroke
//   T       = (G - (m_p + m_s) a) ds/dφ
//
// G is the gas force downward: cylinder less case pressure times the bore's area. Friction and the weight of the parts
// are left out. The rod's mass lies at its two ends, as on a scale with the rod level; what its inertia in turning
// differs from that is left out.

#include <span>
#include <vector>

#include "geometry/crank_slider.hpp"

namespace portwright::bottom_end {

/// Masses [kg]. `piston` is all that moves with it: pin, clips, rings.
struct Masses {
  double piston = 0.0, rod_small = 0.0, rod_big = 0.0;
  /// What the counterweight holds at the crank's radius beyond the rotating mass.
  double counter = 0.0;

  [[nodiscard]] double reciprocating() const { return piston + rod_small; }
  /// Share of the reciprocating mass that is balanced [-].
  [[nodiscard]] double balance() const { return counter / reciprocating(); }
};

/// Pressures over one turn, absolute [Pa], at even crank angles from TDC on; both of one length, or empty: no gas.
struct GasTrace {
  std::vector<double> cylinder, crankcase;
  [[nodiscard]] bool empty() const { return cylinder.empty(); }
};

/// A trace taken at uneven angles brought to `count` even ones, straight between its instants.
/// @param angles [rad ATDC], any turn; three or more instants
[[nodiscard]] GasTrace even_trace(std::span<const double> angles, std::span<const double> cylinder,
                                  std::span<const double> crankcase, int count);

/// Where the parts are at even crank angles from TDC on, once for all speeds.
struct TurnGrid {
  TurnGrid(const geometry::CrankSlider& slider, int count);

  struct Node {
    double angle;                 ///< [rad ATDC]
    double drop;                  ///< of the crown edge below its TDC place [m]
    double velocity;              ///< d drop / d angle [m/rad]
    double acceleration;          ///< d² drop / d angle² [m/rad²]
    double throw_sin, throw_cos;  ///< of the crank throw against the bore's axis
    double rod_sin, rod_cos;      ///< of the rod against it; sin positive presses toward the power stroke's side
    double big_end_turn;          ///< turn of the big end's bearing for a turn of the crank here [-]; mean 1
    double small_end_turn;        ///< the same of the small end, which only swings [-], never negative
  };
  std::vector<Node> nodes;
  double radius = 0.0;  ///< of the crank [m]

  [[nodiscard]] double step() const;  ///< between nodes [rad]
};

/// A force [N]: along the bore upward, and across it away from the side pressed on the power stroke.
struct Force {
  double along = 0.0, aside = 0.0;
  [[nodiscard]] double size() const;
};

/// Forces at one node [N], torque [N m].
struct NodeForces {
  double gas = 0.0;          ///< on the piston, downward
  double thrust = 0.0;       ///< on the wall, + toward the side pressed on the power stroke
  double rod = 0.0;          ///< along the rod at its small-end mass, + compression
  Force small_end, big_end;  ///< of the piston on the pin's bearing, of the rod on the crank pin
  Force main;                ///< of the crank on both main bearings together
  Force shake;               ///< of the moving parts on the saw
  double torque = 0.0;
};

/// @param gas  of the same length as the grid, or empty @param factor  on the gas force @param speed [rev/s]
[[nodiscard]] NodeForces forces_at(const TurnGrid& grid, std::size_t node, const Masses& masses, double piston_area,
                                   const GasTrace& gas, double factor, double speed);

/// All nodes.
[[nodiscard]] std::vector<NodeForces> turn_forces(const TurnGrid& grid, const Masses& masses, double piston_area,
                                                  const GasTrace& gas, double speed, double factor = 1.0);

/// Greatest sizes over the turn [N].
struct Peaks {
  double thrust_pressed = 0.0, thrust_other = 0.0;  ///< toward the power stroke's side and away from it
  double rod_compression = 0.0, rod_tension = 0.0;
  double small_end = 0.0, big_end = 0.0, main = 0.0;  ///< `main` of both together
  double shaking = 0.0;
};
[[nodiscard]] Peaks peaks_of(std::span<const NodeForces> forces);

}  // namespace portwright::bottom_end
