// What a builder says of an engine, read.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "seek/wish.hpp"

namespace portwright::seek {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;

EngineWish must_read(const char* text) {
  auto wish = parse_engine_wish(text);
  EXPECT_TRUE(wish) << text << ": " << (wish ? "" : wish.error().front().message);
  return wish ? *std::move(wish) : EngineWish{};
}

base::Error refused(const char* text) {
  const auto wish = parse_engine_wish(text);
  EXPECT_FALSE(wish) << text;
  return wish ? base::Error{} : wish.error().front();
}

TEST(engine_wish, says_what_is_wanted_most_and_what_must_hold) {
  const EngineWish wish = must_read(
      "Most torque at 8,000 rpm for a 28 in bar; power at 10500 rpm at least +2 %; heat at most as stock; squish at "
      "least 0.5 mm; low speed free");
  EXPECT_EQ(wish.aim.figure, Figure::torque);
  EXPECT_NEAR(wish.aim.speed * 60.0, 8000.0, 1e-9);
  EXPECT_NEAR(wish.aim.bar, 28 * 0.0254, 1e-12);
  ASSERT_EQ(wish.holds.size(), 2u);
  EXPECT_EQ(wish.holds[0].figure, Figure::power);
  EXPECT_NEAR(wish.holds[0].speed * 60.0, 10500.0, 1e-9);
  EXPECT_TRUE(wish.holds[0].at_least);
  EXPECT_NEAR(wish.holds[0].change, 0.02, 1e-15);
  EXPECT_FALSE(wish.holds[1].at_least);
  EXPECT_EQ(wish.holds[1].change, 0.0);
  ASSERT_EQ(wish.geometry.size(), 1u);
  EXPECT_EQ(wish.geometry[0].aspect, plan::Aspect::squish);
  EXPECT_TRUE(wish.low_speed_free);
}

TEST(engine_wish, has_an_aim_alone) {
  EXPECT_EQ(must_read("most power").aim.speed, 0.0);
  EXPECT_EQ(must_read("most pull").aim.figure, Figure::pull);
  EXPECT_EQ(must_read("least heat; power at least as stock").aim.figure, Figure::heat);
  EXPECT_EQ(aim_text(must_read("most power at 9500 rpm").aim), "most power at 9\u202f500 rpm");
}

TEST(engine_wish, is_told_from_one_about_geometry) {
  EXPECT_TRUE(speaks_of_engine("squish 0.5 mm; most pull"));
  EXPECT_FALSE(speaks_of_engine("exhaust at 99 deg; squish 0.5 mm"));
  EXPECT_FALSE(speaks_of_engine(""));
}

TEST(engine_wish, what_could_mean_two_things_or_nothing_is_asked_about) {
  EXPECT_THAT(refused("squish 0.5 mm").readings, Contains("most power"));
  EXPECT_THAT(refused("most power; most pull").readings, Contains("pull at least as stock"));
  EXPECT_THAT(refused("most power; torque at 7000 rpm").readings, Contains("torque at 7000 rpm at least as stock"));
  EXPECT_THAT(refused("most power; heat").readings, Contains("heat at most as stock"));
  EXPECT_THAT(refused("most speed").readings, Contains("most power"));
  EXPECT_THAT(refused("most heat").readings, Contains("least heat"));
  EXPECT_THAT(refused("most pull at 8000 rpm").message, HasSubstr("no speed of its own"));
  EXPECT_THAT(refused("most torque at 8000").message, HasSubstr("8000"));  // a unit is asked for
  EXPECT_THAT(refused("most torque at 80000 rpm").message, HasSubstr("no saw turns"));
  EXPECT_THAT(refused("most power for a 3 in bar").message, HasSubstr("none that a chain runs on"));
  EXPECT_THAT(refused("most power quickly").message, HasSubstr("quickly"));
}

// What the engine gives by itself is known to about 30 % only.
TEST(engine_wish, does_not_take_power_for_itself) {
  const base::Error error = refused("most pull; power at 9000 rpm at least 4 kW");
  EXPECT_THAT(error.hint, HasSubstr("beside stock"));
  EXPECT_THAT(error.readings, Contains("power at 9000 rpm at least +5 %"));
  EXPECT_EQ(error.path, "wishes.2");
}

TEST(engine_wish, all_that_is_wrong_is_told_at_once) {
  const auto wish = parse_engine_wish("most speed; heat; exhaust 99 deg");
  ASSERT_FALSE(wish);
  ASSERT_EQ(wish.error().size(), 3u);
  EXPECT_EQ(wish.error()[2].path, "wishes.3");
}

}  // namespace
}  // namespace portwright::seek
