#include "sheet/heat_map.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "unit/support/sample_engines.hpp"

namespace portwright::sheet {
namespace {

std::vector<double> places(int count) {
  std::vector<double> out;
  for (int i = 0; i < count; ++i) out.push_back(i);
  return out;
}

TEST(level_lines, a_round_hill_has_one_closed_line_of_its_height) {
  const std::vector<double> at = places(41);
  std::vector<double> field;
  for (const double y : at)
    for (const double x : at) field.push_back(-std::hypot(x - 20.0, y - 20.0));
  const auto lines = level_lines(at, at, field, -12.3);
  ASSERT_EQ(lines.size(), 1u);
  EXPECT_NEAR(lines[0].front().x, lines[0].back().x, 1e-6);
  for (const draw::Point& p : lines[0]) EXPECT_NEAR(std::hypot(p.x - 20.0, p.y - 20.0), 12.3, 0.05);
}

TEST(level_lines, a_slope_has_a_straight_one_and_nothing_beyond_its_ends) {
  const std::vector<double> x = places(5), y = places(4);
  std::vector<double> field;
  for (std::size_t j = 0; j < y.size(); ++j)
    for (const double at : x) field.push_back(10.0 * at);
  const auto lines = level_lines(x, y, field, 25.0);
  ASSERT_EQ(lines.size(), 1u);
  EXPECT_EQ(lines[0].size(), 4u);
  for (const draw::Point& p : lines[0]) EXPECT_NEAR(p.x, 2.5, 1e-12);
  EXPECT_TRUE(level_lines(x, y, field, 41.0).empty());
}

HeatMapInput input_of(const geometry::Engine& engine) {
  HeatMapInput in;
  in.saw = "Larch 70";
  in.state = "as received";
  in.rpm = 8500;
  in.engine = &engine;
  in.around = 72;
  in.rows = 28;
  in.height = *engine.crown_at_tdc;
  for (int row = 0; row < in.rows; ++row)
    for (int column = 0; column < in.around; ++column)
      in.over_mean.push_back(60.0 - 4.0 * row + 10.0 * std::cos((column + 0.5) * 2.0 * 3.14159265 / in.around));
  in.fins = {{1.0472, 5.236}};
  in.hottest = "exhaust roof";
  in.hottest_range = "first of the cylinder in 91 % of the ways the unread could be";
  return in;
}

TEST(heat_map, without_a_reading_it_says_ranks_and_neither_degrees_nor_differences) {
  const auto sample = bench::sample_engine("larch-70");
  const HeatMapInput in = input_of(sample.engine);
  const auto svg = heat_map_svg(in);
  ASSERT_TRUE(svg);
  EXPECT_THAT(*svg, testing::HasSubstr("no temperatures"));
  EXPECT_THAT(*svg, testing::Not(testing::HasSubstr("\u00B0")));
  EXPECT_THAT(*svg, testing::Not(testing::ContainsRegex("[0-9] K")));
  EXPECT_THAT(heat_map_sentence(in), testing::HasSubstr("Hottest: exhaust roof, first of the cylinder in 91 %"));
}

TEST(heat_map, each_rank_has_its_share_of_the_wall_below_it) {
  const auto sample = bench::sample_engine("larch-70");
  const HeatMapInput in = input_of(sample.engine);
  for (const HeatLevel& level : heat_levels(in)) {
    double below = 0.0;
    for (const double T : in.over_mean) below += T < level.over_mean ? 1.0 : 0.0;
    EXPECT_NEAR(100.0 * below / static_cast<double>(in.over_mean.size()), std::stod(level.text), 1.0) << level.text;
  }
}

TEST(heat_map, with_a_reading_its_lines_are_degrees) {
  const auto sample = bench::sample_engine("larch-70");
  HeatMapInput in = input_of(sample.engine);
  in.mean = 180.0;
  for (const HeatLevel& level : heat_levels(in)) EXPECT_NEAR(level.over_mean + 180.0, std::stod(level.text), 1e-9);
  const auto svg = heat_map_svg(in);
  ASSERT_TRUE(svg);
  EXPECT_THAT(*svg, testing::HasSubstr("\u00B0C"));
}

TEST(heat_map, every_text_stands_on_the_page) {
  const auto sample = bench::sample_engine("larch-70");
  const auto canvas = draw_heat_map(input_of(sample.engine));
  ASSERT_TRUE(canvas);
  for (const draw::TextBox& box : draw::text_boxes(*canvas))
    for (const draw::Point& p : box.corners) {
      EXPECT_GE(p.x, 0.0) << box.text;
      EXPECT_LE(p.x, canvas->width()) << box.text;
      EXPECT_LE(p.y, canvas->height()) << box.text;
    }
}

TEST(heat_map, without_a_field_there_is_a_sentence) {
  const auto sample = bench::sample_engine("larch-70");
  HeatMapInput in = input_of(sample.engine);
  in.over_mean.pop_back();
  const auto canvas = draw_heat_map(in);
  ASSERT_FALSE(canvas);
  EXPECT_EQ(canvas.error().message, "There is no field of heat to draw.");
}

}  // namespace
}  // namespace portwright::sheet
