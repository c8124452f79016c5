// Angles of one edge that contradict each other while nobody has read the stroke.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "larch.hpp"

namespace portwright::study {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

std::string wheel_only(const std::string& exhaust, const std::string& intake = "opens = \"75 deg\"") {
  return "name = \"wheel\"\n[[port]]\nname = \"exhaust\"\nkind = \"exhaust\"\n" + exhaust +
         "\n[[port]]\nname = \"intake\"\nkind = \"intake\"\n" + intake + "\n";
}

std::vector<base::Error> contradictions(const geometry::Survey& survey) {
  std::vector<base::Error> out;
  for (const base::Error& error : survey.errors)
    if (error.code == base::ErrorCode::contradiction) out.push_back(error);
  return out;
}

TEST(angles_without_a_stroke, that_agree_are_no_contradiction) {
  EXPECT_TRUE(contradictions(survey_of(wheel_only("opens = \"103 deg\"\ncloses = \"257 deg\""))).empty());
  EXPECT_TRUE(contradictions(survey_of(wheel_only("opens = \"103 deg\"\nduration = \"154 deg\"",
                                                  "opens = \"75 deg\"\nduration = \"150 deg\"")))
                  .empty());
}

TEST(angles_without_a_stroke, that_contradict_each_other_are_named_and_the_range_holds_both) {
  const geometry::Survey survey = survey_of(wheel_only("opens = \"103 deg\"\ncloses = \"250 deg\""));
  const std::vector<base::Error> found = contradictions(survey);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_THAT(found[0].message, HasSubstr("103.0 and at 110.0 deg"));
  EXPECT_THAT(found[0].readings, ElementsAre("port.exhaust.opens", "port.exhaust.closes"));
  const Figure opens = figure(study(survey, {}, nullptr, {}), "port.exhaust.opens");
  EXPECT_NEAR(*opens.value, 106.5, 1e-9);
  EXPECT_LT(*opens.low, 103.0);
  EXPECT_GT(*opens.high, 110.0);
}

TEST(angles_without_a_stroke, of_a_skirt_opened_window_are_compared_too) {
  const auto found =
      contradictions(survey_of(wheel_only("opens = \"103 deg\"", "opens = \"75 deg\"\nduration = \"166 deg\"")));
  ASSERT_EQ(found.size(), 1U);
  EXPECT_THAT(found[0].message, HasSubstr("75.0 and at 83.0 deg"));
}

TEST(angles_with_a_stroke, that_contradict_each_other_are_named_once) {
  std::string text = larch_text;
  text.replace(text.find("opens = \"103 deg\""), 17, "opens = \"103 deg\"\ncloses = \"250 deg\"");
  EXPECT_EQ(contradictions(survey_of(text)).size(), 1U);
}

}  // namespace
}  // namespace portwright::study
