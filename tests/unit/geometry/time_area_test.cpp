#include "geometry/time_area.hpp"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

namespace portwright::geometry {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double bore = 0.050;

Window rounded(double roof, double floor, double corner = 0.004) {
  WindowShape shape;
  shape.roof = roof;
  shape.floor = floor;
  shape.width = 0.028;
  shape.corner_roof = shape.corner_floor = corner;
  return Window::from_shape(shape, bore);
}

/// ∫ A dθ by the midpoint rule over 400,000 steps.
double by_steps(const CrankSlider& crank, const Window& window, OpenedBy by, double skirt, double from, double to) {
  const int steps = 400000;
  const double h = (to - from) / steps;
  double sum = 0.0;
  for (int k = 0; k < steps; ++k) sum += open_area(crank, window, by, skirt, from + (k + 0.5) * h);
  return sum * h;
}

TEST(time_area, crown_opens_what_lies_above_it_and_the_skirt_what_lies_below) {
  const CrankSlider crank(0.036, 0.065);
  const Window window = rounded(0.026, 0.036);
  EXPECT_EQ(open_area(crank, window, OpenedBy::crown, 0.0, 0.0), 0.0);
  EXPECT_EQ(open_area(crank, window, OpenedBy::crown, 0.0, pi), window.area());
  EXPECT_EQ(open_area(crank, window, OpenedBy::skirt, 0.020, 0.0), window.area());
  EXPECT_EQ(open_area(crank, window, OpenedBy::skirt, 0.020, pi), 0.0);
  const double angle = crank.angle_down(0.030);
  EXPECT_NEAR(open_area(crank, window, OpenedBy::crown, 0.0, angle), window.area_above(0.030), 1e-17);
  EXPECT_NEAR(open_area(crank, window, OpenedBy::skirt, 0.003, angle), window.area_below(0.033), 1e-17);
}

TEST(time_area, agrees_with_small_steps_for_both_edges_with_and_without_offset) {
  for (const double offset : {0.0, 0.0015, -0.0015}) {
    const CrankSlider crank(0.036, 0.065, offset);
    for (const double corner : {0.0, 0.003, 0.005}) {
      const Window window = rounded(0.026, 0.0362, corner);
      EXPECT_NEAR(
          angle_area(crank, window, OpenedBy::crown, 0.0) / by_steps(crank, window, OpenedBy::crown, 0.0, 0.0, 2 * pi),
          1.0, 1e-8);
      EXPECT_NEAR(angle_area(crank, window, OpenedBy::skirt, 0.022) /
                      by_steps(crank, window, OpenedBy::skirt, 0.022, 0.0, 2 * pi),
                  1.0, 1e-8);
    }
  }
}

TEST(time_area, agrees_with_small_steps_over_a_part_of_the_turn) {
  const CrankSlider crank(0.036, 0.065, 0.001);
  const Window window = rounded(0.026, 0.0362);
  const double whole = angle_area(crank, window, OpenedBy::crown, 0.0);
  for (const auto& [from, to] : {std::pair{1.0, 2.2}, {2.0, 4.1}, {2.9, 3.0}, {-1.2, 1.3}, {5.5, 7.4}}) {
    EXPECT_NEAR(angle_area(crank, window, OpenedBy::crown, 0.0, from, to),
                by_steps(crank, window, OpenedBy::crown, 0.0, from, to), 1e-8 * whole);
    EXPECT_NEAR(angle_area(crank, window, OpenedBy::skirt, 0.022, from, to),
                by_steps(crank, window, OpenedBy::skirt, 0.022, from, to), 1e-8 * whole);
  }
}

TEST(time_area, parts_of_the_turn_add_up) {
  const CrankSlider crank(0.036, 0.065, -0.001);
  const Window window = rounded(0.026, 0.036);
  const double whole = angle_area(crank, window, OpenedBy::crown, 0.0, 0.0, 2 * pi);
  EXPECT_NEAR(angle_area(crank, window, OpenedBy::crown, 0.0, 0.0, 2.3) +
                  angle_area(crank, window, OpenedBy::crown, 0.0, 2.3, 2 * pi),
              whole, 1e-9 * whole);
  EXPECT_NEAR(angle_area(crank, window, OpenedBy::crown, 0.0), whole, 1e-14 * whole);
  EXPECT_NEAR(angle_area(crank, window, OpenedBy::crown, 0.0, -2 * pi, 2 * pi), 2 * whole, 1e-12 * whole);
}

TEST(time_area, opening_and_closing_differ_when_the_pin_is_offset) {
  const CrankSlider plain(0.036, 0.065), offset(0.036, 0.065, 0.003);
  const Window window = rounded(0.026, 0.036);
  const auto half = [&](const CrankSlider& crank, double from, double to) {
    return angle_area(crank, window, OpenedBy::crown, 0.0, from, to);
  };
  EXPECT_NEAR(half(plain, 0.0, pi), half(plain, pi, 2 * pi), 1e-15);
  EXPECT_LT(half(offset, 0.0, offset.bdc()), 0.99 * half(offset, offset.bdc(), 2 * pi));
}

TEST(time_area, a_window_below_bdc_counts_only_what_the_crown_reaches) {
  const CrankSlider crank(0.036, 0.065);
  const Window window = rounded(0.030, 0.040);
  EXPECT_NEAR(
      angle_area(crank, window, OpenedBy::crown, 0.0) / by_steps(crank, window, OpenedBy::crown, 0.0, 0.0, 2 * pi), 1.0,
      1e-8);
  EXPECT_EQ(angle_area(crank, rounded(0.037, 0.045), OpenedBy::crown, 0.0), 0.0);
}

TEST(time_area, is_not_total_area_times_total_angle) {
  const CrankSlider crank(0.036, 0.065);
  const Window window = rounded(0.026, 0.036);
  const double duration = crank.angle_up(window.roof()) - crank.angle_down(window.roof());
  const double proper = angle_area(crank, window, OpenedBy::crown, 0.0);
  EXPECT_LT(proper, 0.75 * window.area() * duration);
  EXPECT_GT(proper, 0.40 * window.area() * duration);
}

TEST(time_area, of_a_traced_outline_agrees_with_its_shape) {
  const CrankSlider crank(0.036, 0.065, 0.001);
  const Window exact = rounded(0.026, 0.036);
  const auto traced = Window::from_outline(exact.polygons(1e-8)[0], 0.026);
  ASSERT_TRUE(traced);
  const double expected = angle_area(crank, exact, OpenedBy::crown, 0.0);
  EXPECT_NEAR(angle_area(crank, *traced, OpenedBy::crown, 0.0), expected, 1e-6 * expected);
}

TEST(time_area, nothing_comes_of_no_window) {
  EXPECT_EQ(angle_area(CrankSlider(0.036, 0.065), Window(), OpenedBy::skirt, 0.02), 0.0);
  EXPECT_EQ(open_area(CrankSlider(0.036, 0.065), Window(), OpenedBy::crown, 0.0, 3.0), 0.0);
}

}  // namespace
}  // namespace portwright::geometry
