#pragma once
// Saws of one model held against each other: how far they differ beyond what their readings' errors explain, and which
// of them stands apart. Inside the module only.

#include <cstddef>
#include <span>

namespace portwright::desk {

/// One figure of one saw: a value and one sigma of its own error, errors of different saws independent.
struct Measured {
  double value = 0.0;
  double sigma = 0.0;
};

/// What several saws have in common.
struct Between {
  double mean = 0.0;        ///< weighted by both kinds of variance
  double mean_sigma = 0.0;  ///< one sigma of the mean
  double spread = 0.0;      ///< one sigma between saws beyond the readings' errors; 0 when those explain all
};

/// Mean and spread of two saws or more by the estimator of DerSimonian and Laird: the excess of the weighted sum of
/// squares over its expectation. A spread is never below 0. One saw has its own value and no spread; none is a broken
/// contract (std::invalid_argument).
/// @source{memory, DerSimonian and Laird's moment estimator of the variance between studies}
[[nodiscard]] Between between(std::span<const Measured> saws);

/// One saw less the mean of all others, with the sigma of that difference: its own error, the others', and how far the
/// others are spread among themselves. At least two saws (std::invalid_argument).
[[nodiscard]] Measured apart(std::span<const Measured> saws, std::size_t which);

}  // namespace portwright::desk
