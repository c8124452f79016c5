#pragma once
// Walls that could have been the one chosen: found once on the values as read, measured again in every possible saw.
// Inside the module only. No allocation.

#include "study/measure.hpp"

namespace portwright::study {

/// Part of the piston that sweeps the bore: `half` to either side of x along the wall, from y `top` to `bottom` [m].
struct Strip {
  double x, half, top, bottom;
};

/// Walls between any two windows but `chosen`. With `as_read` those very ones, in its order; null: the nearest to the
/// chosen one are found.
void between_windows(const geometry::WindowMap& map, const geometry::Wall& chosen, const Rivals* as_read, Rivals& out);

/// Walls from a strip to the other windows in its way.
void beside_strip(const geometry::WindowMap& map, const Strip& strip, const geometry::Wall& chosen,
                  const Rivals* as_read, Rivals& out);

/// Walls from either end of a pin bore; the second end is half a turn from the strip.
void beside_pin(const geometry::WindowMap& map, const Strip& bore, const Rival& chosen, const Rivals* as_read,
                Rivals& out);

/// Widest stretches under a ring of the other windows that it passes.
void under_ring(const geometry::WindowMap& map, double top, double bottom, const geometry::Wall& chosen,
                const Rivals* as_read, Rivals& out);

}  // namespace portwright::study
