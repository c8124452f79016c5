#include "geometry/window.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

namespace portwright::geometry {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double bore = 0.050;

/// A chord that unrolls to the given arc [m].
double chord_of(double arc) { return bore * std::sin(arc / bore); }

WindowShape plain(double width = chord_of(0.028)) {
  WindowShape shape;
  shape.roof = 0.0259;
  shape.floor = 0.0358;
  shape.width = width;
  return shape;
}

Window build(const WindowShape& shape) {
  ShapeFault fault = ShapeFault::no_width;
  const Window window = Window::from_shape(shape, bore, &fault);
  EXPECT_EQ(fault, ShapeFault::none);
  return window;
}

ShapeFault fault_of(const WindowShape& shape) {
  ShapeFault fault = ShapeFault::none;
  const Window window = Window::from_shape(shape, bore, &fault);
  EXPECT_EQ(window.empty(), fault != ShapeFault::none);
  return fault;
}

/// Area above a level by adding up widths, 200,000 strips to a stretch between levels.
double area_by_strips(const Window& window, double level) {
  double sum = 0.0;
  const auto levels = window.levels();
  for (std::size_t i = 0; i + 1 < levels.size(); ++i) {
    const double top = levels[i], bottom = std::min(level, levels[i + 1]);
    const int strips = 200000;
    if (bottom <= top) break;
    const double h = (bottom - top) / strips;
    for (int k = 0; k < strips; ++k) sum += h * window.width_at(top + (k + 0.5) * h);
  }
  return sum;
}

double shoelace(const std::vector<Point>& points) {
  double twice = 0.0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const Point a = points[i], b = points[(i + 1) % points.size()];
    twice += a.x * b.y - b.x * a.y;
  }
  return 0.5 * twice;
}

double polygon_area(const Window& window, double tolerance) {
  double area = 0.0;
  for (const auto& loop : window.polygons(tolerance)) area += shoelace(loop);
  return area;
}

TEST(window, width_is_a_chord_and_the_area_is_on_the_unrolled_wall) {
  const Window window = build(plain(0.028));
  EXPECT_NEAR(window.area(), bore * std::asin(0.028 / bore) * 0.0099, 1e-18);
  EXPECT_GT(window.area(), 0.028 * 0.0099 * 1.05);
}

TEST(window, rounded_corners_take_off_what_the_circles_leave) {
  WindowShape shape = plain();
  shape.corner_roof = 0.005;
  shape.corner_floor = 0.003;
  EXPECT_NEAR(build(shape).area(), 0.028 * 0.0099 - (2 - pi / 2) * (25e-6 + 9e-6), 1e-18);
}

TEST(window, half_circle_over_half_circle_is_a_stadium) {
  WindowShape shape = plain(chord_of(0.010));
  shape.floor = shape.roof + 0.014;
  shape.corner_roof = shape.corner_floor = 0.005;
  const Window window = build(shape);
  EXPECT_NEAR(window.area(), 0.010 * 0.004 + pi * 25e-6, 1e-17);
  EXPECT_NEAR(window.area_above(shape.roof + 0.005), pi / 2 * 25e-6, 1e-17);
  EXPECT_NEAR(window.area_above(shape.roof + 0.0025), 25e-6 * (pi / 3 - std::sqrt(3.0) / 4), 1e-17);
  EXPECT_NEAR(window.width_at(shape.roof + 0.0025), 0.010 * std::sqrt(0.75), 1e-16);
}

TEST(window, arched_roof_is_a_segment_of_a_circle_over_a_rectangle) {
  WindowShape shape = plain();
  shape.roof_arch = 0.003;
  const double r = (0.014 * 0.014 + 0.003 * 0.003) / 0.006, half_angle = std::asin(0.014 / r);
  const double segment = r * r * (half_angle - std::sin(half_angle) * std::cos(half_angle));
  const Window window = build(shape);
  EXPECT_NEAR(window.area(), 0.028 * (0.0099 - 0.003) + segment, 1e-9 * window.area());
  EXPECT_NEAR(window.area_above(shape.roof + 0.003), segment, 1e-9 * segment);
}

