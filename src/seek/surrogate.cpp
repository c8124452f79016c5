#include "seek/surrogate.hpp"

#include <algorithm>
#include <cmath>

#include <Eigen/Dense>

namespace portwright::seek {
namespace {

using Vector = Eigen::VectorXd;
using Matrix = Eigen::MatrixXd;
using Eigen::Index;

constexpr double too_thin = 1e-5;      // spread of the points in a direction that tells no slope, against the greatest
constexpr double least_ridge = 1e-12;  // against the greatest stiffness: keeps points that coincide apart
constexpr double most_ridge = 1e6;     // against the greatest stiffness: there only the plane is left

/// Bends that the points can tell, each with its stiffness: the distances cubed, seen apart from the planes.
struct Bends {
  Matrix shape;      // of the weights, bend by bend
  Vector stiffness;  // 0 or more, least first
};

Bends bends_of(const Matrix& cubes, const Eigen::CompleteOrthogonalDecomposition<Matrix>& planes) {
  const Index n = cubes.rows(), left = n - planes.rank();
  if (left <= 0) return {Matrix(n, 0), Vector(0)};
  const Matrix all = planes.householderQ() * Matrix::Identity(n, n);
  const Matrix apart = all.rightCols(left);
  const Matrix within = apart.transpose() * cubes * apart;
  const Eigen::SelfAdjointEigenSolver<Matrix> solved(0.5 * (within + within.transpose()));
  return {apart * solved.eigenvectors(), solved.eigenvalues().cwiseMax(0.0)};
}

/// The greatest ridge that leaves points no farther off than the noise. How far off grows with the ridge.
double ridge_of(const Bends& bends, const Vector& parts, double noise, Index points) {
  const double scale = std::max(bends.stiffness.maxCoeff(), 1e-30);
  const double allowed = noise * noise * static_cast<double>(points);
  const auto off = [&](double ridge) {
    return (parts.array() * ridge / (bends.stiffness.array() + ridge)).matrix().squaredNorm();
  };
  double low = std::log(least_ridge * scale), high = std::log(most_ridge * scale);
  if (off(std::exp(low)) >= allowed) return std::exp(low);
  if (off(std::exp(high)) <= allowed) return std::exp(high);
  for (int halving = 0; halving < 40; ++halving) {
    const double middle = 0.5 * (low + high);
    (off(std::exp(middle)) <= allowed ? low : high) = middle;
  }
  return std::exp(low);
}

Matrix cubes_of(const Matrix& x) {
  Matrix out(x.rows(), x.rows());
  for (Index i = 0; i < x.rows(); ++i)
    for (Index j = 0; j <= i; ++j) out(i, j) = out(j, i) = std::pow((x.row(i) - x.row(j)).squaredNorm(), 1.5);
  return out;
}

}  // namespace

Surrogate::Surrogate(std::span<const Design> at, const std::vector<std::vector<double>>& figures,
                     std::span<const double> noise)
    : amounts_(at.front().size()), figures_(figures.size()) {
  const auto points = static_cast<Index>(at.size()), n = static_cast<Index>(amounts_);
  Matrix x(points, n);
  for (Index i = 0; i < points; ++i)
    for (Index j = 0; j < n; ++j) x(i, j) = at[static_cast<std::size_t>(i)][static_cast<std::size_t>(j)];
  const Vector middle = x.colwise().mean();
  middle_.assign(middle.data(), middle.data() + n);
  for (const Design& one : at) points_.insert(points_.end(), one.begin(), one.end());

  // A plane's columns: 1, and the places about their middle.
  Matrix columns(points, n + 1);
  columns.col(0).setOnes();
  columns.rightCols(n) = x.rowwise() - middle.transpose();
  Eigen::CompleteOrthogonalDecomposition<Matrix> planes;
  planes.setThreshold(too_thin);
  planes.compute(columns);
  const Matrix cubes = cubes_of(x);
  const Bends bends = bends_of(cubes, planes);

  weights_.assign(at.size() * figures_, 0.0);
  for (std::size_t k = 0; k < figures_; ++k) {
    const Vector f = Eigen::Map<const Vector>(figures[k].data(), points);
    Vector weights = Vector::Zero(points);
    if (bends.stiffness.size() > 0) {
      const Vector parts = bends.shape.transpose() * f;
      const double ridge = ridge_of(bends, parts, noise[k], points);
      weights = bends.shape * (parts.array() / (bends.stiffness.array() + ridge)).matrix();
    }
    // With bent and missed parts taken away, what is left is a plane.
    const Vector plane = planes.solve(f - cubes * weights);
    level_.push_back(plane(0));
    tilt_.insert(tilt_.end(), plane.data() + 1, plane.data() + 1 + n);
    for (std::size_t i = 0; i < at.size(); ++i) weights_[i * figures_ + k] = weights(static_cast<Index>(i));
  }
}

void Surrogate::at(std::span<const double> x, std::span<double> values, std::span<double> slopes) const {
  const std::size_t n = amounts_, m = figures_;
  for (std::size_t k = 0; k < m; ++k) {
    values[k] = level_[k];
    for (std::size_t j = 0; j < n; ++j) values[k] += tilt_[k * n + j] * (x[j] - middle_[j]);
  }
  if (!slopes.empty()) std::copy(tilt_.begin(), tilt_.end(), slopes.begin());
  std::vector<double> away(n);
  for (std::size_t i = 0; i * n < points_.size(); ++i) {
    double square = 0.0;
    for (std::size_t j = 0; j < n; ++j) {
      away[j] = x[j] - points_[i * n + j];
      square += away[j] * away[j];
    }
    const double distance = std::sqrt(square);
    const double* weight = &weights_[i * m];
    for (std::size_t k = 0; k < m; ++k) {
      values[k] += weight[k] * distance * square;
      if (slopes.empty()) continue;
      const double by = 3.0 * weight[k] * distance;
      for (std::size_t j = 0; j < n; ++j) slopes[k * n + j] += by * away[j];
    }
  }
}

}  // namespace portwright::seek
