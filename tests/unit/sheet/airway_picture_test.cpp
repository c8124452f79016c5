#include "sheet/airway_picture.hpp"

#include <gmock/gmock.h>

#include "unit/sheet/layout.hpp"

namespace portwright::sheet {
namespace {

using test::expect_texts_apart;
using test::expect_texts_on_page;
using testing::HasSubstr;
using testing::Not;

AirwayInput two_passages() {
  AirwayInput in{"Larch 70", "as received", "", 9000, {}, {}};
  in.now.intake = {{"tract", 1, 44.0, 2.3, "venturi", 21}};
  in.now.transfers = {{"primary", 2, 24.0, 1.2, "ledge at the case mouth", 84}, {"secondary", 2, 20.0, 0, "bend", 60}};
  in.now.exhaust = {{"exhaust", 1, 55.0, 9.5, "wall friction", 6}};
  in.now.trapped_mg = 30.0, in.now.straight_mg = 10.0;
  return in;
}

AirwayInput four_passages_cut() {
  AirwayInput in = two_passages();
  in.now.transfers.push_back({"third", 2, 8.0, 0.4, "gasket", 30});
  in.now.transfers.push_back({"boost", 1, 5.0, 0.2, "bend", 160});
  in.stock = in.now;
  in.plan = "cuts 1 to 2";
  in.now.transfers[0].forward_mg = 27.0;
  in.now.trapped_mg = 33.0;
  return in;
}

draw::Document page_of(const AirwayInput& in) {
  auto canvas = draw_airway(in);
  EXPECT_TRUE(canvas);
  draw::Document out;
  if (canvas) out.pages.push_back(std::move(*canvas));
  return out;
}

/// Widths of the tinted bands, in order of drawing [mm].
std::vector<double> widths(const AirwayInput& in) {
  std::vector<double> out;
  const draw::Document page = page_of(in);
  for (const draw::Item& item : page.pages.at(0).items())
    if (const auto* fill = std::get_if<draw::FillItem>(&item); fill != nullptr && fill->tint)
      out.push_back(draw::bounds(fill->area).width());
  return out;
}

TEST(AirwayPicture, widths_are_in_proportion_to_what_passes) {
  const auto w = widths(two_passages());
  ASSERT_EQ(w.size(), 6U);  // tract, two passages, trapped, straight through, exhaust
  const double scale = w[0] / 44.0;
  const double passed[] = {44, 24, 20, 30, 10, 55};
  for (std::size_t i = 0; i < w.size(); ++i) EXPECT_NEAR(w[i], scale * passed[i], 1e-9) << i;
}

TEST(AirwayPicture, texts_stay_on_the_page_and_apart) {
  auto eight = four_passages_cut();
  for (const char* name : {"third, mirrored side", "fourth"})
    eight.now.transfers.push_back({name, 1, 3.0, 0.3, "bend of the passage", 12});
  for (const AirwayInput& in : {two_passages(), four_passages_cut(), eight}) {
    expect_texts_on_page(page_of(in));
    expect_texts_apart(page_of(in));
  }
}

TEST(AirwayPicture, each_passage_says_its_dearest_corner) {
  const auto svg = *airway_svg(two_passages());
  EXPECT_THAT(svg, HasSubstr("aria-label=\"primary, 2\""));
  EXPECT_THAT(svg, HasSubstr("aria-label=\"84 mbar\""));
  EXPECT_THAT(svg, HasSubstr("aria-label=\"2.3 back\""));
  EXPECT_THAT(airway_sentence(two_passages()), HasSubstr("ledge at the case mouth of primary, 84 mbar"));
}

TEST(AirwayPicture, the_sentence_adds_up) {
  EXPECT_THAT(airway_sentence(two_passages()),
              HasSubstr("Of 40.0 mg of fresh charge 75 % stays in the cylinder and 25 % goes out unburnt."));
  EXPECT_THAT(airway_sentence(two_passages()), HasSubstr("1.2 mg blow back into the transfers and 2.3 mg spit back"));
  EXPECT_THAT(airway_sentence(four_passages_cut()), HasSubstr("Trapped more than stock by 3.0 mg."));
}

TEST(AirwayPicture, no_blue_where_nothing_changes) {
  EXPECT_THAT(*airway_svg(two_passages()), Not(HasSubstr("#1340b8")));
  EXPECT_THAT(*airway_svg(four_passages_cut()), HasSubstr("#1340b8"));
}

TEST(AirwayPicture, the_same_numbers_give_the_same_bytes) {
  EXPECT_EQ(*airway_svg(four_passages_cut()), *airway_svg(four_passages_cut()));
}

TEST(AirwayPicture, nothing_that_moves_is_said) {
  ASSERT_FALSE(draw_airway({"Larch 70", "", "", 9000, {}, {}}));
  EXPECT_EQ(draw_airway({"Larch 70", "", "", 9000, {}, {}}).error().code, base::ErrorCode::not_found);
}

}  // namespace
}  // namespace portwright::sheet
