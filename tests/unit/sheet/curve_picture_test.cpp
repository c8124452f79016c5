#include "sheet/curve_picture.hpp"

#include <gmock/gmock.h>

#include <cmath>
#include <numbers>

#include "sheet/chart.hpp"
#include "unit/sheet/layout.hpp"

namespace portwright::sheet {
namespace {

using test::expect_texts_apart;
using test::expect_texts_on_page;
using testing::HasSubstr;
using testing::Not;

/// A torque curve that is a parabola about `best` [rpm].
CurveSide side(double best, double height = 3.6) {
  CurveSide out;
  for (double rpm = 4500; rpm <= 12000; rpm += 500) {
    const double torque = height - 0.8 * std::pow((rpm - best) / 3600, 2);
    out.points.push_back({rpm, torque * rpm * 2 * std::numbers::pi / 60 / 1000, torque});
  }
  return out;
}

CurveInput stock_only() { return {"Larch 70", "as received", "", side(6800), {}, {}, 9300, false}; }

CurveInput with_cuts() {
  CurveInput in = stock_only();
  in.stock = in.now;
  in.now = side(7400);
  in.plan = "cuts 1 to 3";
  for (CurveSide* one : {&*in.stock, &in.now})
    for (const double rpm : {6045.0, 9300.0, 11625.0}) {
      one->power_kw.push_back({rpm, 1.6, 3.4});
      one->torque_nm.push_back({rpm, 2.1, 4.4});
    }
  in.changes = {{6045, -0.05, -0.12, 0.03}, {9300, 0.18, 0.06, 0.31}, {11625, 0.35, 0.20, 0.55}};
  return in;
}

draw::Document page_of(const CurveInput& in) {
  auto canvas = draw_curve(in);
  EXPECT_TRUE(canvas);
  draw::Document out;
  if (canvas) out.pages.push_back(std::move(*canvas));
  return out;
}

TEST(CurvePicture, texts_stay_on_the_page_and_apart) {
  auto unsettled = with_cuts();
  unsettled.now.points[1].settled = unsettled.now.points[2].settled = "alternating";
  unsettled.now.points[12].settled = "two-solution";
  for (const CurveInput& in : {stock_only(), with_cuts(), unsettled}) {
    expect_texts_on_page(page_of(in));
    expect_texts_apart(page_of(in));
  }
}

TEST(CurvePicture, a_higher_value_stands_higher_at_its_speed) {
  const auto svg = *curve_svg(stock_only());
  const auto twice = [] {
    auto in = stock_only();
    in.now = side(6800, 7.2);
    return *curve_svg(in);
  }();
  EXPECT_NE(svg, twice);
  chart::Panel panel{{10, 20, 110, 70}, {0, 100, 20, 0}, {0, 5, 1, 0}};
  EXPECT_NEAR(panel.at_x(50), 60, 1e-12);
  EXPECT_NEAR(panel.at_y(5), 20, 1e-12);
  EXPECT_NEAR(panel.at_y(0), 70, 1e-12);
}

TEST(CurvePicture, no_blue_where_nothing_changes) {
  EXPECT_THAT(*curve_svg(stock_only()), Not(HasSubstr("#1340b8")));
  EXPECT_THAT(*curve_svg(with_cuts()), HasSubstr("#1340b8"));
}

TEST(CurvePicture, without_an_anchor_power_is_an_order_of_size) {
  EXPECT_THAT(*curve_svg(stock_only()), HasSubstr("power, kW: order of size"));
  EXPECT_THAT(curve_sentence(stock_only()), HasSubstr("order of size"));
  auto anchored = stock_only();
  anchored.anchored = true;
  anchored.now.power_kw = {{9300, 3.0, 3.4}};
  EXPECT_THAT(*curve_svg(anchored), Not(HasSubstr("order of size")));
  EXPECT_THAT(curve_sentence(anchored), HasSubstr("3.0 to 3.4 kW at 9\u202F300 rpm"));
}

TEST(CurvePicture, the_sentence_says_where_it_is_stronger_and_what_is_told_apart) {
  const std::string said = curve_sentence(with_cuts());
  // The parabolas cross halfway between their peaks, at 7,100 rpm; alike is within 0.3 % of the greatest power.
  EXPECT_THAT(said, HasSubstr("Weaker up to"));
  EXPECT_THAT(said, HasSubstr("stronger above"));
  EXPECT_THAT(said, HasSubstr("Told apart from stock at 9\u202F300 rpm (+0.06 to +0.31 kW)"));
  EXPECT_THAT(said, HasSubstr("Not told apart at 6\u202F045 rpm"));
  EXPECT_THAT(*curve_svg(with_cuts()), HasSubstr("aria-label=\"not told apart\""));
}

TEST(CurvePicture, a_point_that_does_not_settle_has_a_mark_and_its_word) {
  auto in = stock_only();
  in.now.points[3].settled = "alternating";
  EXPECT_THAT(*curve_svg(in), HasSubstr("aria-label=\"alternating\""));
  EXPECT_THAT(curve_sentence(in), HasSubstr("6\u202F000 (alternating)"));
  EXPECT_THAT(*curve_svg(stock_only()), Not(HasSubstr("alternating")));
}

TEST(CurvePicture, the_same_numbers_give_the_same_bytes) {
  EXPECT_EQ(*curve_svg(with_cuts()), *curve_svg(with_cuts()));
}

TEST(CurvePicture, one_speed_or_none_or_no_power_at_all) {
  CurveInput in = stock_only();
  in.now.points.resize(1);
  expect_texts_on_page(page_of(in));
  in.now.points = {{9000, -0.1, -0.1}, {9500, -0.2, -0.2}};
  EXPECT_THAT(curve_sentence(in), HasSubstr("No speed gives power."));
  expect_texts_apart(page_of(in));
  in.now.points.clear();
  ASSERT_FALSE(draw_curve(in));
  EXPECT_EQ(draw_curve(in).error().code, base::ErrorCode::not_found);
}

TEST(CurvePicture, many_ranges_are_a_ribbon) {
  auto in = stock_only();
  const auto before = draw_curve(in)->items().size();
  for (const CurvePoint& p : in.now.points) in.now.power_kw.push_back({p.rpm, 0.8 * p.power_kw, 1.2 * p.power_kw});
  EXPECT_EQ(draw_curve(in)->items().size(), before + 2);  // a tint and its two edges
  expect_texts_apart(page_of(in));
}

TEST(Chart, a_scale_holds_both_ends_in_whole_steps) {
  for (const auto& [low, high] :
       {std::pair{0.0, 3.4}, {-0.12, 0.55}, {0.0, 0.0}, {4500.0, 12000.0}, {5.0, 5.0}, {-1e-7, 1e-7}, {0.0, 1e6}}) {
    const auto scale = chart::scale_over(low, high, 5);
    EXPECT_LE(scale.low, low + 1e-9);
    EXPECT_GE(scale.high, high - 1e-9);
    EXPECT_GT(scale.high, scale.low);
    EXPECT_LE((scale.high - scale.low) / scale.step, 5 + 1e-6);
    EXPECT_NEAR(scale.low / scale.step, std::round(scale.low / scale.step), 1e-6);
  }
}

TEST(Chart, a_smooth_line_does_not_overshoot_its_points) {
  const std::vector<draw::Point> points{{0, 0}, {1, 0}, {2, 5}, {3, 5}, {4, 1}};
  const auto line = chart::smooth(points);
  for (std::size_t i = 0; i + 1 < points.size(); ++i)
    for (const draw::Point& p : line)
      if (p.x >= points[i].x && p.x <= points[i + 1].x) {
        EXPECT_GE(p.y, std::min(points[i].y, points[i + 1].y) - 1e-12);
        EXPECT_LE(p.y, std::max(points[i].y, points[i + 1].y) + 1e-12);
      }
  EXPECT_EQ(line.size(), 1 + 4 * 8U);
}

TEST(Chart, labels_are_moved_apart_and_stay_within) {
  const auto y = chart::apart({10, 10.5, 11, 49}, 4, 0, 50);
  EXPECT_GE(y[1] - y[0], 4 - 1e-12);
  EXPECT_GE(y[2] - y[1], 4 - 1e-12);
  EXPECT_LE(y[3], 50);
  EXPECT_NEAR(y[0], 10, 1e-12);
}

}  // namespace
}  // namespace portwright::sheet
