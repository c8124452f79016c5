#include "draw/hatch.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "draw/canvas.hpp"

namespace portwright::draw {
namespace {

const Hatch every[] = {Hatch::piston,  Hatch::cylinder, Hatch::limit, Hatch::metal_to_go, Hatch::upright, Hatch::dots,
                       Hatch::crosses, Hatch::squares,  Hatch::rings, Hatch::level,       Hatch::waves};

Area window_with_hole() { return {rounded_rectangle(3, 4, 31, 11.4, 4), circle({20, 9}, 2.5)}; }

/// The same area as a yes-or-no of exact arcs, apart from the module's own flattening; grown by `margin` [mm].
bool within_window(Point p, double margin) {
  const double dx = std::max({3 + 4.0 - p.x, p.x - (34 - 4.0), 0.0}),
               dy = std::max({4 + 4.0 - p.y, p.y - (15.4 - 4.0), 0.0});
  const bool in_outline = std::hypot(dx, dy) <= 4 + margin;
  return in_outline && std::hypot(p.x - 20, p.y - 9) >= 2.5 - margin;
}

class EveryHatch : public testing::TestWithParam<Hatch> {};

TEST_P(EveryHatch, stays_inside_its_area_and_out_of_the_hole) {
  const HatchLines lines = hatch_lines(window_with_hole(), {GetParam(), Role::ink, 0.13, 1.0, {0.7, 0.3}});
  EXPECT_GT(lines.strokes.size() + lines.discs.size(), 5U);
  for (const Path& stroke : lines.strokes) {
    for (std::size_t i = 0; i + 1 < stroke.points.size(); ++i) {
      for (int k = 0; k <= 20; ++k) {
        const Point p = stroke.points[i].at + k / 20.0 * (stroke.points[i + 1].at - stroke.points[i].at);
        ASSERT_TRUE(within_window(p, 0.006)) << p.x << ' ' << p.y;
      }
    }
  }
  for (const Path& disc : lines.discs) {
    for (const Point p : flattened(disc)) ASSERT_TRUE(within_window(p, 0.006)) << p.x << ' ' << p.y;
  }
}

TEST_P(EveryHatch, of_nothing_is_nothing) {
  EXPECT_TRUE(hatch_lines({}, {GetParam()}).strokes.empty());
  EXPECT_TRUE(hatch_lines({rectangle(5, 5, 0, 3)}, {GetParam()}).discs.empty());
}

TEST_P(EveryHatch, of_a_huge_area_stays_bounded) {
  const HatchLines lines = hatch_lines({rectangle(0, 0, 4000, 4000)}, {GetParam()});
  EXPECT_LT(lines.strokes.size() + lines.discs.size(), 60000U);
}

INSTANTIATE_TEST_SUITE_P(Hatches, EveryHatch, testing::ValuesIn(every));

TEST(HatchLines, metal_alone_lies_at_45_degrees) {
  for (const Hatch pattern : every) {
    const bool metal = pattern == Hatch::piston || pattern == Hatch::cylinder || pattern == Hatch::limit ||
                       pattern == Hatch::metal_to_go;
    if (pattern == Hatch::waves || pattern == Hatch::rings || pattern == Hatch::dots) continue;
    for (const Path& stroke : hatch_lines({rectangle(0, 0, 20, 10)}, {pattern}).strokes) {
      const Point d = stroke.points[1].at - stroke.points[0].at;
      EXPECT_EQ(std::abs(std::abs(d.x) - std::abs(d.y)) < 1e-9, metal);
    }
  }
}

TEST(HatchLines, piston_and_cylinder_lean_against_each_other) {
  const auto slope = [](Hatch pattern) {
    const Path stroke = hatch_lines({rectangle(0, 0, 20, 10)}, {pattern}).strokes.front();
    const Point d = stroke.points[1].at - stroke.points[0].at;
    return d.y / d.x;
  };
  EXPECT_NEAR(slope(Hatch::piston), -1, 1e-9);  // y is down: rises to the right
  EXPECT_NEAR(slope(Hatch::cylinder), 1, 1e-9);
}

TEST(HatchLines, the_pattern_moves_with_its_origin) {
  const auto first = [](double shift) {
    return hatch_lines({rectangle(0, 0, 20, 10)}, {Hatch::level, Role::ink, 0.13, 1.0, {0, shift}})
        .strokes.front()
        .points[0]
        .at.y;
  };
  EXPECT_NEAR(first(0.4) - first(0.1), 0.3, 1e-9);
}

TEST(HatchLines, lines_of_a_pattern_are_its_pitch_apart) {
  const auto strokes = hatch_lines({rectangle(0, 0, 20, 10)}, {Hatch::upright}).strokes;
  for (std::size_t i = 0; i + 1 < strokes.size(); ++i) {
    EXPECT_NEAR(std::abs(strokes[i + 1].points[0].at.x - strokes[i].points[0].at.x), hatch_pitch(Hatch::upright), 1e-9);
  }
}

}  // namespace
}  // namespace portwright::draw
