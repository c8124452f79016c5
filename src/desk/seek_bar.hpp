#pragma once
// At what speed a saw pulls a bar of some length, buried. Inside the module only.

#include <string>

#include "desk/case.hpp"

namespace portwright::desk {

struct BarSpeed {
  double speed = 0.0;  ///< [rev/s]
  std::string text;    ///< "As it is the saw pulls a bar of 28 in (71 cm), buried, at about 8,100 rpm .."
};

/// As it is, under the middles: what the chain asks for in the wood as read, carried to the width of the bar, against
/// the simulation's torque. Errors: what the chain or the simulation misses; a bar that it does not pull.
/// @param bar  length [m]
[[nodiscard]] base::ResultAll<BarSpeed> bar_speed(const Case& opened, double bar, int threads);

}  // namespace portwright::desk
