#include "numerics/quadrature.hpp"

#include <boost/math/quadrature/gauss.hpp>

namespace portwright::numerics {

namespace {

template <int N>
std::array<QuadratureNode, N> make_nodes() {
  static_assert(N % 2 == 0);  // Boost gives the nodes right of 0, nearest first
  using Rule = boost::math::quadrature::gauss<double, N>;
  std::array<QuadratureNode, N> nodes{};
  for (int k = 0; k < N / 2; ++k) {
    const double x = Rule::abscissa()[k], weight = Rule::weights()[k];
    nodes[N / 2 + k] = {x, weight};
    nodes[N / 2 - 1 - k] = {-x, weight};
  }
  return nodes;
}

}  // namespace

template <int N>
const std::array<QuadratureNode, N>& gauss_legendre() {
  static const std::array<QuadratureNode, N> nodes = make_nodes<N>();
  return nodes;
}

template const std::array<QuadratureNode, 4>& gauss_legendre<4>();
template const std::array<QuadratureNode, 6>& gauss_legendre<6>();
template const std::array<QuadratureNode, 8>& gauss_legendre<8>();
template const std::array<QuadratureNode, 10>& gauss_legendre<10>();
template const std::array<QuadratureNode, 12>& gauss_legendre<12>();
template const std::array<QuadratureNode, 16>& gauss_legendre<16>();
template const std::array<QuadratureNode, 20>& gauss_legendre<20>();

}  // namespace portwright::numerics
