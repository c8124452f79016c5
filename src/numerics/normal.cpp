#include "numerics/normal.hpp"

#include <cmath>
#include <numbers>

#include <boost/math/special_functions/erf.hpp>

namespace portwright::numerics {

double normal_cdf(double x) { return 0.5 * std::erfc(-x / std::numbers::sqrt2); }

double normal_quantile(double share) { return -std::numbers::sqrt2 * boost::math::erfc_inv(2.0 * share); }

}  // namespace portwright::numerics
