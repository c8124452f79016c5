#include "desk/edge_place.hpp"

#include <gtest/gtest.h>

#include <numbers>

namespace {

using namespace portwright;
using geometry::EdgeForm;
using geometry::OpenedBy;

constexpr double deg = std::numbers::pi / 180.0;

TEST(edge_place, a_bare_angle_is_where_the_port_opens) {
  const auto place = desk::parse_place("103 deg", OpenedBy::crown);
  ASSERT_TRUE(place);
  EXPECT_EQ(place->form, EdgeForm::opens);
  EXPECT_NEAR(place->value, 103.0 * deg, 1e-12);
  EXPECT_EQ(place->understood, "opens 103.0 deg after TDC");
  EXPECT_EQ(desk::parse_place("75 deg", OpenedBy::skirt)->understood, "opens 75.0 deg before TDC");
}

TEST(edge_place, a_bare_angle_that_may_be_a_duration_is_asked_about) {
  for (const auto& [text, by] : {std::pair{"164 deg", OpenedBy::crown}, std::pair{"150 deg", OpenedBy::skirt}}) {
    const auto place = desk::parse_place(text, by);
    ASSERT_FALSE(place) << text;
    EXPECT_EQ(place.error().readings.front(), std::string("duration ") + text);
  }
}

TEST(edge_place, what_was_offered_can_be_typed) {
  for (const char* text : {"164 deg", "24.5 mm"}) {
    const auto asked = desk::parse_place(text, OpenedBy::crown);
    ASSERT_FALSE(asked);
    for (const std::string& reading : asked.error().readings)
      EXPECT_TRUE(desk::parse_place(reading, OpenedBy::crown)) << reading;
  }
}

TEST(edge_place, a_closing_before_tdc_is_echoed_after_it) {
  const auto place = desk::parse_place("closes 103 deg", OpenedBy::crown);
  ASSERT_TRUE(place);
  EXPECT_NEAR(place->value, 257.0 * deg, 1e-12);
  EXPECT_EQ(place->understood, "closes 257.0 deg after TDC");
}

TEST(edge_place, nonsense_is_refused_with_what_would_do) {
  for (const char* text :
       {"", "soon", "103", "opens", "opens 200 deg", "drop -1 mm", "duration 24 mm", "8 cc", "dorp 24 mm"})
    EXPECT_FALSE(desk::parse_place(text, OpenedBy::crown)) << text;
  EXPECT_EQ(desk::parse_place("dorp 24 mm", OpenedBy::crown).error().hint, "Did you mean drop?");
}

}  // namespace
