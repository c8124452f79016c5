#pragma once
// Several readings of one thing, errors partly shared: the weights of their best mean.

#include <span>
#include <vector>

namespace portwright::numerics {

/// Weights (summing to 1) of the linear mean of least variance of n readings with covariance C (row-major, n x n):
/// w = C⁻¹ 1 / (1ᵀ C⁻¹ 1). Readings that would take a negative weight fall back to weights by their own variances.
/// @source{aitken1936, generalised least squares}
[[nodiscard]] std::vector<double> best_weights(std::span<const double> covariance, int n);

}  // namespace portwright::numerics
