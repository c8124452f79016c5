#include "geometry/skirt_profile.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

namespace portwright::geometry {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double bore = 0.050;

SkirtShape stepped() { return {.exhaust = 0.038, .side = 0.030, .intake = 0.036, .exhaust_width = 0.034}; }

Window window_of(double roof, double floor, double chord, double corner = 0.003) {
  WindowShape shape;
  shape.roof = roof;
  shape.floor = floor;
  shape.width = chord;
  shape.corner_roof = shape.corner_floor = corner;
  return Window::from_shape(shape, bore);
}

/// Area below the skirt's edge, by thin upright strips of a window without corners.
double below_by_strips(const SkirtProfile& skirt, double centre, double half, double roof, double floor, double drop) {
  const int strips = 400000;
  const double dx = 2 * half / strips;
  double sum = 0.0;
  for (int k = 0; k < strips; ++k)
    sum += dx * (floor - std::clamp(drop + skirt.length_at(centre - half + (k + 0.5) * dx), roof, floor));
  return sum;
}

TEST(skirt_profile, has_its_measured_lengths_at_their_places) {
  const SkirtProfile skirt(stepped(), bore);
  const double flat = 0.025 * std::asin(0.034 / bore);
  EXPECT_DOUBLE_EQ(skirt.length_at(0.0), 0.038);
  EXPECT_NEAR(skirt.length_at(flat), 0.038, 1e-15);
  EXPECT_NEAR(skirt.length_at(-flat), 0.038, 1e-15);
  EXPECT_NEAR(skirt.length_at(0.0125 * pi), 0.030, 1e-15);
  EXPECT_NEAR(skirt.length_at(-0.0125 * pi), 0.030, 1e-15);
  EXPECT_NEAR(skirt.length_at(0.025 * pi), 0.036, 1e-15);
  EXPECT_NEAR(skirt.length_at(-0.025 * pi), 0.036, 1e-15);
  EXPECT_NEAR(skirt.length_at(0.5 * (flat + 0.0125 * pi)), 0.034, 1e-15);
}

TEST(skirt_profile, closes_on_itself_after_one_turn) {
  const SkirtProfile skirt(stepped(), bore);
  for (int k = -40; k <= 40; ++k)
    EXPECT_NEAR(skirt.length_at(k * 0.002), skirt.length_at(k * 0.002 + skirt.circumference()), 1e-13);
}

TEST(skirt_profile, reach_sees_the_bends_between_two_places) {
  const SkirtProfile skirt(stepped(), bore);
  EXPECT_TRUE(skirt.reach(-0.01, 0.01).level());
  EXPECT_FALSE(skirt.reach(-0.02, 0.02).level());
  EXPECT_NEAR(skirt.reach(0.03, 0.05).least, 0.030, 1e-15);
  EXPECT_NEAR(skirt.reach(0.0, 0.079).greatest, 0.038, 1e-15);
  EXPECT_TRUE(skirt.reach(0.074, 0.083).level());  // across the seam opposite the exhaust
}

TEST(area_below_skirt, is_the_windows_own_law_where_the_skirt_is_level) {
  const SkirtProfile skirt(stepped(), bore);
  const Window window = window_of(0.030, 0.044, 0.028);
  for (const double drop : {-0.01, 0.0, 0.002, 0.005, 0.01})
    EXPECT_DOUBLE_EQ(area_below_skirt(window, 0.0, skirt, drop), window.area_below(drop + 0.038));
}

TEST(area_below_skirt, agrees_with_strips_where_the_edge_slants) {
  const SkirtProfile skirt(stepped(), bore);
  const Window window = window_of(0.028, 0.044, 0.020, 0.0);
  const double half = 0.5 * bore * std::asin(0.020 / bore);
  for (const double centre : {0.0, 0.015, 0.030, 0.0125 * pi, -0.03, 0.075, -0.078}) {
    for (const double drop : {0.0, 0.002, 0.006}) {
      const double expected = below_by_strips(skirt, centre, half, 0.028, 0.044, drop);
      EXPECT_NEAR(area_below_skirt(window, centre, skirt, drop), expected, 1e-6 * window.area())
          << centre << " " << drop;
    }
  }
}

TEST(area_below_skirt, is_mirrored_with_the_window) {
  const SkirtProfile skirt(stepped(), bore);
  const Window window = window_of(0.028, 0.044, 0.020);
  for (const double centre : {0.012, 0.025, 0.04}) {
    EXPECT_NEAR(area_below_skirt(window, centre, skirt, 0.002), area_below_skirt(window, -centre, skirt, 0.002),
                1e-6 * window.area());
  }
}

TEST(area_below_skirt, is_all_or_nothing_when_the_edge_is_clear_of_the_window) {
  const SkirtProfile skirt(stepped(), bore);
  const Window window = window_of(0.028, 0.044, 0.020);
  EXPECT_EQ(area_below_skirt(window, 0.03, skirt, -0.02), window.area());
  EXPECT_EQ(area_below_skirt(window, 0.03, skirt, 0.02), 0.0);
}

TEST(overlap_area, of_a_window_with_itself_is_its_area) {
  const Window window = window_of(0.028, 0.044, 0.020, 0.005);
  EXPECT_NEAR(overlap_area(window, 0.01, window, 0.01, pi * bore), window.area(), 1e-6 * window.area());
}

TEST(overlap_area, of_two_square_windows_is_a_rectangle) {
  const Window a = window_of(0.028, 0.044, 0.020, 0.0), b = window_of(0.040, 0.050, 0.012, 0.0);
  const double half_a = 0.5 * bore * std::asin(0.4), half_b = 0.5 * bore * std::asin(0.24);
  EXPECT_NEAR(overlap_area(a, 0.0, b, 0.012, pi * bore), (half_a + half_b - 0.012) * 0.004, 1e-6 * b.area());
  EXPECT_NEAR(overlap_area(b, 0.012, a, 0.0, pi * bore), (half_a + half_b - 0.012) * 0.004, 1e-6 * b.area());
  EXPECT_EQ(overlap_area(a, 0.0, b, 0.03, pi * bore), 0.0);
}

TEST(overlap_area, is_found_across_the_seam_of_the_wall) {
  const Window a = window_of(0.028, 0.044, 0.020, 0.0), b = window_of(0.028, 0.044, 0.020, 0.0);
  const double round = pi * bore, arc = bore * std::asin(0.4);
  EXPECT_NEAR(overlap_area(a, 0.5 * round - 0.004, b, -0.5 * round + 0.004, round), (arc - 0.008) * 0.016,
              1e-6 * a.area());
}

TEST(overlap_area, of_round_windows_is_a_lens) {
  WindowShape shape;
  shape.floor = 0.010;
  shape.width = bore * std::sin(0.010 / bore);
  shape.corner_roof = shape.corner_floor = 0.005;
  const Window window = Window::from_shape(shape, bore);
  const double lens = 2 * 25e-6 * (pi / 3) - 0.5 * 0.005 * std::sqrt(4 * 25e-6 - 25e-6);  // two circles a radius apart
  EXPECT_NEAR(overlap_area(window, 0.0, window, 0.005, pi * bore), lens, 1e-6 * window.area());
}

}  // namespace
}  // namespace portwright::geometry
