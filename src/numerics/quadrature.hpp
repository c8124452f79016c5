#pragma once
// Gauss-Legendre quadrature with fixed nodes.

#include <array>

namespace portwright::numerics {

/// A node on [-1, 1] and its weight; the weights add up to 2.
struct QuadratureNode {
  double x = 0.0, weight = 0.0;
};

/// The nodes of the Gauss-Legendre rule of N points, ascending; exact for polynomials up to degree 2 N - 1.
/// Available for N = 4, 6, 8, 10, 12, 16, 20.
template <int N>
[[nodiscard]] const std::array<QuadratureNode, N>& gauss_legendre();

/// ∫ f dx over [from, to] by the rule of N points.
template <int N, class F>
[[nodiscard]] double integrate(F&& f, double from, double to) {
  const double middle = 0.5 * (from + to), half = 0.5 * (to - from);
  double sum = 0.0;
  for (const QuadratureNode& node : gauss_legendre<N>()) sum += node.weight * f(middle + half * node.x);
  return half * sum;
}

}  // namespace portwright::numerics
