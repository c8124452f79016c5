#include "sheet/trace_picture.hpp"

#include <gmock/gmock.h>

#include <cmath>
#include <numbers>

#include "unit/sheet/layout.hpp"

namespace portwright::sheet {
namespace {

using test::expect_texts_apart;
using test::expect_texts_on_page;
using testing::HasSubstr;
using testing::Not;

double hump(double angle, double centre, double half, double height) {
  const double off = std::remainder(angle - centre, 360.0);
  return std::abs(off) < half ? height * std::cos(off / half * std::numbers::pi / 2) : 0.0;
}

/// A made-up turn from exhaust closing on; the exhaust opens at 105 less `earlier`.
TraceSide turn(double earlier = 0.0, double first = 255.5) {
  TraceSide out;
  out.windows = {
      {"exhaust", TraceKind::exhaust, {}}, {"primary", TraceKind::transfers, {}}, {"rear", TraceKind::intake, {}}};
  for (int i = 0; i < 360; ++i) {
    const double angle = std::fmod(first + i, 360.0), rad = std::remainder(angle, 360) * std::numbers::pi / 180;
    TraceRow row;
    row.angle = angle;
    row.cylinder = 1.1 + 34 * std::exp(-std::pow((rad - 0.25) / 0.6, 2)) + hump(angle, 110, 40, 0.9);
    row.crankcase = 1.15 - 0.3 * std::cos(rad);
    row.exhaust = 1.05 + hump(angle, 125, 20, 0.5);
    row.tract = 1.0 - 0.08 * std::sin(3 * rad);
    row.out = hump(angle, 180, 75 + earlier, 0.5);
    row.transfers = hump(angle, 182, 55, 0.6) - hump(angle, 128, 6, 0.2);
    row.intake = hump(angle, 0, 68, 0.4);
    out.rows.push_back(row);
    out.windows[0].area.push_back(hump(angle, 180, 75 + earlier, 2.7));
    out.windows[1].area.push_back(hump(angle, 180, 58, 1.7));
    out.windows[2].area.push_back(hump(angle, 0, 68, 2.0));
  }
  return out;
}

TraceInput one() { return {"Larch 70", "as received", "", 9000, turn(), {}}; }
TraceInput two() {
  TraceInput in = one();
  in.stock = in.now;
  in.now = turn(4);
  in.plan = "cut 1";
  return in;
}

draw::Document page_of(const TraceInput& in) {
  auto canvas = draw_trace(in);
  EXPECT_TRUE(canvas);
  draw::Document out;
  if (canvas) out.pages.push_back(std::move(*canvas));
  return out;
}

TEST(TracePicture, texts_stay_on_the_page_and_apart) {
  for (const TraceInput& in : {one(), two()}) {
    expect_texts_on_page(page_of(in));
    expect_texts_apart(page_of(in));
  }
}

TEST(TracePicture, opening_and_closing_stand_at_their_angles) {
  const auto svg = *trace_svg(one());
  for (const char* text : {"105", "122", "238", "292", "68"})
    EXPECT_THAT(svg, HasSubstr("aria-label=\"" + std::string(text) + "\"")) << text;
  EXPECT_THAT(*trace_svg(two()), HasSubstr("aria-label=\"101\""));
}

TEST(TracePicture, the_cylinder_is_clipped_and_its_peak_written) {
  EXPECT_THAT(*trace_svg(one()), HasSubstr("aria-label=\"to 35 bar\""));
}

TEST(TracePicture, every_line_has_its_name) {
  const auto svg = *trace_svg(one());
  for (const char* name : {"cylinder", "exhaust duct", "case", "intake tract", "transfers", "exhaust", "intake"})
    EXPECT_THAT(svg, HasSubstr("aria-label=\"" + std::string(name) + "\"")) << name;
}

TEST(TracePicture, the_sentence_holds_cylinder_against_case_when_the_transfers_open) {
  const std::string said = trace_sentence(one());
  EXPECT_THAT(said, HasSubstr("When the transfers open the cylinder stands at"));
  EXPECT_THAT(said, HasSubstr("deg later."));
  // Back: -0.2 mg/deg half sine over 12 deg; forward: 0.6 over 110 deg, less what the two share.
  EXPECT_THAT(said, HasSubstr("The cylinder gives 3 % back into the transfers."));
  EXPECT_THAT(said, Not(HasSubstr("Grey")));
  EXPECT_THAT(trace_sentence(two()), HasSubstr("Grey is stock."));
}

TEST(TracePicture, a_turn_may_begin_anywhere_and_stock_may_begin_elsewhere) {
  TraceInput in = two();
  const auto before = trace_sentence(in);
  in.stock = turn(0, 180.5);
  EXPECT_EQ(trace_sentence(in), before);
  expect_texts_on_page(page_of(in));
  in.now = turn(4, 100.5);
  expect_texts_on_page(page_of(in));
}

TEST(TracePicture, the_same_numbers_give_the_same_bytes) { EXPECT_EQ(*trace_svg(two()), *trace_svg(two())); }

TEST(TracePicture, without_a_turn_it_says_so) {
  TraceInput in = one();
  in.now.rows.resize(2);
  ASSERT_FALSE(draw_trace(in));
  EXPECT_EQ(draw_trace(in).error().code, base::ErrorCode::not_found);
}

}  // namespace
}  // namespace portwright::sheet