TEST(window, an_arch_of_half_the_width_is_a_half_circle) {
  WindowShape shape = plain(chord_of(0.016));
  shape.roof_arch = 0.008;
  EXPECT_NEAR(build(shape).area(), 0.016 * 0.0019 + pi / 2 * 64e-6, 1e-16);
}

TEST(window, a_hardly_arched_roof_keeps_its_digits) {
  for (const double arch : {2e-9, 1e-8, 1e-6, 1e-4}) {
    WindowShape shape = plain();
    shape.roof_arch = arch;
    const double r = (0.014 * 0.014 + arch * arch) / (2 * arch);
    const double by_series =
        0.028 * (0.0099 - arch) + 2.0 / 3.0 * 0.028 * arch * (1 + 0.2 * arch * arch / (0.014 * 0.014));
    EXPECT_NEAR(build(shape).area() / by_series, 1.0, 1e-9) << "radius " << r;
  }
}

TEST(window, sloped_roof_is_a_triangle_over_a_rectangle) {
  WindowShape shape = plain();
  shape.roof_slope = 10.0 * pi / 180;
  const double rise = 0.028 * std::tan(shape.roof_slope);
  const Window window = build(shape);
  EXPECT_NEAR(window.area(), 0.028 * (0.0099 - rise) + 0.5 * 0.028 * rise, 1e-9 * window.area());
  EXPECT_NEAR(window.extent(shape.roof, shape.roof + 1e-4).right, 0.014, 1e-15);
  EXPECT_GT(window.extent(shape.roof, shape.roof + 1e-4).left, 0.013);
}

TEST(window, a_rounded_high_corner_lies_at_the_roof) {
  WindowShape shape = plain();
  shape.roof_slope = 15.0 * pi / 180;
  shape.corner_roof = 0.004;
  const Window window = build(shape);
  double highest = 1.0;
  for (const auto& loop : window.polygons(1e-7))
    for (const Point& p : loop) highest = std::min(highest, p.y);
  EXPECT_NEAR(highest, shape.roof, 1e-15);
  EXPECT_NEAR(window.extent(shape.roof, shape.roof).left, 0.010, 1e-9);  // the top of the high corner's circle
}

TEST(window, sloped_corner_takes_off_what_the_tangent_circle_leaves) {
  // Between two tangents that meet at an angle β a circle of radius ρ leaves ρ² (cot(β/2) - (π - β)/2).
  WindowShape shape = plain();
  shape.floor = 0.0458;
  shape.roof_slope = 12.0 * pi / 180;
  shape.corner_roof = 0.004;
  const auto left_over = [&](double beta) { return 16e-6 * (1 / std::tan(beta / 2) - (pi - beta) / 2); };
  const double high = pi / 2 - shape.roof_slope, low = pi / 2 + shape.roof_slope;
  const double sharp_above = 0.004 * (1 / std::tan(high / 2) - 1);  // sharp corner above the circle's top
  const double rise = 0.028 * std::tan(shape.roof_slope);
  const double sharp = 0.028 * (0.0199 + sharp_above) - 0.5 * 0.028 * rise;
  EXPECT_NEAR(build(shape).area(), sharp - left_over(high) - left_over(low), 1e-9 * sharp);
}

TEST(window, opposite_slopes_are_mirror_images) {
  WindowShape shape = plain();
  shape.corner_roof = 0.003;
  shape.corner_floor = 0.002;
  shape.roof_slope = 0.12;
  shape.roof_arch = 0.001;
  const Window a = build(shape);
  shape.roof_slope = -0.12;
  const Window b = build(shape);
  for (int k = 0; k <= 50; ++k) {
    const double level = shape.roof + k * 0.0099 / 50;
    EXPECT_NEAR(a.area_above(level), b.area_above(level), 1e-16);
    EXPECT_NEAR(a.extent(shape.roof, level).left, -b.extent(shape.roof, level).right, 1e-12);
  }
}

