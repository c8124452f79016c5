// Problems and their answers from Hock and Schittkowski, Test Examples for Nonlinear Programming Codes (1981), numbers
// 35, 43, 71 and 100; turned over, as they look for the least.
#include "seek/climb.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

namespace {

using portwright::seek::climb;
using portwright::seek::Design;
using portwright::seek::Hill;
using portwright::seek::nearest_inside;
using portwright::seek::Space;

using Function = std::function<double(const std::vector<double>&)>;

/// A height with slopes by differences; the problems are given as plain functions.
std::function<double(const std::vector<double>&, std::span<double>)> least_of(Function f) {
  return [f](const std::vector<double>& x, std::span<double> slope) {
    for (std::size_t j = 0; j < x.size(); ++j) {
      std::vector<double> up = x, down = x;
      up[j] += 1e-6;
      down[j] -= 1e-6;
      slope[j] = -(f(up) - f(down)) / 2e-6;
    }
    return -f(x);
  };
}

double two(double x) { return x * x; }

TEST(climb, problem_71_a_product_no_less_and_a_sum_of_squares_as_given) {
  Space space{4};
  space.no_less = space.equal = 1;
  space.curved = [](const Design& x, std::span<double> out) {
    out[0] = (x[0] * x[1] * x[2] * x[3] - 25.0) / 25.0;
    out[1] = (two(x[0]) + two(x[1]) + two(x[2]) + two(x[3]) - 40.0) / 40.0;
  };
  const Function f = [](const auto& x) { return x[0] * x[3] * (x[0] + x[1] + x[2]) + x[2]; };
  const Hill hill{space, std::vector(4, 1.0), std::vector(4, 5.0), least_of(f)};
  const auto top = climb(hill, {1.0, 5.0, 5.0, 1.0});
  ASSERT_TRUE(top);
  EXPECT_NEAR(top->height, -17.0140173, 1e-4);
  const std::vector<double> answer{1.0, 4.742999, 3.821151, 1.379408};
  for (std::size_t j = 0; j < 4; ++j) EXPECT_NEAR(top->at[j], answer[j], 1e-3);
}

TEST(climb, problem_43_three_curved_sides) {
  Space space{4};
  space.no_less = 3;
  space.curved = [](const Design& x, std::span<double> out) {
    out[0] = (8.0 - two(x[0]) - two(x[1]) - two(x[2]) - two(x[3]) - x[0] + x[1] - x[2] + x[3]) / 8.0;
    out[1] = (10.0 - two(x[0]) - 2.0 * two(x[1]) - two(x[2]) - 2.0 * two(x[3]) + x[0] + x[3]) / 10.0;
    out[2] = (5.0 - 2.0 * two(x[0]) - two(x[1]) - two(x[2]) - 2.0 * x[0] + x[1] + x[3]) / 5.0;
  };
  const Function f = [](const auto& x) {
    return two(x[0]) + two(x[1]) + 2.0 * two(x[2]) + two(x[3]) - 5.0 * x[0] - 5.0 * x[1] - 21.0 * x[2] + 7.0 * x[3];
  };
  const Hill hill{space, std::vector(4, -10.0), std::vector(4, 10.0), least_of(f)};
  const auto top = climb(hill, std::vector(4, 0.0));
  ASSERT_TRUE(top);
  EXPECT_NEAR(top->height, 44.0, 1e-3);
  const std::vector<double> answer{0.0, 1.0, 2.0, -1.0};
  for (std::size_t j = 0; j < 4; ++j) EXPECT_NEAR(top->at[j], answer[j], 1e-2);
}

TEST(climb, problem_35_a_flat_side) {
  Space space{3};
  space.sides = {{{-1.0, -1.0, -2.0}, 3.0}};
  const Function f = [](const auto& x) {
    return 9.0 - 8.0 * x[0] - 6.0 * x[1] - 4.0 * x[2] + 2.0 * two(x[0]) + 2.0 * two(x[1]) + two(x[2]) +
           2.0 * x[0] * x[1] + 2.0 * x[0] * x[2];
  };
  const Hill hill{space, std::vector(3, 0.0), std::vector(3, 10.0), least_of(f)};
  const auto top = climb(hill, std::vector(3, 0.5));
  ASSERT_TRUE(top);
  EXPECT_NEAR(top->height, -1.0 / 9.0, 1e-5);
  EXPECT_NEAR(top->at[0], 4.0 / 3.0, 1e-3);
  EXPECT_NEAR(top->at[1], 7.0 / 9.0, 1e-3);
  EXPECT_NEAR(top->at[2], 4.0 / 9.0, 1e-3);
}

TEST(climb, problem_100_conditions_beyond_the_space_s_own) {
  const Space space{7};
  const Function f = [](const auto& x) {
    return two(x[0] - 10.0) + 5.0 * two(x[1] - 12.0) + std::pow(x[2], 4) + 3.0 * two(x[3] - 11.0) +
           10.0 * std::pow(x[4], 6) + 7.0 * two(x[5]) + std::pow(x[6], 4) - 4.0 * x[5] * x[6] - 10.0 * x[5] -
           8.0 * x[6];
  };
  Hill hill{space, std::vector(7, -10.0), std::vector(7, 10.0), least_of(f)};
  hill.further = 4;
  hill.conditions = [](const std::vector<double>& x, std::span<double> values, std::span<double> slopes) {
    values[0] = 127.0 - 2.0 * two(x[0]) - 3.0 * std::pow(x[1], 4) - x[2] - 4.0 * two(x[3]) - 5.0 * x[4];
    values[1] = 282.0 - 7.0 * x[0] - 3.0 * x[1] - 10.0 * two(x[2]) - x[3] + x[4];
    values[2] = 196.0 - 23.0 * x[0] - two(x[1]) - 6.0 * two(x[5]) + 8.0 * x[6];
    values[3] = -4.0 * two(x[0]) - two(x[1]) + 3.0 * x[0] * x[1] - 2.0 * two(x[2]) - 5.0 * x[5] + 11.0 * x[6];
    const double by[4][7] = {{-4.0 * x[0], -12.0 * std::pow(x[1], 3), -1.0, -8.0 * x[3], -5.0, 0.0, 0.0},
                             {-7.0, -3.0, -20.0 * x[2], -1.0, 1.0, 0.0, 0.0},
                             {-23.0, -2.0 * x[1], 0.0, 0.0, 0.0, -12.0 * x[5], 8.0},
                             {-8.0 * x[0] + 3.0 * x[1], -2.0 * x[1] + 3.0 * x[0], -4.0 * x[2], 0.0, 0.0, -5.0, 11.0}};
    for (std::size_t c = 0; c < 4; ++c)
      for (std::size_t j = 0; j < 7; ++j) slopes[c * 7 + j] = by[c][j];
  };
  const auto top = climb(hill, {1.0, 2.0, 0.0, 4.0, 0.0, 1.0, 1.0});
  ASSERT_TRUE(top);
  EXPECT_NEAR(top->height, -680.6300573, 1e-2);
}

TEST(climb, the_top_in_a_corner_of_the_box_is_the_corner) {
  const Space space{3};
  const Function f = [](const auto& x) { return x[0] - 2.0 * x[1] + 0.5 * x[2]; };
  const auto top = climb({space, std::vector(3, 0.0), std::vector(3, 1.0), least_of(f)}, std::vector(3, 0.5));
  ASSERT_TRUE(top);
  EXPECT_EQ(top->at, (std::vector{0.0, 1.0, 0.0}));
}

TEST(climb, ground_that_is_not_a_number_anywhere_is_no_top) {
  const Space space{2};
  const Hill hill{space, std::vector(2, 0.0), std::vector(2, 1.0), [](const auto&, std::span<double> slope) {
                    std::fill(slope.begin(), slope.end(), std::nan(""));
                    return std::nan("");
                  }};
  EXPECT_FALSE(climb(hill, {0.5, 0.5}));
}

TEST(climb, equalities_that_follow_from_each_other_do_not_stop_it) {
  Space space{2};
  space.equal = 3;
  space.curved = [](const Design& x, std::span<double> out) {
    out[0] = x[0] + x[1] - 1.0;
    out[1] = 2.0 * (x[0] + x[1] - 1.0);
    out[2] = two(x[0] + x[1]) - 1.0;
  };
  const Function f = [](const auto& x) { return two(x[0] - 0.8); };
  const auto top = climb({space, std::vector(2, 0.0), std::vector(2, 1.0), least_of(f)}, {0.1, 0.1});
  ASSERT_TRUE(top);
  EXPECT_NEAR(top->at[0], 0.8, 1e-3);
  EXPECT_NEAR(top->at[1], 0.2, 1e-3);
}

TEST(nearest_inside, a_point_inside_stays) {
  Space space{2};
  space.sides = {{{1.0, 1.0}, -0.5}};
  const auto at = nearest_inside(space, {0.4, 0.3});
  ASSERT_TRUE(at);
  EXPECT_NEAR((*at)[0], 0.4, 1e-6);
  EXPECT_NEAR((*at)[1], 0.3, 1e-6);
}

TEST(nearest_inside, a_point_outside_comes_to_the_foot_of_its_perpendicular) {
  Space flat{2};
  flat.sides = {{{-1.0, -1.0}, 1.0}};
  const auto foot = nearest_inside(flat, {0.9, 0.7});
  ASSERT_TRUE(foot);
  EXPECT_NEAR((*foot)[0], 0.6, 1e-5);
  EXPECT_NEAR((*foot)[1], 0.4, 1e-5);
  Space circle{2};
  circle.no_less = 1;
  circle.curved = [](const Design& x, std::span<double> out) { out[0] = 0.25 - two(x[0]) - two(x[1]); };
  const auto edge = nearest_inside(circle, {0.8, 0.6});
  ASSERT_TRUE(edge);
  EXPECT_NEAR((*edge)[0], 0.4, 1e-5);
  EXPECT_NEAR((*edge)[1], 0.3, 1e-5);
  EXPECT_GE(circle.worst(*edge), -portwright::seek::inside_by);
}

TEST(nearest_inside, an_empty_space_has_no_point) {
  Space space{2};
  space.sides = {{{1.0, 1.0}, -3.0}};
  EXPECT_FALSE(nearest_inside(space, {0.5, 0.5}));
}

}  // namespace
