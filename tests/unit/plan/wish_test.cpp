#include "plan/wish.hpp"

#include <cmath>
#include <numbers>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace portwright::plan {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

constexpr double degree = std::numbers::pi / 180.0;

Wish read(std::string_view text) {
  const auto wishes = parse_wishes(text);
  if (!wishes) {
    ADD_FAILURE() << text << ": " << wishes.error().front().message;
    return {};
  }
  EXPECT_EQ(wishes->size(), 1u) << text;
  return wishes->front();
}

base::Error refused(std::string_view text) {
  const auto wishes = parse_wishes(text);
  if (wishes) {
    ADD_FAILURE() << text << " was taken";
    return {};
  }
  return wishes.error().front();
}

struct Taken {
  const char* text;
  Aspect aspect;
  const char* subject;
  Relation relation;
  double value;
};

TEST(wish, every_form_is_taken_with_its_unit) {
  const Taken all[] = {
      {"exhaust at 99 deg", Aspect::opens, "exhaust", Relation::is, 99 * degree},
      {"Exhaust opens at 99 deg", Aspect::opens, "exhaust", Relation::is, 99 * degree},
      {"exhaust opens 99 deg", Aspect::opens, "exhaust", Relation::is, 99 * degree},
      {"exhaust opens at least 99 deg", Aspect::opens, "exhaust", Relation::at_least, 99 * degree},
      {"exhaust port closes 261 deg", Aspect::closes, "exhaust", Relation::is, 261 * degree},
      {"exhaust duration 162 deg", Aspect::duration, "exhaust", Relation::is, 162 * degree},
      {"transfers at 119 deg", Aspect::opens, "transfers", Relation::is, 119 * degree},
      {"intake at 78 deg", Aspect::opens, "intake", Relation::is, 78 * degree},
      {"exhaust width 31 mm", Aspect::width, "exhaust", Relation::is, 0.031},
      {"exhaust width 62 %", Aspect::width_of_bore, "exhaust", Relation::is, 0.62},
      {"exhaust width at most 1 in", Aspect::width, "exhaust", Relation::at_most, 0.0254},
      {"blowdown 21 deg", Aspect::blowdown, "", Relation::is, 21 * degree},
      {"squish 20 thou", Aspect::squish, "", Relation::is, 20 * 25.4e-6},
      {"squish clearance 0,5 mm", Aspect::squish, "", Relation::is, 0.5e-3},
      {"chamber 7.5 cc", Aspect::chamber, "", Relation::is, 7.5e-6},
      {"chamber volume at least 7.5 cc", Aspect::chamber, "", Relation::at_least, 7.5e-6},
      {"trapped ratio 7", Aspect::trapped_ratio, "", Relation::is, 7.0},
      {"full ratio 9.5", Aspect::full_ratio, "", Relation::is, 9.5},
      {"skirt cover at least 1.5 mm", Aspect::skirt_cover, "", Relation::at_least, 1.5e-3},
      {"skirt cover intake at least 1 mm", Aspect::skirt_cover, "intake", Relation::at_least, 1e-3},
      {"skirt exhaust cover at least 1 mm", Aspect::skirt_cover, "exhaust", Relation::at_least, 1e-3},
  };
  for (const Taken& one : all) {
    const Wish wish = read(one.text);
    EXPECT_EQ(wish.aspect, one.aspect) << one.text;
    EXPECT_EQ(wish.subject, one.subject) << one.text;
    EXPECT_EQ(wish.relation, one.relation) << one.text;
    EXPECT_NEAR(wish.value, one.value, 1e-12) << one.text;
    EXPECT_FALSE(wish.as_stock) << one.text;
    EXPECT_EQ(wish.text, one.text);
  }
}

TEST(wish, as_stock_needs_no_number) {
  EXPECT_TRUE(read("trapped ratio as stock").as_stock);
  EXPECT_TRUE(read("transfers opens as stock").as_stock);
  EXPECT_EQ(read("skirt cover at least as stock").relation, Relation::at_least);
}

