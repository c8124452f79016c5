#include "desk/cut_sheet.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace portwright::desk {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

CutSheetRequest request(const std::string& wishes) {
  CutSheetRequest out;
  out.plan.file = PORTWRIGHT_SOURCE_DIR "/data/samples/alder-60.saw.toml";
  out.plan.wishes = wishes;
  return out;
}

base::Error refused(const CutSheetRequest& request) {
  const auto sheet = cut_sheet_drawn(request);
  if (sheet) {
    ADD_FAILURE() << "a sheet was drawn";
    return {};
  }
  return sheet.error().front();
}

TEST(desk_cut_sheet, is_a_pdf_on_any_of_its_papers) {
  for (const char* paper : {"", "Letter", "A5"}) {
    CutSheetRequest asked = request("exhaust at 99 deg; squish 0.7 mm");
    asked.paper = paper;
    const auto sheet = cut_sheet_drawn(asked);
    ASSERT_TRUE(sheet) << sheet.error().front().message;
    EXPECT_TRUE(sheet->bytes.starts_with("%PDF"));
    EXPECT_GE(sheet->about.pages, 1);
    EXPECT_EQ(sheet->about.kind, "cut-sheet");
  }
}

TEST(desk_cut_sheet, a_band_too_narrow_names_the_reading_that_would_do) {
  CutSheetRequest asked = request("exhaust at 99 deg; squish 0.7 mm");
  asked.band = "0.2 deg";
  const base::Error error = refused(asked);
  EXPECT_EQ(error.path, "band");
  EXPECT_THAT(error.readings, Not(IsEmpty()));
}

TEST(desk_cut_sheet, a_surer_hand_allows_a_narrower_band) {
  CutSheetRequest asked = request("exhaust at 99 deg; squish 0.7 mm");
  asked.band = "0.45 deg";
  EXPECT_EQ(refused(asked).path, "band");
  asked.hand = "0.04 mm";
  EXPECT_TRUE(cut_sheet_drawn(asked));
}

TEST(desk_cut_sheet, a_band_names_each_unit_once_and_is_no_barn_door) {
  CutSheetRequest asked = request("exhaust at 99 deg; squish 0.7 mm");
  asked.band = "1 deg, 2 deg";
  EXPECT_THAT(refused(asked).message, HasSubstr("an angle twice"));
  asked.band = "0.05 mm; 0.06 mm";
  EXPECT_THAT(refused(asked).message, HasSubstr("a length twice"));
  asked.band = "90 deg, 40 mm";
  EXPECT_THAT(refused(asked).message, HasSubstr("over 5 deg"));
  asked.band = "1 deg, 40 mm";
  EXPECT_THAT(refused(asked).message, HasSubstr("over 0.5 mm"));
  asked.band = "0.8 deg, 0.06 mm";  // the handbook's own
  EXPECT_TRUE(cut_sheet_drawn(asked));
}

TEST(desk_cut_sheet, what_is_done_is_planned_on_from) {
  CutSheetRequest asked = request("exhaust at 99 deg; squish 0.7 mm; exhaust width 60 %");
  asked.plan.done = "widen exhaust +1.5 mm";
  EXPECT_TRUE(cut_sheet_drawn(asked));  // the width is past its number and is told; the rest is planned
  asked.plan.done = "base -0.34 mm; widen exhaust +1.0 mm";
  EXPECT_TRUE(cut_sheet_drawn(asked));
  // All three within their bands, two of them past their numbers: nothing is left, and nothing is refused.
  asked.plan.done = "base -0.36 mm; widen exhaust +1.12 mm; roof exhaust +1.98 mm";
  EXPECT_TRUE(cut_sheet_drawn(asked));
  asked.plan.done = "roof exhaust -1 mm";
  EXPECT_THAT(refused(asked).message, HasSubstr("put metal on"));
}

TEST(desk_cut_sheet, a_list_decided_by_hand_is_a_sheet_too) {
  CutSheetRequest asked = request("");
  asked.cuts = "base -0.3 mm; widen exhaust +0.8 mm; roof exhaust +1.5 mm";
  for (const char* done : {"", "base -0.33 mm; widen exhaust +0.9 mm", "base -0.33 mm; advance +2 deg"})
    for (const char* paper : {"A4", "A5"}) {
      asked.plan.done = done;
      asked.paper = paper;
      const auto sheet = cut_sheet_drawn(asked);
      ASSERT_TRUE(sheet) << sheet.error().front().message;
      EXPECT_TRUE(sheet->bytes.starts_with("%PDF"));
    }
  asked.plan.done = "";
  asked.way = 2;
  EXPECT_EQ(refused(asked).path, "way");
  asked.way = 1;
  asked.cuts = "base -1 mm";
  EXPECT_THAT(refused(asked).message, HasSubstr("Working squish"));
  asked.cuts = "roof chimney +1 mm";
  EXPECT_EQ(refused(asked).code, base::ErrorCode::not_found);
}

TEST(desk_cut_sheet, takes_wishes_or_cuts_and_not_both_or_neither) {
  CutSheetRequest asked = request("exhaust at 99 deg");
  asked.cuts = "base -0.3 mm";
  EXPECT_EQ(refused(asked).code, base::ErrorCode::usage);
  EXPECT_EQ(refused(asked).path, "cuts");
  EXPECT_EQ(refused(request("")).path, "wishes");
}

TEST(desk_cut_sheet, what_is_typed_wrong_is_refused_with_its_place) {
  CutSheetRequest asked = request("exhaust at 99 deg");
  asked.way = 99;
  EXPECT_EQ(refused(asked).path, "way");
  asked = request("exhaust at 99 deg");
  asked.paper = "A3";
  EXPECT_EQ(refused(asked).path, "paper");
  asked = request("exhaust at 99 deg");
  asked.band = "3 psi";
  EXPECT_EQ(refused(asked).path, "band");
  asked = request("exhaust at 99 deg");
  asked.plan.done = "roof nothing +1 mm";
  EXPECT_EQ(refused(asked).code, base::ErrorCode::not_found);
}

}  // namespace
}  // namespace portwright::desk