TEST(window, a_bridge_takes_its_own_area_and_leaves_two_loops) {
  WindowShape shape = plain();
  shape.bridge = chord_of(0.004);
  shape.bridge_at = 0.001;
  const Window window = build(shape);
  EXPECT_NEAR(window.area(), (0.028 - 0.004) * 0.0099, 1e-17);
  EXPECT_EQ(window.chains().size(), 2u);
  EXPECT_NEAR(window.width_at(0.030), 0.024, 1e-16);
  EXPECT_NEAR(window.extent().left, -0.014, 1e-16);
  EXPECT_NEAR(window.extent().right, 0.014, 1e-16);
}

TEST(window, corners_beside_the_bridge_take_the_outer_radii_where_they_fit) {
  WindowShape shape = plain();
  shape.bridge = chord_of(0.004);
  shape.corner_roof = 0.004;
  shape.corner_floor = 0.003;
  EXPECT_NEAR(build(shape).area(), 0.024 * 0.0099 - 2 * (2 - pi / 2) * (16e-6 + 9e-6), 1e-17);
  shape.corner_floor = 0.0;
  shape.corner_roof = 0.008;  // 4 mm are left of each side's 12
  EXPECT_NEAR(build(shape).area(), 0.024 * 0.0099 - (2 - pi / 2) * (64e-6 + 16e-6), 1e-17);
}

TEST(window, area_law_agrees_with_strips_for_every_kind_of_roof) {
  for (const double slope : {0.0, 0.1, -0.15}) {
    for (const double arch : {0.0, 0.0015}) {
      for (const double bridge : {0.0, 0.004}) {
        WindowShape shape = plain();
        shape.roof_slope = slope;
        shape.roof_arch = arch;
        shape.bridge = bridge;
        shape.bridge_at = 0.5 * bridge;
        shape.corner_roof = 0.002;
        shape.corner_floor = 0.0015;
        const Window window = build(shape);
        for (const double part : {0.05, 0.2, 0.5, 0.9, 1.0}) {
          const double level = shape.roof + part * 0.0099;
          EXPECT_NEAR(window.area_above(level), area_by_strips(window, level), 2e-9 * window.area());
        }
        EXPECT_NEAR(window.area(), polygon_area(window, 1e-9), 1e-6 * window.area());
      }
    }
  }
}

TEST(window, nothing_is_open_above_the_roof_and_all_below_the_floor) {
  const Window window = build(plain());
  EXPECT_EQ(window.area_above(0.0259), 0.0);
  EXPECT_EQ(window.area_above(-1.0), 0.0);
  EXPECT_EQ(window.area_above(0.0358), window.area());
  EXPECT_EQ(window.area_below(0.0358), 0.0);
  EXPECT_EQ(window.area_below(0.0), window.area());
  EXPECT_EQ(window.width_at(0.0258), 0.0);
  EXPECT_EQ(window.width_at(0.0359), 0.0);
}

TEST(window, moving_it_down_moves_everything_and_changes_nothing) {
  WindowShape shape = plain();
  shape.corner_roof = 0.004;
  shape.roof_slope = 0.1;
  const Window window = build(shape), moved = window.moved_down(0.0005).moved_down(-0.0012);
  EXPECT_NEAR(moved.roof(), 0.0252, 1e-16);
  EXPECT_NEAR(moved.floor(), 0.0351, 1e-16);
  EXPECT_EQ(moved.area(), window.area());
  for (int k = 0; k <= 20; ++k) {
    const double level = 0.0259 + k * 0.0005;
    EXPECT_NEAR(moved.area_above(level - 0.0007), window.area_above(level), 1e-17);
  }
  EXPECT_NEAR(moved.chains()[0][0].from.y, window.chains()[0][0].from.y - 0.0007, 1e-16);
  EXPECT_NEAR(moved.levels()[1], window.levels()[1] - 0.0007, 1e-16);
}

