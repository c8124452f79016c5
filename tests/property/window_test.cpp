#include <algorithm>
#include <cmath>
#include <numbers>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "geometry/time_area.hpp"
#include "geometry/window.hpp"

namespace portwright::geometry {
namespace {

constexpr double bore = 0.050;

/// A number between two bounds, in a million steps.
double between(double low, double high) { return low + (high - low) * *rc::gen::inRange(0, 1000001) * 1e-6; }

WindowShape any_shape() {
  WindowShape shape;
  shape.roof = between(0.015, 0.028);
  shape.floor = shape.roof + between(0.005, 0.016);
  shape.width = between(0.006, 0.040);
  const double height = shape.floor - shape.roof;
  const double room = 0.45 * std::min(height, shape.width);
  if (*rc::gen::inRange(0, 3) > 0) shape.corner_roof = between(0.0, 0.5 * room);
  if (*rc::gen::inRange(0, 3) > 0) shape.corner_floor = between(0.0, 0.5 * room);
  if (*rc::gen::inRange(0, 2) > 0) shape.roof_slope = between(-0.25, 0.25) * height / shape.width;
  if (*rc::gen::inRange(0, 2) > 0) shape.roof_arch = between(0.0, 0.2) * std::min(height, shape.width);
  if (*rc::gen::inRange(0, 3) == 0) shape.bridge = 0.15 * shape.width;
  return shape;
}

/// The shape's window; cases whose parts do not fit together are left out.
Window any_window(const WindowShape& shape) {
  const Window window = Window::from_shape(shape, bore);
  RC_PRE(!window.empty());
  return window;
}

TEST(any_window, opens_more_the_lower_the_level) {
  EXPECT_TRUE(rc::check([] {
    const Window window = any_window(any_shape());
    const double a = between(window.roof() - 0.001, window.floor() + 0.001), b = between(a, window.floor() + 0.002);
    RC_ASSERT(window.area_above(a) <= window.area_above(b) + 1e-15 * window.area());
    RC_ASSERT(window.area_above(a) >= 0.0 && window.area_above(b) <= window.area());
  }));
}

TEST(any_window, area_grows_by_its_width) {
  EXPECT_TRUE(rc::check([] {
    const Window window = any_window(any_shape());
    const double h = 1e-7, level = between(window.roof() + 1e-5, window.floor() - 1e-5);
    const double slope = (window.area_above(level + h) - window.area_above(level - h)) / (2 * h);
    const double least = std::min(window.width_at(level - h), window.width_at(level + h));
    const double greatest = std::max(window.width_at(level - h), window.width_at(level + h));
    RC_ASSERT(slope >= least - 1e-9 && slope <= greatest + 1e-7);
  }));
}

TEST(any_window, above_and_below_make_the_whole) {
  EXPECT_TRUE(rc::check([] {
    const Window window = any_window(any_shape());
    const double level = between(window.roof(), window.floor());
    RC_ASSERT(std::abs(window.area_above(level) + window.area_below(level) - window.area()) <= 1e-15 * window.area());
  }));
}

TEST(any_window, has_its_roof_and_floor_where_they_were_given) {
  EXPECT_TRUE(rc::check([] {
    const WindowShape shape = any_shape();
    const Window window = any_window(shape);
    double top = 1.0, bottom = 0.0;
    for (const auto& loop : window.polygons(1e-6)) {
      for (const Point& p : loop) top = std::min(top, p.y), bottom = std::max(bottom, p.y);
    }
    RC_ASSERT(std::abs(top - shape.roof) <= 1e-11);
    RC_ASSERT(std::abs(bottom - shape.floor) <= 1e-11);
    RC_ASSERT(std::ranges::is_sorted(window.levels()));
    RC_ASSERT(window.levels().front() == window.roof() && window.levels().back() == window.floor());
  }));
}

TEST(any_window, mirrored_opens_alike) {
  EXPECT_TRUE(rc::check([] {
    WindowShape shape = any_shape();
    const Window window = any_window(shape);
    shape.roof_slope = -shape.roof_slope;
    const Window mirror = any_window(shape);
    const double level = between(window.roof(), window.floor());
    RC_ASSERT(std::abs(window.area_above(level) - mirror.area_above(level)) <= 1e-12 * window.area());
  }));
}

TEST(any_window, scales_as_the_square_of_its_lengths) {
  EXPECT_TRUE(rc::check([] {
    WindowShape shape = any_shape();
    const Window window = any_window(shape);
    const double k = between(1.0, 3.0), level = between(window.roof(), window.floor());
    for (double* length : {&shape.roof, &shape.floor, &shape.width, &shape.corner_roof, &shape.corner_floor,
                           &shape.roof_arch, &shape.bridge})
      *length *= k;
    const Window scaled = Window::from_shape(shape, k * bore);
    RC_ASSERT(!scaled.empty());
    RC_ASSERT(std::abs(scaled.area_above(k * level) - k * k * window.area_above(level)) <= 1e-9 * scaled.area());
  }));
}

TEST(any_window, wider_never_has_less_time_area) {
  EXPECT_TRUE(rc::check([] {
    const CrankSlider crank(0.036, 0.036 * between(1.5, 2.1), between(-0.001, 0.001));
    WindowShape shape = any_shape();
    shape.roof_slope = shape.roof_arch = shape.bridge = 0.0;
    const Window narrow = any_window(shape);
    shape.width += between(0.0, 0.004);
    const Window wide = any_window(shape);
    RC_ASSERT(angle_area(crank, wide, OpenedBy::crown, 0.0) >=
              angle_area(crank, narrow, OpenedBy::crown, 0.0) * (1 - 1e-12));
    RC_ASSERT(angle_area(crank, wide, OpenedBy::skirt, 0.02) >=
              angle_area(crank, narrow, OpenedBy::skirt, 0.02) * (1 - 1e-12));
  }));
}

TEST(any_window, dropped_has_less_time_area_under_the_crown_and_more_over_the_skirt) {
  EXPECT_TRUE(rc::check([] {
    const CrankSlider crank(0.036, 0.065);
    const Window window = any_window(any_shape()), dropped = window.moved_down(between(1e-5, 0.002));
    RC_ASSERT(angle_area(crank, dropped, OpenedBy::crown, 0.0) < angle_area(crank, window, OpenedBy::crown, 0.0));
    RC_ASSERT(angle_area(crank, dropped, OpenedBy::skirt, 0.012) > angle_area(crank, window, OpenedBy::skirt, 0.012));
  }));
}

TEST(any_window, traced_from_its_own_outline_opens_alike) {
  EXPECT_TRUE(rc::check([] {
    WindowShape shape = any_shape();
    shape.bridge = 0.0;
    const Window window = any_window(shape);
    const auto traced = Window::from_outline(window.polygons(1e-7)[0], shape.roof);
    RC_ASSERT(traced.has_value());
    const double level = between(window.roof(), window.floor());
    RC_ASSERT(std::abs(traced->area_above(level) - window.area_above(level)) <= 1e-7 * 0.1);
  }));
}

}  // namespace
}  // namespace portwright::geometry
