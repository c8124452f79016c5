#include "sheet/revs_picture.hpp"

#include <gmock/gmock.h>

#include <cmath>

#include "unit/sheet/layout.hpp"

namespace portwright::sheet {
namespace {

using test::expect_texts_apart;
using test::expect_texts_on_page;
using testing::HasSubstr;
using testing::Not;

std::vector<double> wave(double size, double shift, bool sized) {
  std::vector<double> out;
  for (int i = 0; i <= 360; ++i) {
    const double v = size * std::cos((i - shift) * 0.0174533);
    out.push_back(sized ? std::abs(v) : v);
  }
  return out;
}

RevsInput one() {
  RevsInput in;
  in.saw = "Larch 70";
  in.state = "as received";
  in.free_rpm = 13500;
  in.cut_rpm = 8500;
  in.rungs = {{"Ring 1 flutters", false, 10950, 10700, 11200, 10950, 0},
              {"Big end, 300 h steady", false, 14200, 0, 0, 13100, 0},
              {"Piston speed 3,500 ft/min", false, 14817, 0, 0, 14817, 0},
              {"Big end, static rating reached", true, 17300, 15600, 19100, 17900, 0},
              {"Piston speed 4,500 ft/min", true, 19050, 16087, 19050, 19050, 0}};
  for (int i = 0; i <= 360; ++i) in.angles.push_back(i);
  in.loads = {{"big end", draw::Role::ink, draw::Dash::solid, wave(5600, 10, true), {}},
              {"big end, free", draw::Role::ink, draw::Dash::hidden, wave(5900, 5, true), {}},
              {"small end", draw::Role::transfers, draw::Dash::dotted, wave(5550, 12, true), {}}};
  in.thrust = {{"", draw::Role::ink, draw::Dash::solid, wave(600, 60, false), {}}};
  in.wall = {{"", draw::Role::ink, draw::Dash::solid, std::vector<double>(361, 82.0), {}}};
  in.sentence = "Free, the first hard limit stands at 17 300 rpm.";
  return in;
}

draw::Document page_of(const RevsInput& in) {
  auto canvas = draw_revs(in);
  EXPECT_TRUE(canvas);
  draw::Document out;
  if (canvas) out.pages.push_back(std::move(*canvas));
  return out;
}

TEST(revs_picture, texts_stand_on_the_page_and_apart_also_where_lines_end_together) {
  RevsInput tight = one();
  for (TurnLine& line : tight.loads) line.now = wave(5600, 10, true);
  RevsInput with_stock = one();
  for (LadderRung& rung : with_stock.rungs) rung.stock = rung.free - 300;
  for (TurnLine& line : with_stock.loads) line.stock = wave(5000, 0, true);
  RevsInput bare = one();
  bare.wall.clear();
  bare.cut_rpm = 0;
  RevsInput near = one();
  near.cut_rpm = near.free_rpm;
  for (const RevsInput& in : {one(), tight, with_stock, bare, near}) {
    const draw::Document page = page_of(in);
    expect_texts_on_page(page);
    expect_texts_apart(page);
  }
}

TEST(revs_picture, says_its_limits_and_what_was_looked_at) {
  const auto svg = revs_svg(one());
  ASSERT_TRUE(svg);
  EXPECT_THAT(*svg, HasSubstr("limits of speed, free and in the cut"));
  EXPECT_THAT(*svg, HasSubstr("first hard limit"));
  EXPECT_THAT(*svg, HasSubstr("wall left"));
  RevsInput bare = one();
  bare.wall.clear();
  EXPECT_THAT(*revs_svg(bare), Not(HasSubstr("wall left")));
}

TEST(revs_picture, nothing_to_draw_is_said) {
  RevsInput none = one();
  none.rungs.clear();
  EXPECT_FALSE(draw_revs(none));
  EXPECT_EQ(draw_revs(none).error().code, base::ErrorCode::not_found);
}

}  // namespace
}  // namespace portwright::sheet
