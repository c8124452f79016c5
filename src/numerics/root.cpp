#include "numerics/root.hpp"

#include <cmath>
#include <cstdint>

#include <boost/math/tools/toms748_solve.hpp>

namespace portwright::numerics {

base::Result<double> find_root(FunctionView function, double low, double high, double tolerance) {
  const double at_low = function(low), at_high = function(high);
  if (at_low == 0.0) return low;
  if (at_high == 0.0) return high;
  const bool brackets = std::isfinite(at_low) && std::isfinite(at_high) && (at_low < 0.0) != (at_high < 0.0);
  if (!brackets) return base::fail(base::ErrorCode::fault, "the signs at the ends of the bracket do not differ");
  std::uintmax_t steps = 200;
  const auto close = [tolerance](double a, double b) { return std::abs(b - a) <= tolerance; };
  const auto [left, right] = boost::math::tools::toms748_solve(function, low, high, at_low, at_high, close, steps);
  const double root = left + 0.5 * (right - left);
  if (!std::isfinite(root))
    return base::fail(base::ErrorCode::fault, "the function has no finite value inside the bracket");
  return root;
}

}  // namespace portwright::numerics
