#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "numerics/normal.hpp"
#include "numerics/quadrature.hpp"
#include "numerics/root.hpp"
#include "numerics/student.hpp"

namespace portwright::numerics {
namespace {

template <int N>
void expect_exact_to_its_degree() {
  for (int degree = 0; degree <= 2 * N - 1; ++degree) {
    const double got = integrate<N>([degree](double x) { return std::pow(x, degree); }, 0.0, 2.0);
    EXPECT_NEAR(got / (std::pow(2.0, degree + 1) / (degree + 1)), 1.0, 1e-14) << N << " points, degree " << degree;
  }
  const double beyond = integrate<N>([](double x) { return std::pow(x, 2 * N); }, -1.0, 1.0);
  EXPECT_GT(2.0 / (2 * N + 1) - beyond, 0.0) << "a rule cannot be exact beyond its degree";
}

TEST(quadrature, is_exact_up_to_degree_two_n_less_one) {
  expect_exact_to_its_degree<4>();
  expect_exact_to_its_degree<6>();
  expect_exact_to_its_degree<8>();
  expect_exact_to_its_degree<10>();
  expect_exact_to_its_degree<12>();
}

TEST(quadrature, nodes_ascend_and_weights_add_up_to_two) {
  double sum = 0.0, before = -1.0;
  for (const QuadratureNode& node : gauss_legendre<20>()) {
    EXPECT_GT(node.x, before);
    before = node.x;
    sum += node.weight;
  }
  EXPECT_NEAR(sum, 2.0, 1e-14);
}

TEST(root, is_found_between_two_signs) {
  const auto root = find_root([](double x) { return std::cos(x) - x; }, 0.0, 1.0, 1e-14);
  ASSERT_TRUE(root);
  EXPECT_NEAR(std::cos(*root), *root, 1e-13);
}

TEST(root, is_found_where_the_slope_is_flat_or_steep) {
  EXPECT_NEAR(*find_root([](double x) { return std::pow(x - 0.3, 9); }, 0.0, 1.0, 1e-9), 0.3, 1e-3);
  EXPECT_NEAR(*find_root([](double x) { return std::tanh(1e6 * (x - 0.7)); }, 0.0, 1.0, 1e-12), 0.7, 1e-11);
}

TEST(root, at_an_end_is_that_end) {
  EXPECT_EQ(*find_root([](double x) { return x; }, 0.0, 1.0, 1e-12), 0.0);
  EXPECT_EQ(*find_root([](double x) { return x - 1.0; }, 0.0, 1.0, 1e-12), 1.0);
}

TEST(root, is_refused_without_two_signs) {
  EXPECT_FALSE(find_root([](double x) { return x * x + 1.0; }, -1.0, 1.0, 1e-12));
  EXPECT_FALSE(find_root([](double) { return std::nan(""); }, -1.0, 1.0, 1e-12));
}

TEST(normal, quantile_undoes_the_cdf) {
  for (double x = -8.0; x <= 5.0; x += 0.25) EXPECT_NEAR(normal_quantile(normal_cdf(x)), x, 1e-9);
  EXPECT_NEAR(normal_quantile(0.5), 0.0, 1e-16);
}

TEST(normal, has_the_tabled_values) {  // from memory: the usual table of the normal law
  EXPECT_NEAR(normal_cdf(1.0), 0.841344746068543, 1e-14);
  EXPECT_NEAR(normal_cdf(-3.0), 0.001349898031630, 1e-14);
  EXPECT_NEAR(normal_quantile(0.975), 1.959963984540054, 1e-14);
}

// Any printed table of Student's t, two-sided 5 %: 1, 10, 23 and 1,000 degrees of freedom.
TEST(student, quantiles_are_those_of_the_tables) {
  EXPECT_NEAR(student_quantile(0.975, 1), 12.706, 5e-4);
  EXPECT_NEAR(student_quantile(0.975, 10), 2.228, 5e-4);
  EXPECT_NEAR(student_quantile(0.975, 23), 2.069, 5e-4);
  EXPECT_NEAR(student_quantile(0.975, 1000), 1.962, 5e-4);
  EXPECT_NEAR(student_quantile(0.025, 10), -2.228, 5e-4);
}

}  // namespace
}  // namespace portwright::numerics
