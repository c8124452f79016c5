#pragma once
// How steep a cell may be drawn between its neighbours.

#include <cmath>

namespace portwright::flow {

/// Of two one-sided slopes: their mean as long as neither is steeper than twice the other's double (monotonized
/// central), 0 at a crest. Odd and symmetric, so mirrored gas gets mirrored slopes. Second order on smooth flow.
/// @source{TORO_1999, sect. 13.9.5; VAN_LEER_1977}
inline double limit(double a, double b) {
  if (!(a * b > 0.0)) return 0.0;
  const double mean = 0.5 * (a + b), cap = 2.0 * std::fmin(std::fabs(a), std::fabs(b));
  return std::copysign(std::fmin(std::fabs(mean), cap), mean);
}

}  // namespace portwright::flow
