#include "draw/shape.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace portwright::draw {
namespace {

constexpr double pi = std::numbers::pi;

TEST(Shape, an_arc_keeps_its_centre_radius_and_sweep) {
  const Path path = arc({10, 20}, 5, 0.3, 1.9);
  const Arc back = arc_of(path.points[0], path.points[1].at);
  EXPECT_NEAR(back.centre.x, 10, 1e-12);
  EXPECT_NEAR(back.centre.y, 20, 1e-12);
  EXPECT_NEAR(back.radius, 5, 1e-12);
  EXPECT_NEAR(back.start, 0.3, 1e-12);
  EXPECT_NEAR(back.sweep, 1.9, 1e-12);
}

TEST(Shape, a_backward_arc_runs_against_the_clock) {
  const Path path = arc({0, 0}, 2, 1.0, -2.5);
  const Arc back = arc_of(path.points[0], path.points[1].at);
  EXPECT_NEAR(back.sweep, -2.5, 1e-12);
  EXPECT_NEAR(back.radius, 2, 1e-12);
}

TEST(Shape, a_flattened_arc_stays_within_the_tolerance) {
  const Path path = arc({0, 0}, 30, 0, 4.0);
  const auto points = flattened(path, 0.01);
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    const Point middle = 0.5 * (points[i] + points[i + 1]);
    EXPECT_NEAR(std::hypot(points[i].x, points[i].y), 30, 1e-9);
    EXPECT_GE(std::hypot(middle.x, middle.y), 30 - 0.0101);
  }
}

TEST(Shape, bounds_take_in_the_belly_of_an_arc) {
  const Box box = bounds(arc({0, 0}, 3, -pi / 4, pi / 2));
  EXPECT_NEAR(box.right, 3, 1e-12);
  EXPECT_NEAR(box.left, 3 * std::cos(pi / 4), 1e-12);
  EXPECT_NEAR(box.top, -3 * std::sin(pi / 4), 1e-12);
}

TEST(Shape, a_circle_is_as_wide_as_its_diameter) {
  const Box box = bounds(circle({4, 5}, 1.5));
  EXPECT_NEAR(box.width(), 3, 1e-12);
  EXPECT_NEAR(box.height(), 3, 1e-12);
}

TEST(Shape, corner_radius_is_cut_to_half_the_smaller_side) {
  const Path path = rounded_rectangle(0, 0, 10, 4, 9);
  const Arc corner = arc_of(path.points[1], path.points[2].at);
  EXPECT_NEAR(corner.radius, 2, 1e-12);
  EXPECT_NEAR(bounds(path).width(), 10, 1e-12);
}

TEST(Shape, turning_a_drawing_over_turns_its_arcs_over) {
  const Path path = placed(arc({0, 0}, 2, 0, pi / 2), {1.0, {0, 0}, true});
  const Arc back = arc_of(path.points[0], path.points[1].at);
  EXPECT_NEAR(back.sweep, -pi / 2, 1e-12);
  EXPECT_NEAR(back.centre.x, 0, 1e-12);
  EXPECT_NEAR(back.centre.y, 0, 1e-12);
}

TEST(Shape, inside_counts_holes_out) {
  const std::vector<std::vector<Point>> rings{flattened(rectangle(0, 0, 10, 10)), flattened(rectangle(4, 4, 2, 2))};
  EXPECT_TRUE(is_inside({2, 5}, rings));
  EXPECT_FALSE(is_inside({5, 5}, rings));
  EXPECT_FALSE(is_inside({11, 5}, rings));
}

TEST(Shape, a_line_over_a_hole_is_kept_in_two_pieces) {
  const std::vector<std::vector<Point>> rings{flattened(rectangle(0, 0, 10, 10)), flattened(rectangle(4, 4, 2, 2))};
  const auto kept = clipped({{-5, 5}, {15, 5}}, rings);
  ASSERT_EQ(kept.size(), 2U);
  EXPECT_NEAR(kept[0].points.front().at.x, 0, 1e-12);
  EXPECT_NEAR(kept[0].points.back().at.x, 4, 1e-12);
  EXPECT_NEAR(kept[1].points.front().at.x, 6, 1e-12);
  EXPECT_NEAR(kept[1].points.back().at.x, 10, 1e-12);
}

TEST(Shape, dashes_share_out_the_length_and_keep_arcs) {
  const std::vector<double> lengths{2.0, 1.0};
  const auto dashes = dashed(arc({0, 0}, 10, 0, pi / 2), lengths);
  ASSERT_EQ(dashes.size(), 6U);  // 15.7 mm of arc at 3 mm a turn
  for (std::size_t i = 0; i < 5; ++i) {
    const Arc piece = arc_of(dashes[i].points[0], dashes[i].points[1].at);
    EXPECT_NEAR(piece.radius, 10, 1e-9);
    EXPECT_NEAR(piece.radius * piece.sweep, 2.0, 1e-9);
  }
}

TEST(Shape, a_dash_goes_round_a_corner_in_one_piece) {
  const std::vector<double> lengths{3.0, 1.0};
  const auto dashes = dashed(polyline({{0, 0}, {2, 0}, {2, 5}}), lengths);
  ASSERT_EQ(dashes.front().points.size(), 3U);
  EXPECT_NEAR(dashes.front().points[2].at.y, 1.0, 1e-9);
}

}  // namespace
}  // namespace portwright::draw
