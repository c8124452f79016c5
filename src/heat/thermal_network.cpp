#include "heat/thermal_network.hpp"

#include <Eigen/SparseCholesky>
#include <algorithm>
#include <cmath>

namespace portwright::heat {

namespace {

using Matrix = Eigen::SparseMatrix<double>;
using Vector = Eigen::VectorXd;
using Solver = Eigen::SimplicialLDLT<Matrix, Eigen::Lower, Eigen::AMDOrdering<int>>;

}  // namespace

struct ThermalNetwork::System {
  Matrix a;
  Vector b;
};

int ThermalNetwork::add(double capacity) {
  capacity_.push_back(capacity);
  source_.push_back(0.0);
  return size() - 1;
}

void ThermalNetwork::couple(int a, int b, double conductance) {
  if (conductance > 0.0) links_.push_back({a, b, conductance});
}

int ThermalNetwork::to_bath(int node, double conductance, double temperature) {
  baths_.push_back({node, conductance, temperature});
  return static_cast<int>(baths_.size()) - 1;
}

void ThermalNetwork::source(int node, double heat) { source_[static_cast<std::size_t>(node)] += heat; }

double ThermalNetwork::to_bath_heat(int link, const std::vector<double>& T) const {
  const Bath& bath = baths_[static_cast<std::size_t>(link)];
  return bath.conductance * (T[static_cast<std::size_t>(bath.node)] - bath.temperature);
}

/// Lower half of the matrix and the right-hand side; `per_step` is 1 / step [1/s], 0 for the steady state.
ThermalNetwork::System ThermalNetwork::system(double per_step) const {
  const int n = size();
  System out{Matrix(n, n), Vector::Zero(n)};
  std::vector<double> diagonal(static_cast<std::size_t>(n), 0.0);
  std::vector<Eigen::Triplet<double>> entries;
  entries.reserve(links_.size() + capacity_.size());
  for (const Link& link : links_) {
    diagonal[static_cast<std::size_t>(link.a)] += link.conductance;
    diagonal[static_cast<std::size_t>(link.b)] += link.conductance;
    entries.emplace_back(std::max(link.a, link.b), std::min(link.a, link.b), -link.conductance);
  }
  for (const Bath& bath : baths_) {
    diagonal[static_cast<std::size_t>(bath.node)] += bath.conductance;
    out.b[bath.node] += bath.conductance * bath.temperature;
  }
  for (int i = 0; i < n; ++i) {
    const auto k = static_cast<std::size_t>(i);
    out.b[i] += source_[k];
    entries.emplace_back(i, i, diagonal[k] + per_step * capacity_[k]);
  }
  out.a.setFromTriplets(entries.begin(), entries.end());
  return out;
}

struct ThermalNetwork::Order::Kept {
  Solver solver;
  std::vector<int> outer, inner;  ///< the pattern that it was found for

  void fit(const Matrix& a) {
    const std::vector<int> columns(a.outerIndexPtr(), a.outerIndexPtr() + a.outerSize() + 1);
    const std::vector<int> rows(a.innerIndexPtr(), a.innerIndexPtr() + a.nonZeros());
    if (columns == outer && rows == inner) return;
    solver.analyzePattern(a);
    outer = columns;
    inner = rows;
  }
};

ThermalNetwork::Order::Order() : kept_(std::make_unique<Kept>()) {}
ThermalNetwork::Order::~Order() = default;
ThermalNetwork::Order::Order(Order&&) noexcept = default;
ThermalNetwork::Order& ThermalNetwork::Order::operator=(Order&&) noexcept = default;

base::Result<std::vector<double>> ThermalNetwork::steady() const {
  Order order;
  return steady(order);
}

base::Result<std::vector<double>> ThermalNetwork::steady(Order& order) const {
  const System system = this->system(0.0);
  order.kept_->fit(system.a);
  Solver& solver = order.kept_->solver;
  solver.factorize(system.a);
  const auto broken = [] {
    return base::fail(base::ErrorCode::fault, "A part of the cylinder has nowhere to give its heat to.");
  };
  if (solver.info() != Eigen::Success) return broken();
  Vector T = solver.solve(system.b);
  const Vector left = system.b - system.a.selfadjointView<Eigen::Lower>() * T;
  T += solver.solve(left);
  if (!T.allFinite()) return broken();
  return std::vector<double>(T.data(), T.data() + T.size());
}

Balance ThermalNetwork::balance(const std::vector<double>& T) const {
  Balance out;
  const auto count = [&](double heat) { (heat > 0.0 ? out.in : out.out) += std::abs(heat); };
  for (const double heat : source_) count(heat);
  for (const Bath& bath : baths_) count(bath.conductance * (bath.temperature - T[static_cast<std::size_t>(bath.node)]));
  return out;
}

struct ThermalNetwork::March::Factors {
  Solver solver;
  Vector b, held;
};

ThermalNetwork::March::March(const ThermalNetwork& network, double step) : factors_(std::make_unique<Factors>()) {
  const System system = network.system(1.0 / step);
  factors_->solver.compute(system.a);
  factors_->b = system.b;
  factors_->held = Vector::Map(network.capacity_.data(), network.size()) / step;
}
ThermalNetwork::March::~March() = default;
ThermalNetwork::March::March(March&&) noexcept = default;

void ThermalNetwork::March::step(std::vector<double>& T) const {
  auto now = Vector::Map(T.data(), static_cast<Eigen::Index>(T.size()));
  const Vector b = factors_->b + factors_->held.cwiseProduct(now);
  now = factors_->solver.solve(b);
}

}  // namespace portwright::heat
