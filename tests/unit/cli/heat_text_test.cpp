#include "cli/heat_text.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

// The words of heat: degrees only after a spot was read.
namespace portwright::cli {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

wire::HeatAnswer answer_of(bool calibrated) {
  wire::HeatAnswer answer;
  answer.rpm = 9000;
  answer.rpm_from = "usual";
  answer.settled = "stable";
  answer.calibrated = calibrated;
  answer.promise = calibrated ? "Brought to the one spot that was read." : "No spot was read on this saw.";
  wire::HeatPlace place;
  place.name = "anticlockwise side, near TDC";
  place.part = "cylinder";
  place.angle_deg = -90.0;
  place.drop_mm = 3.0;
  place.over_mean = {61.0, 44.0, 94.0, true, "+61 K (+44 to +94)"};
  if (calibrated) place.temperature = wire::HeatDegrees{183.0, 172.0, 195.0, "183 \u00B0C (172 to 195)"};
  answer.places.push_back(place);
  study::Figure figure;
  figure.id = "heat.hottest";
  figure.label = "Hottest place of the bore";
  figure.unit = "K";
  if (!calibrated) figure.waits_for = {"readings.spot"};
  if (calibrated) figure.value = 456.0, figure.text = "183 \u00B0C (172 to 195)";
  answer.figures.push_back(figure);
  return answer;
}

TEST(heat_text, without_a_spot_holds_differences_and_no_degrees) {
  const std::string text = heat_text(answer_of(false), {});
  EXPECT_THAT(text, HasSubstr("anticlockwise side, near TDC"));
  EXPECT_THAT(text, HasSubstr("+61 K (+44 to +94)"));
  EXPECT_THAT(text, HasSubstr("against the mean of the bore's wall"));
  EXPECT_THAT(text, HasSubstr("waits for a spot reading"));
  EXPECT_THAT(text, Not(HasSubstr("\u00B0")));
  EXPECT_THAT(text, Not(HasSubstr("183")));
}

TEST(heat_text, with_a_spot_holds_degrees_with_their_range) {
  const std::string text = heat_text(answer_of(true), {});
  EXPECT_THAT(text, HasSubstr("183 \u00B0C (172 to 195)"));
  EXPECT_THAT(text, HasSubstr("from the spot read"));
  EXPECT_THAT(text, Not(HasSubstr("waits for")));
}

}  // namespace
}  // namespace portwright::cli
