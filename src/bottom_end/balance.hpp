#pragma once
// Balance of a crank with one piston: what the counterweight holds, and what shakes.

namespace portwright::bottom_end {

/// Masses about one throw, in any one unit.
struct Rotor {
  double rotating = 0.0, reciprocating = 0.0;
  double share = 0.0;  ///< of the reciprocating mass that is balanced [-]
};

/// Mass needed at another radius: (rotating + share · reciprocating) · throw / radius, in the unit of the masses.
/// @source{bevan, balancing of reciprocating masses}
[[nodiscard]] double balance_mass(const Rotor& rotor, double crank_radius, double at_radius);

/// Primary unbalanced force at a crank angle from TDC [N]: (1 - c) m r ω² cos φ along the bore and c m r ω² sin φ
/// across.
/// @param radius [m] @param speed [rev/s] @source{bevan, balancing of reciprocating masses}
[[nodiscard]] double primary_shaking(const Rotor& rotor, double radius, double speed, double angle);

}  // namespace portwright::bottom_end