TEST(window, chains_are_closed_and_tangent_at_their_arcs) {
  WindowShape shape = plain();
  shape.corner_roof = shape.corner_floor = 0.003;
  shape.roof_slope = 0.12;
  shape.roof_arch = 0.001;
  for (const auto& chain : build(shape).chains()) {
    for (std::size_t i = 0; i < chain.size(); ++i) {
      const Piece& piece = chain[i];
      const Piece& next = chain[(i + 1) % chain.size()];
      EXPECT_EQ(piece.to, next.from);
      if (piece.radius == 0.0) continue;
      EXPECT_NEAR(std::hypot(piece.from.x - piece.centre.x, piece.from.y - piece.centre.y), piece.radius, 1e-14);
      EXPECT_NEAR(std::hypot(piece.to.x - piece.centre.x, piece.to.y - piece.centre.y), piece.radius, 1e-14);
      if (next.radius > 0.0) {  // tangent: the centres and the common point lie on one line
        const double cross = (piece.to.x - piece.centre.x) * (piece.to.y - next.centre.y) -
                             (piece.to.y - piece.centre.y) * (piece.to.x - next.centre.x);
        EXPECT_NEAR(cross, 0.0, 1e-16);
      }
    }
  }
}

TEST(window, faults_are_named) {
  WindowShape shape = plain();
  shape.floor = shape.roof;
  EXPECT_EQ(fault_of(shape), ShapeFault::floor_above_roof);
  EXPECT_EQ(fault_of(plain(0.0)), ShapeFault::no_width);
  EXPECT_EQ(fault_of(plain(0.0501)), ShapeFault::wider_than_bore);
  shape = plain();
  shape.corner_roof = 0.0146;
  EXPECT_EQ(fault_of(shape), ShapeFault::corners_too_large);
  shape.corner_roof = 0.006;
  shape.corner_floor = 0.005;
  EXPECT_EQ(fault_of(shape), ShapeFault::corners_too_large);
  shape = plain();
  shape.roof_arch = 0.0105;
  EXPECT_EQ(fault_of(shape), ShapeFault::arch_too_high);
  shape = plain();
  shape.bridge = 0.028;
  EXPECT_EQ(fault_of(shape), ShapeFault::bridge_too_wide);
  shape.bridge = 0.004;
  shape.bridge_at = 0.013;
  EXPECT_EQ(fault_of(shape), ShapeFault::bridge_too_wide);
}

TEST(window, numbers_that_are_none_are_refused) {
  const double none = std::nan("");
  for (double WindowShape::*field :
       {&WindowShape::roof, &WindowShape::floor, &WindowShape::width, &WindowShape::corner_roof,
        &WindowShape::corner_floor, &WindowShape::roof_slope, &WindowShape::roof_arch, &WindowShape::bridge}) {
    WindowShape shape = plain();
    shape.*field = none;
    EXPECT_NE(fault_of(shape), ShapeFault::none);
  }
  WindowShape shape = plain();
  shape.bridge = 0.004;
  shape.bridge_at = none;
  EXPECT_NE(fault_of(shape), ShapeFault::none);
}

TEST(window, what_misfits_by_less_than_a_readings_error_is_drawn_in) {
  WindowShape shape = plain();
  shape.corner_roof = 0.006;
  shape.corner_floor = 0.0042;  // 0.3 mm too much for the height
  const double fit = 0.0099 / 0.0102;
  EXPECT_NEAR(build(shape).area(), 0.028 * 0.0099 - (2 - pi / 2) * fit * fit * (36e-6 + 0.0042 * 0.0042),
              1e-9 * 2.8e-4);
  shape = plain(chord_of(0.008));
  shape.corner_roof = 0.0043;  // 0.3 mm more than half the width
  EXPECT_NEAR(build(shape).area(), 0.008 * 0.0099 - (2 - pi / 2) * 16e-6, 1e-17);
  shape = plain();
  shape.roof_arch = 0.0101;  // 0.2 mm more than the height
  EXPECT_NEAR(build(shape).extent(shape.roof, shape.roof + 0.0098).left, -0.014, 1e-3);
  shape.roof_arch = -0.0003;
  shape.corner_floor = -0.0002;
  EXPECT_NEAR(build(shape).area(), 0.028 * 0.0099, 1e-17);
}

TEST(window, extent_follows_the_outline_between_two_levels) {
  WindowShape shape = plain();
  shape.corner_roof = 0.005;
  const Window window = build(shape);
  const Window::Extent top = window.extent(shape.roof, shape.roof + 0.001);
  EXPECT_NEAR(top.right, 0.009 + std::sqrt(0.001 * 0.009), 1e-15);
  EXPECT_NEAR(top.left, -top.right, 1e-15);
  EXPECT_TRUE(window.extent(0.0, 0.0258).empty());
  EXPECT_TRUE(window.extent(0.036, 0.040).empty());
}

