// Designs by the cycle, on coarse cells.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "seek/answers.hpp"
#include "unit/support/sample_engines.hpp"

namespace portwright::seek {
namespace {

using ::testing::HasSubstr;

struct Saw {
  bench::SampleEngine sample;
  plan::Settings settings;
  EngineWish wish;
  std::optional<plan::Ground> ground;

  Saw(const char* name, const char* wishes, const char* free) : sample(bench::sample_engine(name)) {
    settings.folder = ".";
    wish = *parse_engine_wish(wishes);
    ground.emplace(*plan::Ground::make(wish.geometry, *plan::chosen(plan::knobs_of(sample.survey, sample.engine), free),
                                       sample.survey, settings));
  }
};

SeekPlan coarse_plan() {
  SeekPlan out;
  out.fineness = bench::coarse;
  out.seconds = 0.0;
  out.members = 2;
  out.search.most = 8;
  return out;
}

// The same points one at a time in doubles, pushed to a twentieth of the tolerance.
TEST(judge, comes_to_what_the_cycle_gives_one_engine_at_a_time) {
  for (const char* name : {"oak-110", "spruce-92"}) {
    Saw saw(name, "most power", "base up to 0.3 mm; roof exhaust up to 1 mm");
    const Asked asked = asked_of(saw.wish, 145.0);
    CycleJudge judge(*saw.ground, asked, saw.sample.survey.needs, bench::coarse, 2, {});
    ASSERT_TRUE(judge.begin().value());
    const std::vector<Design> designs{{1.0, 0.0}, {0.7, 0.6}};
    const auto judged = judge(designs);
    ASSERT_EQ(judged.size(), 2u);
    for (std::size_t d = 0; d < designs.size(); ++d) {
      ASSERT_TRUE(judged[d].possible) << judge.why_not(designs[d]);
      const auto network = cycle::build(*saw.ground->engine(designs[d]), cycle::middle_assumptions(),
                                        saw.sample.survey.needs, bench::coarse);
      cycle::CurvePlan plan;
      plan.search = {1e-5, 100, 0, 2, 2};
      plan.proven = false;
      for (const std::size_t i : {3u}) {
        cycle::State state;
        const cycle::Point point = cycle::reach(*network, asked.speeds[i], plan, state);
        const double stock = judge.stock().torque[i];
        EXPECT_NEAR(judge.outcome(designs[d])->torque[i] / stock, point.torque / stock, 3e-3) << name << d << i;
      }
    }
  }
}

TEST(judge, does_not_judge_twice_and_refuses_by_name) {
  Saw saw("oak-110", "most power", "base up to 3 mm; widen exhaust");
  CycleJudge judge(*saw.ground, asked_of(saw.wish, 130.0), saw.sample.survey.needs, bench::coarse, 2, {});
  ASSERT_TRUE(judge.begin().value());
  const std::vector<Design> designs{{0.0, 1.0}, {1.0, 0.0}};
  const auto first = judge(designs);
  const std::size_t turned = judge.points_turned();
  const auto again = judge(designs);
  EXPECT_EQ(judge.points_turned(), turned);
  EXPECT_EQ(first[0].gains, again[0].gains);
  EXPECT_FALSE(first[1].possible);
  EXPECT_THAT(judge.why_not(designs[1]), HasSubstr("quish"));
}

TEST(judge, a_wished_speed_is_turned_itself) {
  const EngineWish wish = *parse_engine_wish("most torque at 8000 rpm; power at 9100 rpm at least as stock");
  const auto speeds = speeds_for(wish, 150.0);
  EXPECT_EQ(speeds.size(), speed_shares.size());
  EXPECT_THAT(speeds, testing::Contains(testing::DoubleNear(8000.0 / 60.0, 1e-9)));
  EXPECT_THAT(speeds, testing::Contains(testing::DoubleNear(9100.0 / 60.0, 1e-9)));
  for (std::size_t i = 0; i < kept_speeds; ++i)
    EXPECT_THAT(speeds, testing::Contains(testing::DoubleNear(speed_shares[i] * 150.0, 1e-9)));
  EXPECT_TRUE(std::is_sorted(speeds.begin(), speeds.end()));
}

TEST(seek, gives_answers_that_hold_with_ranges) {
  Saw saw("oak-110", "most power", "widen exhaust");
  SeekPlan plan = coarse_plan();
  plan.search.most = 3;
  const auto found = seek(*saw.ground, saw.wish, saw.sample.survey, plan);
  ASSERT_TRUE(found);
  ASSERT_FALSE(found->answers.empty());
  std::vector<std::vector<double>> shares;
  for (const Answer& answer : found->answers) {
    for (const Gain& gain : answer.gains) {
      ASSERT_TRUE(gain.range);
      EXPECT_LE(gain.range->low, gain.value);
      EXPECT_GE(gain.range->high, gain.value);
    }
    shares.push_back(answer.shares);
  }
  for (const std::string& why : saw.ground->refused(shares, false)) EXPECT_EQ(why, "");
  EXPECT_GT(found->answers.front().gains[gain_aim].value, 0.0);
}

TEST(seek, goes_on_from_what_was_tried) {
  Saw saw("oak-110", "most power", "base; widen exhaust");
  SeekPlan plan = coarse_plan();
  plan.members = 0;
  const auto found = seek(*saw.ground, saw.wish, saw.sample.survey, plan);
  ASSERT_TRUE(found);
  EXPECT_EQ(found->tried.size(), 8u);
  EXPECT_EQ(found->alone.size(), 2u);
  // Each cut alone is no better than the best of all.
  const double best = found->tried[best_of(found->tried)].judged.gains[gain_aim];
  for (const Alone& one : found->alone) EXPECT_LE(one.gains[gain_aim], best + 1e-12);
  plan.search.most = 10;
  const auto more = seek(*saw.ground, saw.wish, saw.sample.survey, plan, found->tried);
  ASSERT_TRUE(more);
  EXPECT_EQ(more->tried.size(), 10u);
  for (std::size_t i = 0; i < 8; ++i) EXPECT_EQ(more->tried[i].design, found->tried[i].design);
  EXPECT_GE(more->tried[best_of(more->tried)].judged.gains[gain_aim], best);
}

TEST(seek, stopped_early_keeps_the_best_without_ranges) {
  Saw saw("oak-110", "most pull", "base; widen exhaust");
  const auto found = seek(*saw.ground, saw.wish, saw.sample.survey, coarse_plan(), {},
                          [](const Progress& progress) { return progress.tried.size() >= 4; });
  ASSERT_TRUE(found);
  EXPECT_TRUE(found->stopped);
  ASSERT_EQ(found->answers.size(), 1u);
  EXPECT_FALSE(found->answers.front().gains[gain_aim].range);
  EXPECT_THAT(sentence(*found), HasSubstr("was not run"));
}

TEST(seek, says_so_when_the_gain_is_less_than_its_range) {
  Sought found;
  found.asked.aim.figure = Figure::pull;
  found.tried.resize(5);
  Answer answer;
  answer.gains[gain_aim] = {0.012, cycle::Band{0.012, -0.008, 0.031}};
  found.answers.push_back(answer);
  EXPECT_THAT(sentence(found), HasSubstr("Nothing found can be told from stock"));
  EXPECT_THAT(sentence(found), HasSubstr("+1.2 %"));
  found.answers[0].gains[gain_aim].range = cycle::Band{0.012, 0.002, 0.022};
  EXPECT_THAT(sentence(found), testing::Not(HasSubstr("Nothing found")));
  found.answers.clear();
  for (Tried& one : found.tried) one.judged = {true, {0.0, 0.0, 0.0, 0.0}, {1.0, 0.1}};
  EXPECT_THAT(sentence(found), HasSubstr("none gives more"));
}

TEST(seek, says_what_cannot_be_held) {
  Sought found;
  found.asked.holds = {{Figure::heat, 0.0, false, -0.5, "heat at most -50 %"}};
  found.tried.resize(2);
  // Heat falls by 3 and by 1 %: 47 and 49 too few.
  found.tried[0].judged = {true, {0.0, 0.0, 0.0, 0.03}, {-0.47, 0.02, 0.1}};
  found.tried[1].judged = {true, {0.0, 0.0, 0.0, 0.01}, {-0.49, 0.02, 0.1}};
  EXPECT_THAT(sentence(found), HasSubstr("\u201Cheat at most -50 %\u201D comes to \u22123.0 % at nearest"));
  // Each is held by one of them, never both.
  found.tried[0].judged.holds = {0.1, -0.01, 0.1};
  found.tried[1].judged.holds = {-0.1, 0.01, 0.1};
  EXPECT_THAT(sentence(found), HasSubstr("not all of it at once"));
  found.tried.clear();
  EXPECT_THAT(sentence(found), HasSubstr("within the limits"));
}

}  // namespace
}  // namespace portwright::seek
