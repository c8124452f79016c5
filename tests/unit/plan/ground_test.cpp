// Free cuts, and what limits and wishes leave them.
#include <algorithm>
#include <random>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "plan/ground.hpp"
#include "unit/plan/plan_saws.hpp"

namespace portwright::plan {
namespace {

using bench::sample_survey;
using ::testing::Contains;
using ::testing::HasSubstr;

std::vector<Knob> knobs_for(const geometry::Survey& survey, const char* free) {
  auto knobs = chosen(knobs_of(survey, geometry::resolve(survey)), free);
  EXPECT_TRUE(knobs) << (knobs ? "" : knobs.error().front().message);
  return knobs ? *std::move(knobs) : std::vector<Knob>();
}

Ground ground_of(const geometry::Survey& survey, const char* free, const char* wishes = "") {
  Settings settings;
  settings.folder = ".";
  Wishes read;
  if (*wishes != '\0') read = *parse_wishes(wishes);
  auto ground = Ground::make(read, knobs_for(survey, free), survey, settings);
  EXPECT_TRUE(ground) << (ground ? "" : ground.error().front().message);
  return *std::move(ground);
}

double worst_side(const Ground& ground, const std::vector<double>& shares) {
  double worst = 1e300;
  for (const Ground::Side& side : ground.sides()) {
    double sum = side.offset;
    for (std::size_t k = 0; k < shares.size(); ++k) sum += side.slope[k] * shares[k];
    worst = std::min(worst, sum);
  }
  return worst;
}

TEST(knobs, the_usual_six_come_first_and_others_are_asked_for) {
  const auto survey = sample_survey("alder-60");
  std::vector<std::string> names;
  for (const Knob& knob : knobs_for(survey, "")) names.push_back(knob.name);
  EXPECT_THAT(names,
              testing::ElementsAre("base", "roof exhaust", "widen exhaust", "roof transfers", "floor intake", "band"));
  EXPECT_EQ(knobs_for(survey, "advance; outlets; mouths").size(), 3u);
}

TEST(knobs, go_as_far_as_is_said) {
  const auto survey = sample_survey("alder-60");
  const auto knobs = knobs_for(survey, "roof exhaust up to 1.2 mm; base up to 20 thou; advance up to 3 deg");
  ASSERT_EQ(knobs.size(), 3u);
  EXPECT_NEAR(knobs[0].most, 1.2e-3, 1e-12);
  EXPECT_NEAR(knobs[1].most, 20 * 0.0254e-3, 1e-12);
}

TEST(knobs, what_is_none_is_asked_about) {
  const auto survey = sample_survey("alder-60");
  const auto all = knobs_of(survey, geometry::resolve(survey));
  const auto refused = [&](const char* text) { return chosen(all, text).error().front(); };
  EXPECT_THAT(refused("roof exhuast").hint, HasSubstr("roof exhaust"));
  EXPECT_EQ(refused("base; nonsense").path, "free.2");
  EXPECT_THAT(refused("roof boost").hint, HasSubstr("base"));
  EXPECT_THAT(refused("base up to 3").message, HasSubstr("3"));
  EXPECT_THAT(refused("base up to 30 mm").message, HasSubstr("no end"));
  EXPECT_THAT(refused("mouths up to 1 mm").message, HasSubstr("end of its own"));
}

TEST(knobs, one_amount_cuts_every_port_of_a_kind) {
  const auto survey = sample_survey("alder-60");
  const auto knobs = knobs_for(survey, "roof transfers");
  const std::vector<double> amounts{0.4e-3};
  EXPECT_EQ(cuts::cuts_text(cuts_of(knobs, amounts)), "roof primary +0.4 mm; roof secondary +0.4 mm");
  EXPECT_TRUE(cuts_of(knobs, std::vector<double>{0.0}).empty());
}

// spruce-92: mouths of 1.7, 1.5 and 0.9 cm² to feet of 2.6, 2.3 and 1.1; ledges of 4, 4 and 2 mm. Two windows each but
// for the boost port. Half way: 0.45, 0.40 and 0.10 cm² more, so 2 · 0.18 + 2 · 0.16 + 0.02 cc of ledge.
TEST(knobs, an_opened_case_is_larger_by_its_ledges) {
  const auto survey = sample_survey("spruce-92");
  const auto knobs = knobs_for(survey, "mouths");
  const std::string text = cuts::cuts_text(cuts_of(knobs, std::vector<double>{0.5}));
  EXPECT_THAT(text, HasSubstr("to 2.15 cm2"));
  EXPECT_THAT(text, HasSubstr("to 1.9 cm2"));
  EXPECT_THAT(text, HasSubstr("to 1 cm2"));
  EXPECT_THAT(text, HasSubstr("case +0.7 cc"));
}

TEST(ground, the_sides_hold_every_hard_limit_by_its_chance) {
  for (const char* name : {"alder-60", "oak-110", "spruce-92"}) {
    const auto survey = sample_survey(name);
    const Ground ground = ground_of(survey, "");
    std::mt19937 random(7);
    std::uniform_real_distribution<double> share(0.0, 1.0);
    std::vector<std::vector<double>> inside, outside;
    while (inside.size() < 6 || outside.size() < 3) {
      std::vector<double> one(ground.knobs().size());
      for (double& s : one) s = share(random);
      const double worst = worst_side(ground, one);
      if (worst >= 0.0 && inside.size() < 6) inside.push_back(one);
      if (worst < -0.15 && outside.size() < 3) outside.push_back(one);
    }
    for (const std::string& why : ground.refused(inside, false)) EXPECT_EQ(why, "") << name;
    for (const std::string& why : ground.refused(outside, false)) EXPECT_NE(why, "") << name;
  }
}

TEST(ground, wishes_are_conditions_that_the_cuts_meet) {
  const auto survey = sample_survey("alder-60");
  const Ground ground = ground_of(survey, "base; roof exhaust", "squish at least 0.7 mm; exhaust at 101 deg");
  ASSERT_EQ(ground.no_less(), 1u);
  ASSERT_EQ(ground.equal(), 1u);
  // By hand: what opens at 101 deg here, found by halving on the engine itself, is where the condition is 0.
  double low = 0.0, high = 1.0;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    const auto engine = ground.engine(std::vector<double>{0.0, middle});
    ASSERT_TRUE(engine);
    const double opens = engine->slider->angle_down(*engine->ports[0].passed) * 180.0 / 3.14159265358979323846;
    (opens > 101.0 ? low : high) = middle;
  }
  std::vector<double> values(2);
  ground.curved(std::vector<double>{0.0, low}, values);
  EXPECT_NEAR(values[1], 0.0, 1e-6);
  EXPECT_GT(values[0], 0.0);  // 0.95 mm of squish
  ground.curved(std::vector<double>{0.9, low}, values);
  EXPECT_LT(values[0], 0.0);  // 0.05 mm
}

TEST(ground, rounding_keeps_inside_the_sides) {
  const auto survey = sample_survey("alder-60");
  const Ground ground = ground_of(survey, "base; roof exhaust");
  // As far down as the squish limit lets.
  double base = 0.0;
  for (double s = 0.0; s <= 1.0; s += 1e-4)
    if (worst_side(ground, {s, 0.5}) >= 0.0) base = s;
  const double step = 0.05e-3;
  const std::vector<double> rounded = ground.rounded(std::vector<double>{base, 0.4871}, step);
  EXPECT_GE(worst_side(ground, rounded), -1e-9);
  for (std::size_t k = 0; k < 2; ++k) {
    const double steps = rounded[k] * ground.knobs()[k].most / step;
    EXPECT_NEAR(steps, std::round(steps), 1e-9);
  }
  EXPECT_LE(rounded[0], base);
}

TEST(ground, a_wish_that_this_saw_cannot_have_is_told) {
  const auto survey = sample_survey("alder-60");
  Settings settings;
  const auto ground = Ground::make(*parse_wishes("boost at 118 deg"), knobs_for(survey, ""), survey, settings);
  ASSERT_FALSE(ground);
  EXPECT_THAT(ground.error().front().message, HasSubstr("boost"));
}

}  // namespace
}  // namespace portwright::plan
