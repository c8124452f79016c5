#pragma once
// Ports, groups of ports and rings: parts of measure(). Inside the module only.

#include "study/measure.hpp"

namespace portwright::study {

/// The level of the port that is the best of those that `pick` names; what `without` says when there are none. The one
/// chosen is held when `chosen` names it, else it is put there.
template <class Pick, class Level, class Better>
Known extreme(const geometry::Engine& engine, const base::Needs& without, Pick pick, Level level, Better better,
              int& chosen) {
  Known all;
  int best = -1;
  for (std::size_t i = 0; i < engine.ports.size(); ++i) {
    if (!pick(engine.ports[i].kind)) continue;
    const Known one = level(i);
    all += one;
    if (best < 0 || (one && better(*one, *level(static_cast<std::size_t>(best))))) best = static_cast<int>(i);
  }
  if (best < 0) return Known::waits_for(without);
  if (chosen < 0) chosen = best;
  return all * Known(0.0) + level(static_cast<std::size_t>(chosen));
}

/// The width of a wall; without a value where the wall held is not there.
[[nodiscard]] inline Known met(const geometry::Wall& wall, const geometry::Wall& held, const Wants& wants) {
  return held.entry >= 0 && wall.entry < 0 ? Known::waits_for(wants.shape) : Known(wall.width);
}

void measure_ports(const geometry::Engine& engine, double speed, const Wants& wants, const Measures* as_read,
                   Measures& out);
void measure_rings(const geometry::Engine& engine, const geometry::WindowMap& map, const Wants& wants,
                   const Measures* as_read, Measures& out);

}  // namespace portwright::study
