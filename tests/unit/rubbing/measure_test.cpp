// Rubbings drawn by the rules of perspective, every edge known in closed form, and what is measured on them.
#include "rubbing/measure.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <numbers>

#include "support/drawn_rubbing.hpp"

namespace portwright::rubbing {
namespace {

using testing::HasSubstr;
using testing_support::Drawn;
using testing_support::DrawnSheet;
using testing_support::photo_of;
using testing_support::Shot;

#ifdef PORTWRIGHT_SANITIZED
constexpr int drawn_cases = 3;
#else
constexpr int drawn_cases = 12;
#endif

class Draw {
 public:
  explicit Draw(unsigned seed) : random_(seed) {}
  double between(double a, double b) { return std::uniform_real_distribution<double>(a, b)(random_); }

 private:
  std::mt19937 random_;
};

Hints known(const DrawnSheet& sheet) {
  Hints out;
  out.across = square_side * sheet.print_x;
  out.down = square_side * sheet.print_y;
  out.taped = sheet.lift == 0.0;
  out.bore = 1000.0;  // as good as flat: what is drawn was never bent
  return out;
}

Rubbing measured(const DrawnSheet& sheet, const Shot& shot, const Hints& hints) {
  const picture::Grey photo = photo_of(sheet, shot);
  const auto square = find_square(photo);
  EXPECT_TRUE(square) << (square ? "" : square.error().message);
  return square ? measure(photo, *square, hints) : Rubbing{Square{Camera({}, 0, 1, 1)}, 0, 0, {}, {}, {}};
}

std::string refusal(const DrawnSheet& sheet, const Shot& shot, const Hints& hints = {}) {
  const picture::Grey photo = photo_of(sheet, shot);
  const auto square = find_square(photo);
  if (!square) return square.error().message;
  const Rubbing rubbing = measure(photo, *square, hints);
  EXPECT_EQ(rubbing.why.has_value(), !rubbing.measured.has_value());
  return rubbing.why ? rubbing.why->message : "";
}

TEST(Rubbing, a_straight_photo_of_a_filled_shape_is_measured_to_half_a_percent) {
  const DrawnSheet sheet;
  const Rubbing rubbing = measured(sheet, Shot{}, known(sheet));
  ASSERT_TRUE(rubbing.measured);
  const Measured& m = *rubbing.measured;
  EXPECT_NEAR(m.area.value / sheet.window.area(), 1.0,
              0.005);                     // it is said to be taped: 0.25 mm of lift is taken off, 0.3 %
  EXPECT_NEAR(m.width.value, 28.0, 0.1);  // the outermost of many points with their grain
  EXPECT_NEAR(m.height.value, 14.0, 0.1);
  EXPECT_NEAR(rubbing.square.camera.bend(), 0.0, 0.002);
  EXPECT_LT(rubbing.tilt, 1.0);
  EXPECT_EQ(m.line_width, 0.0);
  EXPECT_LE(m.points.size(), 48U);
  EXPECT_NEAR(std::abs(area_of(m.points)), m.area.value, 0.002 * m.area.value);
  EXPECT_GT(area_of(m.points), 0.0);
  const Extent extent = extent_of({m.points});
  EXPECT_NEAR(extent.top, 0.0, 0.05);
  EXPECT_NEAR(extent.left, -extent.right, 0.1);
}

// Tilted, turned, through a lens, unevenly lit: pencil's lines whose true edge lies anywhere under them, grey ground,
// strips that stand off the sheet, prints that shrank.
TEST(Rubbing, the_true_area_lies_within_its_own_range) {
  int within = 0, found = 0;
  for (int i = 0; i < drawn_cases; ++i) {
    Draw draw(100 + static_cast<unsigned>(i));
    Shot shot{.width = 1100, .height = 1100, .distance = draw.between(150, 157)};
    shot.tilt = draw.between(0, 8), shot.tilt_toward = draw.between(0, 360), shot.turn = draw.between(0, 360);
    shot.k1 = draw.between(-0.03, 0.03), shot.k2 = draw.between(-0.01, 0.01);
    shot.uneven = draw.between(1, 2), shot.light_from = draw.between(0, 360);
    shot.blur = draw.between(0.5, 1.2), shot.noise = draw.between(0.5, 3), shot.quality = 85;
    shot.off_x = draw.between(-5, 5), shot.seed = static_cast<unsigned>(i);
    DrawnSheet sheet;
    sheet.how = i % 3 == 0 ? Drawn::filled : i % 3 == 1 ? Drawn::line : Drawn::ground;
    sheet.window = {draw.between(16, 34), draw.between(9, 16), draw.between(1, 4),
                    draw.between(-6, 6),  draw.between(-3, 3), draw.between(-10, 10)};
    sheet.line_width = draw.between(0.35, 0.8), sheet.line_off = draw.between(-0.5, 0.5) * sheet.line_width;
    sheet.raggedness = draw.between(0, 0.1), sheet.graphite = draw.between(0.15, 0.35);
    sheet.rubbed = draw.between(0.6, 0.8), sheet.lift = draw.between(0, 4);
    sheet.print_x = draw.between(0.95, 1.02), sheet.print_y = draw.between(0.95, 1.02);
    const Rubbing rubbing = measured(sheet, shot, known(sheet));
    if (!rubbing.measured) {
      ADD_FAILURE() << i << ": " << rubbing.why->message;
      continue;
    }
    ++found;
    const Size& area = rubbing.measured->area;
    const double off = area.value - sheet.window.area();
    within += std::abs(off) <= area.plus_minus ? 1 : 0;
    EXPECT_LT(area.plus_minus, 0.2 * area.value) << i;
  }
  EXPECT_EQ(found, drawn_cases);
  EXPECT_GE(within, found - found / 20);
}

TEST(Rubbing, a_line_has_two_sides_and_its_half_is_part_of_the_range) {
  DrawnSheet sheet;
  sheet.how = Drawn::line;
  sheet.line_width = 0.8;
  const picture::Grey photo = photo_of(sheet, Shot{});
  const auto square = find_square(photo);
  ASSERT_TRUE(square);
  std::array<double, 3> area{};
  for (const LineSide side : {LineSide::inner, LineSide::middle, LineSide::outer}) {
    Hints hints = known(sheet);
    hints.line = side;
    const Rubbing rubbing = measure(photo, *square, hints);
    ASSERT_TRUE(rubbing.measured);
    area[static_cast<std::size_t>(side)] = rubbing.measured->area.value;
    EXPECT_NEAR(rubbing.measured->line_width, 0.8, 0.15);
    EXPECT_EQ(rubbing.measured->parts.front().name,
              side == LineSide::inner ? "line" : rubbing.measured->parts.front().name);
  }
  EXPECT_NEAR(area[1] / sheet.window.area(), 1.0, 0.005);
  // 84 - (8 - 2 pi) 4 = 77 mm round, 0.4 mm to each side
  EXPECT_NEAR(area[2] - area[0], 77.1 * 0.8, 0.15 * 77.1);
}

TEST(Rubbing, the_triangle_tells_the_roof_however_the_photo_is_turned) {
  DrawnSheet sheet;
  sheet.window = {20.0, 10.0, 1.0, 20.0, -15.0, 0.0};
  for (const double turn : {0.0, 93.0, 181.0, 268.0}) {
    Shot shot;
    shot.turn = turn;
    const Rubbing rubbing = measured(sheet, shot, known(sheet));
    ASSERT_TRUE(rubbing.measured) << turn;
    EXPECT_TRUE(rubbing.square.turned) << turn;
    EXPECT_NEAR(rubbing.measured->width.value, 20.0, 0.1) << turn;
    const Point middle = rubbing.square.camera.to_sheet(centroid_of(rubbing.measured->outline));
    EXPECT_NEAR(middle.x, 80.0, 0.1) << turn;
    EXPECT_NEAR(middle.y, 45.0, 0.1) << turn;
  }
}

TEST(Rubbing, a_line_along_the_bore_sets_it_upright_and_the_wall_side_is_mirrored) {
  DrawnSheet sheet;
  sheet.window = {24.0, 12.0, 2.0, 0.0, 0.0, 15.0};
  const picture::Grey photo = photo_of(sheet, Shot{});
  const auto square = find_square(photo);
  ASSERT_TRUE(square);
  Hints hints = known(sheet);
  const double t = 15.0 * std::numbers::pi / 180.0;
  for (const double far : {20.0, -20.0})
    hints.upright.push_back(square->camera.to_picture({60.0 - far * std::sin(t), 60.0 + far * std::cos(t)}));
  const Rubbing upright = measure(photo, *square, hints);
  ASSERT_TRUE(upright.measured);
  EXPECT_NEAR(upright.measured->width.value, 24.0, 0.1);
  EXPECT_NEAR(upright.measured->height.value, 12.0, 0.1);
  hints.upright.clear();
  const Rubbing askew = measure(photo, *square, hints);
  hints.wall_side = true;
  const Rubbing mirrored = measure(photo, *square, hints);
  ASSERT_TRUE(askew.measured && mirrored.measured);
  EXPECT_GT(askew.measured->height.plus_minus, upright.measured->height.plus_minus + 0.2);
  const auto highest = [](const Loop& loop) {
    return std::min_element(loop.begin(), loop.end(), [](Point a, Point b) { return a.y < b.y; })->x;
  };
  EXPECT_LT(highest(askew.measured->points), -5.0);
  EXPECT_NEAR(highest(mirrored.measured->points), -highest(askew.measured->points), 0.05);
  EXPECT_GT(area_of(mirrored.measured->points), 0.0);
}

TEST(Rubbing, points_come_back_as_they_went_and_a_moved_one_moves_the_area) {
  const DrawnSheet sheet;
  const picture::Grey photo = photo_of(sheet, Shot{});
  const auto square = find_square(photo);
  ASSERT_TRUE(square);
  Hints hints = known(sheet);
  const Rubbing first = measure(photo, *square, hints);
  ASSERT_TRUE(first.measured);
  hints.points = first.measured->handles;
  const Rubbing same = measure(photo, *square, hints);
  ASSERT_TRUE(same.measured);
  EXPECT_EQ(same.measured->moved, 0);
  EXPECT_EQ(same.measured->area.value, first.measured->area.value);
  const double scale = square->camera.scale_at({60, 60}).least;
  const auto top =
      std::min_element(hints.points.begin(), hints.points.end(), [](Point a, Point b) { return a.y < b.y; });
  top->y -= 2.0 * scale;
  const Rubbing moved = measure(photo, *square, hints);
  ASSERT_TRUE(moved.measured);
  EXPECT_EQ(moved.measured->moved, 1);
  EXPECT_GT(moved.measured->area.value, first.measured->area.value + 1.0);
  EXPECT_NEAR(moved.measured->height.value, 16.0, 0.2);
  EXPECT_GT(moved.measured->area.plus_minus, first.measured->area.plus_minus);
}

TEST(Rubbing, corners_put_by_hand_are_drawn_to_the_edges) {
  const DrawnSheet sheet;
  const picture::Grey photo = photo_of(sheet, Shot{.tilt = 8.0, .k1 = 0.02});
  const auto found = find_square(photo);
  ASSERT_TRUE(found);
  Corners rough = found->corners;
  for (Point& p : rough) p = p + Point{4.0, -3.0};
  const auto near = square_near(photo, rough);
  ASSERT_TRUE(near);
  EXPECT_FALSE(near->by_hand);
  for (std::size_t i = 0; i < 4; ++i) EXPECT_LT(length(near->corners[i] - found->corners[i]), 0.2);
  std::swap(rough[0], rough[1]);
  EXPECT_FALSE(square_near(photo, rough));
}

TEST(Rubbing, what_cannot_be_measured_is_refused_in_a_sentence) {
  DrawnSheet sheet;
  EXPECT_THAT(refusal(sheet, Shot{.distance = 260.0}), HasSubstr("too small"));
  EXPECT_THAT(refusal(sheet, Shot{.width = 1400, .height = 1400, .distance = 200.0, .tilt = 47.0}),
              HasSubstr("too slantwise"));
  EXPECT_THAT(refusal(sheet, Shot{.off_x = -180.0}), HasSubstr("cut off"));
  sheet.print_x = sheet.print_y = 1e-9;  // nothing printed
  EXPECT_THAT(refusal(sheet, Shot{}), HasSubstr("was not found"));
  sheet = DrawnSheet{};
  sheet.window = {40.0, 40.0, 3.0, 45.0, 0.0, 0.0};
  sheet.strip_half = 70.0;
  EXPECT_THAT(refusal(sheet, Shot{}), HasSubstr("reaches the square's frame"));
  sheet = DrawnSheet{};
  sheet.how = Drawn::line;
  sheet.open = 1.5;
  EXPECT_THAT(refusal(sheet, Shot{}), HasSubstr("The line is open for about 1."));
  sheet.open = 0.0;
  sheet.graphite = DrawnSheet::paper;  // nothing drawn
  EXPECT_THAT(refusal(sheet, Shot{}), HasSubstr("No closed outline"));
}

TEST(Rubbing, places_beyond_the_frame_are_refused_whatever_their_size) {
  const DrawnSheet sheet;
  const picture::Grey photo = photo_of(sheet, Shot{.tilt = 8.0});
  const auto square = find_square(photo);
  ASSERT_TRUE(square);
  for (const Point far : {Point{1e5, 1e5}, {-1e5, 40.0}, {3.0, 3.0}, {500.0, -99999.0}}) {
    Hints hints;
    hints.inside = {far};
    const Rubbing rubbing = measure(photo, *square, hints);
    EXPECT_FALSE(rubbing.measured);
    ASSERT_TRUE(rubbing.why);
    EXPECT_THAT(rubbing.why->message, HasSubstr("outside the square"));
  }
}

TEST(Rubbing, a_print_that_was_not_measured_has_a_wider_range_and_says_so) {
  const DrawnSheet sheet;
  const picture::Grey photo = photo_of(sheet, Shot{});
  const auto square = find_square(photo);
  ASSERT_TRUE(square);
  const Rubbing guessed = measure(photo, *square, {});
  ASSERT_TRUE(guessed.measured);
  EXPECT_GT(guessed.measured->area.plus_minus, 0.04 * guessed.measured->area.value);
  EXPECT_THAT(guessed.findings, testing::Contains(HasSubstr("not measured on this print")));
}

TEST(Camera, there_and_back_is_where_it_was) {
  const Camera camera({Point{200, 180}, {900, 210}, {880, 830}, {190, 900}}, 0.06, 1200, 1000);
  for (const Point p : {Point{0, 0}, {120, 0}, {33, 71}, {-15, 6}, {120, 120}})
    EXPECT_LT(length(camera.to_sheet(camera.to_picture(p)) - p), 1e-3);
}

}  // namespace
}  // namespace portwright::rubbing
