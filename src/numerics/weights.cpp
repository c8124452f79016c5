#include "numerics/weights.hpp"

#include <Eigen/Dense>

namespace portwright::numerics {

std::vector<double> best_weights(std::span<const double> covariance, int n) {
  using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
  const Eigen::Map<const Matrix> c(covariance.data(), n, n);
  // Two readings with one and the same error leave C singular; a millionth of the mean variance parts them.
  const Matrix steady = c + Matrix::Identity(n, n) * (1e-6 * c.trace() / n + 1e-30);
  Eigen::VectorXd w = steady.ldlt().solve(Eigen::VectorXd::Ones(n));
  if (!w.allFinite() || w.minCoeff() < 0.0) w = c.diagonal().array().max(1e-30).inverse().matrix();
  w /= w.sum();
  return {w.data(), w.data() + n};
}

}  // namespace portwright::numerics