TEST(window, polygons_stay_inside_by_no_more_than_the_tolerance) {
  WindowShape shape = plain();
  shape.corner_roof = shape.corner_floor = 0.0045;
  const Window window = build(shape);
  for (const double tolerance : {1e-4, 1e-5, 1e-6}) {
    const double missing = window.area() - polygon_area(window, tolerance);
    EXPECT_GT(missing, 0.0);
    EXPECT_LT(missing, tolerance * 2 * pi * 0.0045);
  }
}

TEST(traced_outline, of_a_triangle_has_a_triangles_area) {
  const std::vector<Point> points{{-0.01, 0.0}, {0.01, 0.0}, {0.0, 0.01}};
  const auto window = Window::from_outline(points, 0.03);
  ASSERT_TRUE(window);
  EXPECT_NEAR(window->area(), 1e-4, 1e-18);
  EXPECT_NEAR(window->area_above(0.035), 0.75e-4, 1e-18);
  EXPECT_EQ(window->roof(), 0.03);
  EXPECT_EQ(window->floor(), 0.04);
}

TEST(traced_outline, of_a_shape_agrees_with_the_shape) {
  WindowShape shape = plain();
  shape.corner_roof = 0.005;
  shape.corner_floor = 0.003;
  shape.roof_slope = 0.1;
  const Window exact = build(shape);
  const auto traced = Window::from_outline(exact.polygons(1e-9)[0], shape.roof);
  ASSERT_TRUE(traced);
  for (int k = 0; k <= 40; ++k) {
    const double level = shape.roof + k * 0.0099 / 40;
    EXPECT_NEAR(traced->area_above(level), exact.area_above(level), 1e-6 * exact.area());
    EXPECT_NEAR(traced->moved_down(0.001).area_above(level + 0.001), exact.area_above(level), 1e-6 * exact.area());
  }
}

TEST(traced_outline, runs_either_way_round_and_from_any_level) {
  std::vector<Point> points{{-0.01, 0.002}, {0.0, 0.001}, {0.012, 0.003},
                            {0.011, 0.012}, {0.0, 0.008}, {-0.011, 0.012}};
  const auto one = Window::from_outline(points, 0.03);
  std::reverse(points.begin(), points.end());
  const auto other = Window::from_outline(points, 0.03);
  ASSERT_TRUE(one && other);
  EXPECT_NEAR(one->area(), std::abs(shoelace(points)), 1e-18);
  EXPECT_NEAR(one->area(), other->area(), 1e-18);
  EXPECT_EQ(one->roof(), 0.03);
  EXPECT_NEAR(one->area_above(0.036), area_by_strips(*one, 0.036), 1e-6 * one->area());
}

TEST(traced_outline, that_is_no_window_is_refused) {
  EXPECT_FALSE(Window::from_outline({}, 0.0));
  EXPECT_FALSE(Window::from_outline(std::vector<Point>{{0, 0}, {0.01, 0}}, 0.0));
  EXPECT_FALSE(Window::from_outline(std::vector<Point>{{0, 0}, {0.01, 0}, {0, 0}, {0.01, 0}}, 0.0));
  EXPECT_FALSE(Window::from_outline(std::vector<Point>{{0, 0}, {0.01, 0}, {0.02, 0}}, 0.0));
  EXPECT_FALSE(Window::from_outline(std::vector<Point>{{0, 0}, {0.01, 0.01}, {0.01, 0}, {0, 0.01}}, 0.0));
  EXPECT_FALSE(Window::from_outline(std::vector<Point>{{0, 0}, {0.01, std::nan("")}, {0.01, 0}}, 0.0));
  EXPECT_TRUE(Window::from_outline(std::vector<Point>{{0, 0}, {0.01, 0}, {0.01, 0.01}, {0, 0}}, 0.0));
}

}  // namespace
}  // namespace portwright::geometry