TEST(wish, several_are_parted_by_semicolons_and_line_ends) {
  const auto wishes = parse_wishes("exhaust at 99 deg; blowdown 21 deg\nsquish 0.5 mm;;trapped ratio as stock\n");
  ASSERT_TRUE(wishes);
  EXPECT_EQ(wishes->size(), 4u);
}

TEST(wish, what_could_mean_two_things_is_asked_about_with_wishes_that_can_be_read) {
  EXPECT_THAT(refused("exhaust 99 deg").readings, Contains("exhaust opens 99 deg"));
  EXPECT_THAT(refused("exhaust 99 deg").readings, Contains("exhaust duration 99 deg"));
  EXPECT_THAT(refused("exhaust 99 deg").readings, Not(Contains("exhaust width 99 deg")));
  EXPECT_THAT(refused("transfers as stock").readings, Contains("transfers opens as stock"));
  EXPECT_THAT(refused("exhaust width 62").readings, ElementsAre("exhaust width 62 mm", "exhaust width 62 %"));
  EXPECT_THAT(refused("squish 0.5").readings, ElementsAre("squish 0.5 mm", "squish 0.5 in", "squish 0.5 thou"));
  EXPECT_THAT(refused("squish at least 0.5").readings, Contains("squish at least 0.5 thou"));
  for (const char* text : {"exhaust 99 deg", "transfers as stock", "exhaust width 62", "squish 0.5"})
    for (const std::string& reading : refused(text).readings) read(reading);
}

TEST(wish, a_wrong_unit_a_tolerance_and_nothing_are_refused) {
  EXPECT_EQ(refused("squish 5 deg").code, base::ErrorCode::wrong_unit);
  EXPECT_THAT(refused("squish 0.5 mm +- 0.1").message, HasSubstr("tolerance"));
  EXPECT_EQ(refused("squish 0 mm").code, base::ErrorCode::out_of_range);
  EXPECT_EQ(refused("chamber -1 cc").code, base::ErrorCode::out_of_range);
  EXPECT_THAT(refused("").message, HasSubstr("Nothing is wished"));
  EXPECT_THAT(refused("squish").message, HasSubstr("how much"));
  EXPECT_THAT(refused("exhaust").message, HasSubstr("exhaust"));
  EXPECT_THAT(refused("blowdwn 21 deg").hint, HasSubstr("blowdown"));
  EXPECT_THAT(refused("99 deg").message, HasSubstr("what is wished"));
}

TEST(wish, all_errors_come_at_once_with_their_places) {
  const auto wishes = parse_wishes("squish 0.5; exhaust at 99 deg; blowdown 3 mm");
  ASSERT_FALSE(wishes);
  ASSERT_EQ(wishes.error().size(), 2u);
  EXPECT_EQ(wishes.error()[0].path, "wishes.1");
  EXPECT_EQ(wishes.error()[1].path, "wishes.3");
}

TEST(wish, hostile_text_is_refused_not_obeyed) {
  EXPECT_EQ(refused(std::string(70000, 'x')).path, "wishes");
  EXPECT_FALSE(parse_wishes("squish \x01 0.5 mm"));
  EXPECT_FALSE(parse_wishes("squish \xff\xfe"));
  std::string many;
  for (int i = 0; i < 30; ++i) many += "squish 0.5 mm;";
  EXPECT_FALSE(parse_wishes(many));
  EXPECT_FALSE(parse_wishes("at at at"));
  EXPECT_FALSE(parse_wishes("as stock"));
}

TEST(wish, too_many_are_told_as_wishes) {
  std::string many;
  for (int i = 0; i < 260; ++i) many += "exhaust at 99 deg;";
  for (const std::string& text : {many, many.substr(0, 18 * 26)}) {
    const auto read = parse_wishes(text);
    ASSERT_FALSE(read);
    EXPECT_NE(read.error().front().message.find("24 wishes"), std::string::npos);
    EXPECT_EQ(read.error().front().message.find("cuts"), std::string::npos);
  }
}

}  // namespace
}  // namespace portwright::plan
