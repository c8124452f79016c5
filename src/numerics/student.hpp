#pragma once
// Student's law: how far a mean of few values may be off.

namespace portwright::numerics {

/// The t below which a share of Student's t lies, 0 < share < 1, for `freedom` > 0 degrees of freedom [-].
/// @source{student1908}
[[nodiscard]] double student_quantile(double share, double freedom);

}  // namespace portwright::numerics
