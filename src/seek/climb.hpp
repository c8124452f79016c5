#pragma once
// The greatest value of a smooth function within a space, and the point of a space that is nearest to another.

#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "seek/search.hpp"

namespace portwright::seek {

/// A condition may be missed by so much and a point still counts as inside, equalities above all.
inline constexpr double inside_by = 1e-6;

/// What is climbed, within the conditions of a space (its unit box is not among them: the box is here) and further
/// ones. Points may be longer than the space's amounts; it reads the first of them.
struct Hill {
  const Space& space;
  std::vector<double> least, most;  ///< the box, one each for every number of a point
  /// Value at a point, and its slope.
  std::function<double(const std::vector<double>& x, std::span<double> slope)> height;
  std::size_t further = 0;  ///< conditions beyond the space's, no less than 0 inside
  /// Fills their values and slopes, condition by condition.
  std::function<void(const std::vector<double>& x, std::span<double> values, std::span<double> slopes)> conditions = {};
  std::size_t looks = 150;  ///< points looked at, at most
  double fine = 1e-7;       ///< the way ends with steps of less in every number of a point
};

struct Top {
  std::vector<double> at;
  double height = 0.0;
};

/// The highest point inside that was come upon on the way up from `start`, by sequential quadratic programming; none
/// where no point inside was come upon. Finds a top, not the highest of several. Takes the space's curved conditions'
/// slopes by differences. Throws only what the
/// functions given throw. @source{kraft1988}
[[nodiscard]] std::optional<Top> climb(const Hill& hill, std::vector<double> start);

/// The point of the space and its unit box that is nearest to x, as near as can be found; none where none was found.
[[nodiscard]] std::optional<Design> nearest_inside(const Space& space, const Design& x);

}  // namespace portwright::seek
