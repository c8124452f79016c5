#pragma once
// How steep a cell may be drawn between its neighbours.

#include <cmath>

namespace portwright::flow {

/// Of two one-sided slopes: their mean as long as neither is steeper than twice the other's double (monotonized
/// central), 0 at a crest. Odd and symmetric, so mirrored gas gets mirrored slopes. Second order on smooth flow.
/// @source{toro, sect. 13.9.5} @source{van_leer1977}
inline double limit(double a, double b) {
  if (!(a * b > 0.0)) return 0.0;
  const double mean = 0.5 * (a + b), cap = 2.0 * std::fmin(std::fabs(a), std::fabs(b));
  return std::copysign(std::fmin(std::fabs(mean), cap), mean);
}

/// In the last cell of a duct: the slope toward the cell before it, 0 where the gas at the end goes the other way and
/// never past that gas, half a cell away. The gas at the end is known half a step late, so it only limits.
inline double limit_end(double in, double end) {
  if (!(in * end > 0.0)) return 0.0;
  return std::copysign(std::fmin(std::fabs(in), std::fabs(end)), in);
}

}  // namespace portwright::flow
