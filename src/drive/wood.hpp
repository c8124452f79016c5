#pragma once
// Where engine, sprocket and wood meet: at the speed at which the engine's torque is what the chain asks for. The pull
// of the chain in one wood, pressed as usual, is taken not to hang on the chain's speed.

#include <optional>
#include <vector>

#include "drive/chain.hpp"
#include "drive/torque_curve.hpp"

namespace portwright::drive {

enum class Meets {
  holds,      ///< inside the curve, on its falling side
  bogs,       ///< more is asked for than the engine's greatest torque: it stalls or is lifted
  runs_away,  ///< less than it gives at the curve's last speed: it turns faster than was looked at
};

struct Working {
  Meets meets = Meets::holds;
  double speed = 0.0;        ///< of the crank [rev/s]; at an end of what was looked at where it does not hold
  double chain_speed = 0.0;  ///< [m/s]
  double wood_power = 0.0;   ///< left at the chain [W]; 0 where it bogs
};

/// @param force  pull of the chain in the wood [N] @param drag share [-]
[[nodiscard]] Working working(const TorqueCurve& engine, const Chain& chain, double force, double drag);

/// Power left for wood at the engine's best speed [W]: pressed until it turns there.
[[nodiscard]] double best_wood_power(const TorqueCurve& engine, double drag);

/// Pull in wood of another width [N]: force · (width / known_width)^exponent.
[[nodiscard]] double force_in(double force, double known_width, double width, double exponent);

/// Area of one cut through round wood [m²].
[[nodiscard]] double round_area(double diameter);
/// Time for it [s]. @param energy  work for each area of kerf [J/m²] @param power [W], > 0
[[nodiscard]] double cutting_time(double area, double energy, double power);

/// The sprocket of some numbers of teeth that leaves most for the wood; none where it bogs with each.
struct Choice {
  int teeth = 0;
  Working working;
};
[[nodiscard]] std::optional<Choice> best_sprocket(const TorqueCurve& engine, const Chain& chain, double force,
                                                  double drag, int fewest, int most);

}  // namespace portwright::drive
