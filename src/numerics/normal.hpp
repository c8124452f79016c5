#pragma once
// The normal law.

namespace portwright::numerics {

/// Share of a standard normal variable that lies below x [-].
[[nodiscard]] double normal_cdf(double x);

/// The x below which a share of a standard normal variable lies, 0 < share < 1.
[[nodiscard]] double normal_quantile(double share);

}  // namespace portwright::numerics
