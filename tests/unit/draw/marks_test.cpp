#include "draw/marks.hpp"

#include <gmock/gmock.h>

#include <cmath>

#include "draw/lettering.hpp"
#include "draw/ruler.hpp"
#include "draw/table.hpp"

namespace portwright::draw {
namespace {

std::vector<Path> arrows(const Canvas& canvas) {
  std::vector<Path> found;
  for (const Item& item : canvas.items()) {
    if (const auto* fill = std::get_if<FillItem>(&item)) found.push_back(fill->area.front());
  }
  return found;
}

TEST(Dimension, arrows_touch_both_ends_and_are_nine_to_three_point_two) {
  Canvas c(100, 100);
  draw_dimension_level(c, 10, 60, 20, "50.0");
  const auto heads = arrows(c);
  ASSERT_EQ(heads.size(), 2U);
  EXPECT_NEAR(heads[0].points[0].at.x, 10, 1e-9);
  EXPECT_NEAR(heads[1].points[0].at.x, 60, 1e-9);
  const Box box = bounds(heads[0]);
  EXPECT_NEAR(box.width() / box.height(), 9 / 3.2, 0.02);
}

TEST(Dimension, arrows_of_a_small_gap_stand_outside_and_point_in) {
  Canvas c(100, 100);
  draw_dimension_level(c, 50, 51, 20, "1.00");
  const auto heads = arrows(c);
  EXPECT_NEAR(bounds(heads[0]).right, 50, 1e-9);
  EXPECT_NEAR(bounds(heads[1]).left, 51, 1e-9);
  EXPECT_GT(text_boxes(c).front().corners[0].x, 51);
}

TEST(Dimension, upright_text_reads_upward_left_of_its_line) {
  Canvas c(100, 100);
  draw_dimension_upright(c, 80, 30, 40, "37.54");
  const auto boxes = text_boxes(c);
  for (const Point corner : boxes.front().corners) EXPECT_LT(corner.x, 40.01);
}

TEST(CheckBar, millimetres_and_inches_are_true) {
  Canvas c(300, 100);
  draw_check_bar(c, {{10, 50}, 150, false});
  std::vector<double> up, down;
  for (const Item& item : c.items()) {
    if (const auto* stroke = std::get_if<StrokeItem>(&item)) {
      for (const Path& p : stroke->paths) {
        const Point a = p.points[0].at, b = p.points[1].at;
        if (a.x == b.x && b.y < a.y) up.push_back(a.x - 10);
        if (a.x == b.x && b.y > a.y) down.push_back(a.x - 10);
      }
    }
  }
  ASSERT_EQ(up.size(), 151U);
  for (std::size_t i = 0; i < up.size(); ++i) EXPECT_NEAR(up[i], static_cast<double>(i), 1e-9);
  ASSERT_EQ(down.size(), 95U);  // 5.905 in of sixteenths
  EXPECT_NEAR(down[80], 5 * 25.4, 1e-9);
}

TEST(Table, no_cell_runs_over_its_column) {
  Canvas c(200, 100);
  Table table{{10, 10}};
  table.columns = {{"cut", 30, false},
                   {"a head much longer than its column is wide", 14},
                   {"as cut", 20, true, Anchor::start, true}};
  table.rows = {{"A cut whose name is far too long for its column", "123456789.12345", "99999999999999999999"},
                {"one"}};
  draw_table(c, table);
  const double left[] = {10, 40, 54}, right[] = {40, 54, 74};
  const auto boxes = text_boxes(c);
  ASSERT_EQ(boxes.size(), 7U);
  for (std::size_t i = 0; i < 6; ++i) {
    EXPECT_GE(boxes[i].corners[0].x, left[i % 3] - 1e-6) << boxes[i].text;
    EXPECT_LE(boxes[i].corners[1].x, right[i % 3] + 1e-6) << boxes[i].text;
  }
}

TEST(TitleBlock, no_cell_runs_over_its_share) {
  Canvas c(200, 100);
  TitleBlock block{{10, 10}, 60};
  block.rows = {
      {{"saw", "A saw with a name that is far longer than any block", 2}, {"state", "as received on a wet day", 1}}};
  draw_title_block(c, block);
  for (const TextBox& box : text_boxes(c)) EXPECT_LE(box.corners[1].x, 70 + 1e-6) << box.text;
}

TEST(Finding, shapes_differ_without_colour) {
  std::vector<std::size_t> corners;
  for (const Finding kind : {Finding::held, Finding::note, Finding::caution, Finding::stop}) {
    Canvas c(20, 20);
    draw_finding(c, {10, 10}, kind, "A");
    const Item& first = c.items().front();
    const auto* stroke = std::get_if<StrokeItem>(&first);
    corners.push_back(stroke != nullptr ? stroke->paths[0].points.size() + (stroke->paths[0].closed ? 10 : 0)
                                        : std::get<FillItem>(first).area[0].points.size());
  }
  EXPECT_THAT(corners, testing::ElementsAre(3U, 12U, 13U, 8U));
}

}  // namespace
}  // namespace portwright::draw
