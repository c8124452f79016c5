// What reaches the wood, of real samples and of saws with few readings.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "desk/revs.hpp"
#include "turning_samples.hpp"

namespace {

using namespace portwright;
using namespace turning_samples;
using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

const study::Figure* figure(const wire::ChainAnswer& answer, const std::string& id) {
  for (const study::Figure& one : answer.figures)
    if (one.id == id) return &one;
  return nullptr;
}

desk::ChainRequest few(const std::string& file, const std::string& cuts = "") {
  desk::ChainRequest request;
  request.file = file;
  request.cuts = cuts;
  request.members = 4;
  return request;
}

TEST(chain, power_over_speed_is_the_pull_and_the_fitted_sprocket_turns_as_read) {
  const auto answer = desk::chain(few(sample("larch-70"), "outlets to 2.6 cm2"));
  ASSERT_TRUE(answer) << answer.error().front().message;
  EXPECT_TRUE(answer->anchored);
  EXPECT_EQ(answer->width_from, "wood");
  EXPECT_NEAR(answer->width_mm, 400.0, 1e-9);
  for (const char* id : {"drive.chain_speed", "drive.force", "drive.wood_power", "drive.cut_time"}) {
    ASSERT_NE(figure(*answer, id), nullptr) << id;
    EXPECT_GT(*figure(*answer, id)->value, 0.0) << id;
  }
  // Pulled as the stock saw pulls at the in-cut reading, it turns there again with the fitted sprocket.
  const study::Figure* speed = figure(*answer, "drive.chain_speed");
  ASSERT_TRUE(speed->stock);
  EXPECT_NEAR(speed->stock->value, 2.0 * 0.009525 * 7.0 * 8500.0 / 60.0, 0.15);
  const study::Figure *power = figure(*answer, "drive.wood_power"), *time = figure(*answer, "drive.cut_time_change");
  ASSERT_TRUE(power && power->change && time);
  EXPECT_LT(power->change->value * *time->value, 0.0) << "more power, less time";
  EXPECT_LT(*time->high - *time->low, 0.5 * 100.0 * (*power->high - *power->low) / *power->value)
      << "the same draws on both sides";
  double chance = 0.0;
  bool fitted = false;
  for (const wire::Sprocket& one : answer->sprockets) {
    chance += one.chance;
    fitted = fitted || (one.fitted && one.teeth == 7);
  }
  EXPECT_TRUE(fitted);
  EXPECT_LE(chance, 1.0 + 1e-9);
  EXPECT_THAT(answer->widths, testing::SizeIs(4));
  EXPECT_THAT(answer->sentences, Not(IsEmpty()));
  EXPECT_THAT(answer->cautions.back(), HasSubstr("thrown"));
}

TEST(chain, a_bar_without_a_pitch_gets_a_sentence_and_no_number) {
  const Folder folder;
  const std::string text = changed(text_of(sample("larch-70")), "chain_pitch = \"3/8 in\"\n", "");
  const auto answer = desk::chain(few(folder.file("p.saw.toml", text)));
  ASSERT_TRUE(answer) << answer.error().front().message;
  EXPECT_THAT(answer->waits, Contains(HasSubstr("no chain pitch")));
  EXPECT_THAT(answer->figures, Not(IsEmpty()));
  for (const study::Figure& one : answer->figures) {
    EXPECT_FALSE(one.value) << one.id;
    EXPECT_THAT(one.waits_for, Contains("drive.chain_pitch"));
  }
}

TEST(chain, a_saw_that_cannot_be_turned_still_knows_its_chain_speed) {
  const Folder folder;
  const auto answer = desk::chain(few(folder.file(
      "c.saw.toml",
      "name = \"c\"\n[drive]\nchain_pitch = \"3/8 in\"\nteeth = 7\n[readings]\nno_load = \"10000 rpm\"\n")));
  ASSERT_TRUE(answer) << answer.error().front().message;
  EXPECT_NEAR(*figure(*answer, "drive.chain_speed_free")->value, 22.2, 0.05);
  EXPECT_FALSE(figure(*answer, "drive.wood_power")->value);
  EXPECT_THAT(answer->waits, Contains(HasSubstr("cannot be turned")));
}

TEST(chain, stopped_says_so) {
  const auto answer = desk::chain(few(sample("alder-60")), [](double, const std::string&) { return true; });
  ASSERT_TRUE(answer);
  EXPECT_TRUE(answer->stopped);
  EXPECT_THAT(answer->sprockets, IsEmpty());
}

}  // namespace
