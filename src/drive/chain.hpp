#pragma once
// Sprocket and chain: how fast, how hard. Pitch is half the distance over three rivets, so a sprocket's tooth takes two
// pitches of chain. (A roller chain's tooth takes one: its formula gives half.)

namespace portwright::drive {

struct Chain {
  double pitch = 0.0;  ///< [m], > 0
  double teeth = 0.0;  ///< of the sprocket, > 0
};

/// Chain for one turn of the sprocket [m]. @source{practice}
[[nodiscard]] double chain_per_turn(const Chain& chain);
/// Speed of the chain [m/s]. @param speed  of the crank [rev/s], the clutch not slipping
[[nodiscard]] double chain_speed(const Chain& chain, double speed);
/// Pull on the chain that a torque at the crank gives [N].
/// @param drag  share of it that the chain's own drag takes [-]
[[nodiscard]] double chain_force(const Chain& chain, double torque, double drag);
/// Torque at the crank that a pull asks for [N m]; chain_force's inverse.
[[nodiscard]] double torque_for(const Chain& chain, double force, double drag);

enum class Clutch {
  open,   ///< below the speed at which it drives: the chain stands
  slips,  ///< drives, but slips under load and heats
  holds,
};
/// @param engages  speed at which it begins to drive [rev/s] @param holds  from how many times that it no longer slips
[[nodiscard]] Clutch clutch_at(double speed, double engages, double holds);

}  // namespace portwright::drive
