#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "plan/work.hpp"
#include "unit/plan/plan_saws.hpp"

namespace portwright::plan {
namespace {

using ::testing::AllOf;
using ::testing::Contains;
using ::testing::HasSubstr;

base::ResultAll<Way> by_hand(const geometry::Survey& survey, const char* text, Settings settings,
                             const char* done = "") {
  settings.done = *cuts::parse_cuts(done);
  return way_of(*cuts::parse_cuts(text), survey, settings);
}

TEST(given, a_plan_s_own_list_is_the_same_way_again) {
  const geometry::Survey survey = bench::sample_survey("alder-60");
  const Settings settings;
  const auto plan = bench::planned(survey, "exhaust at 99 deg; squish 0.7 mm; exhaust width 60 %", settings);
  ASSERT_TRUE(plan);
  for (const Way& way : plan->ways) {
    // Typed the other way round: the order is that of the work.
    const auto again = way_of(cuts::CutList(way.cuts.rbegin(), way.cuts.rend()), survey, settings);
    ASSERT_TRUE(again) << again.error().front().message;
    EXPECT_EQ(cuts::cuts_text(again->cuts), cuts::cuts_text(way.cuts));
    EXPECT_NEAR(*again->metal, *way.metal, 1e-15);
    ASSERT_EQ(again->limits.size(), way.limits.size());
    for (std::size_t i = 0; i < way.limits.size(); ++i) {
      EXPECT_NEAR(again->limits[i].value, way.limits[i].value, 1e-9);
      EXPECT_NEAR(again->limits[i].chance, way.limits[i].chance, 1e-12);
    }
    EXPECT_EQ(again->warnings, way.warnings);
    EXPECT_EQ(again->reversible, way.reversible);
  }
}

TEST(given, lengths_are_rounded_as_a_plan_s_and_the_list_stays_exact) {
  const geometry::Survey survey = bench::sample_survey("alder-60");
  const auto way = by_hand(survey, "roof exhaust +0.83 mm; base -0.32 mm", {});
  ASSERT_TRUE(way);
  EXPECT_EQ(cuts::cuts_text(way->exact), "base -0.32 mm; roof exhaust +0.83 mm");
  EXPECT_EQ(cuts::cuts_text(way->cuts), "base -0.3 mm; roof exhaust +0.85 mm");
  EXPECT_EQ(cuts::cuts_text(by_hand(survey, "roof exhaust +0.83 mm", bench::exactly())->cuts), "roof exhaust +0.83 mm");
}

TEST(given, a_hard_limit_passed_refuses_the_list_as_it_does_a_plan) {
  const geometry::Survey survey = bench::sample_survey("alder-60");
  const auto passed = by_hand(survey, "base -0.9 mm", {});
  ASSERT_FALSE(passed);
  EXPECT_EQ(passed.error().front().code, base::ErrorCode::impossible);
  EXPECT_EQ(passed.error().front().path, "squish.working");
  EXPECT_THAT(passed.error().front().message, AllOf(HasSubstr("not offered"), HasSubstr("at least 0.35 mm")));
  // By value it holds, by what the readings leave open it does not: allowed only at a greater chance.
  double amount = 0.5;
  while (by_hand(survey, ("base -" + std::to_string(amount) + " mm").c_str(), bench::exactly(0.005))) amount += 0.01;
  const std::string edge = "base -" + std::to_string(amount) + " mm";
  const auto unsure = by_hand(survey, edge.c_str(), bench::exactly(0.005));
  EXPECT_THAT(unsure.error().front().message, HasSubstr("with a chance of"));
  EXPECT_FALSE(unsure.error().front().readings.empty());
  EXPECT_TRUE(by_hand(survey, edge.c_str(), bench::exactly(0.3)));
}

TEST(given, what_is_no_cut_of_this_saw_is_refused_with_its_place) {
  const geometry::Survey survey = bench::sample_survey("alder-60");
  EXPECT_EQ(by_hand(survey, "", {}).error().front().path, "cuts");
  EXPECT_EQ(by_hand(survey, "base -0.1 mm; roof chimney +1 mm", {}).error().front().path, "cuts.2");
  const auto on = by_hand(survey, "base -0.1 mm; roof exhaust -1 mm", {});
  ASSERT_FALSE(on);
  EXPECT_EQ(on.error().front().path, "cuts.2");
  EXPECT_THAT(on.error().front().message, AllOf(HasSubstr("listed as a cut"), HasSubstr("put metal on")));
  EXPECT_THAT(on.error().front().readings, ::testing::ElementsAre("roof exhaust +1 mm"));
  EXPECT_EQ(by_hand(survey, "base -0.1 mm", {}, "base +0.1 mm").error().front().path, "done.1");
}

TEST(given, edges_come_where_the_list_would_have_them_whatever_the_base_came_to) {
  const geometry::Survey survey = bench::sample_survey("alder-60");
  const char* list = "base -0.3 mm; widen exhaust +0.8 mm; roof exhaust +1.5 mm; roof primary +0.4 mm";
  const auto planned = bench::figures_after(survey, *cuts::parse_cuts(list));
  Settings settings = bench::exactly();
  settings.bands = Bands();
  for (const char* done : {"base -0.4 mm", "base -0.33 mm", "base -0.3 mm; roof exhaust +1 mm", "base -0.2 mm"}) {
    const auto way = by_hand(survey, list, settings, done);
    ASSERT_TRUE(way) << done;
    const auto figures = bench::figures_after(survey, way->exact);
    EXPECT_NEAR(figures.at("port.exhaust.opens"), planned.at("port.exhaust.opens"), 1e-5) << done;
    EXPECT_NEAR(figures.at("port.primary.opens"), planned.at("port.primary.opens"), 1e-5) << done;
    EXPECT_NEAR(figures.at("port.exhaust.width_of_bore"), planned.at("port.exhaust.width_of_bore"), 1e-9) << done;
  }
  // The base came out short by more than the squish's band: the rest of it is still cut.
  EXPECT_EQ(cuts::cut_text(by_hand(survey, list, settings, "base -0.2 mm")->exact[1]), "base -0.1 mm");
  EXPECT_TRUE(by_hand(survey, list, settings, "base -0.2 mm")->left_alone.empty());
  // Within the band it is left, beyond it told as past.
  EXPECT_THAT(by_hand(survey, list, settings, "base -0.33 mm")->left_alone,
              Contains(HasSubstr("0.03 mm more: within")));
  EXPECT_THAT(by_hand(survey, list, settings, "base -0.4 mm")->left_alone,
              Contains(HasSubstr("0.10 mm more: past it")));
}

TEST(given, an_edge_near_its_place_is_left_and_one_far_past_is_told) {
  const geometry::Survey survey = bench::sample_survey("alder-60");
  Settings settings = bench::exactly();
  settings.bands = Bands();
  const auto near = by_hand(survey, "roof exhaust +1 mm; widen exhaust +0.5 mm", settings, "roof exhaust +0.9 mm");
  ASSERT_TRUE(near);
  EXPECT_EQ(cuts::cuts_text(near->exact), "roof exhaust +0.9 mm; widen exhaust +0.5 mm");
  EXPECT_THAT(near->left_alone, Contains(AllOf(HasSubstr("less"), HasSubstr("leave it"))));
  const auto past = by_hand(survey, "roof exhaust +1 mm; widen exhaust +0.5 mm", settings, "roof exhaust +1.6 mm");
  ASSERT_TRUE(past);
  EXPECT_EQ(past->exact.size(), 2u);
  EXPECT_THAT(past->left_alone, Contains(AllOf(HasSubstr("0.60 mm more"), HasSubstr("past it"))));
}

TEST(given, half_a_cut_done_leaves_the_other_half_as_work) {
  const geometry::Survey survey = bench::sample_survey("alder-60");
  Settings settings = bench::exactly();
  settings.bands = Bands();
  // What is left is the very cut that is done: still to be cut.
  const auto way = by_hand(survey, "base -0.3 mm", settings, "base -0.15 mm");
  ASSERT_TRUE(way);
  settings.done = *cuts::parse_cuts("base -0.15 mm");
  const auto work = work_of(*way, survey, settings, {});
  ASSERT_TRUE(work);
  ASSERT_EQ(work->steps.size(), 2u);
  EXPECT_TRUE(work->steps[0].done);
  EXPECT_FALSE(work->steps[1].done);
}

TEST(given, cuts_without_an_angle_or_a_squish_are_steps_too) {
  const geometry::Survey survey = bench::sample_survey("alder-60");
  const Settings settings = bench::exactly();
  const auto way = by_hand(survey,
                           "floor primary -0.5 mm; widen exhaust +0.4 mm left; skirt exhaust -0.6 mm; advance +2 deg; "
                           "base -0.2 mm",
                           settings);
  ASSERT_TRUE(way) << way.error().front().message;
  const auto work = work_of(*way, survey, settings, {});
  ASSERT_TRUE(work) << work.error().front().message;
  ASSERT_EQ(work->steps.size(), 5u);
  for (const WorkStep& step : work->steps) {
    const bool metal = step.cut.act != cuts::Act::advance;
    EXPECT_EQ(step.guard.has_value(), metal) << step.what;
    EXPECT_EQ(step.unit.empty(), !metal) << step.what;
    EXPECT_EQ(step.amount > 0.0, metal) << step.what;
    if (step.cut.act == cuts::Act::floor || step.cut.act == cuts::Act::skirt) {
      EXPECT_NEAR(step.target, 1e3 * step.amount, 1e-9);
    }
    if (step.cut.act == cuts::Act::widen) {
      EXPECT_NEAR(step.target - step.before, 0.4, 1e-9);
    }
  }
}

TEST(given, every_step_of_a_plan_s_list_is_the_plan_s) {
  const geometry::Survey survey = bench::sample_survey("larch-70");
  const Settings settings;
  const auto plan = bench::planned(survey, "exhaust at 99 deg; squish 0.6 mm", settings);
  ASSERT_TRUE(plan);
  const Way& way = plan->ways.front();
  const auto again = way_of(way.exact, survey, bench::exactly());
  ASSERT_TRUE(again) << again.error().front().message;
  const auto first = work_of(way, survey, settings, {}), second = work_of(*again, survey, settings, {});
  ASSERT_TRUE(first && second);
  ASSERT_EQ(first->steps.size(), second->steps.size());
  for (std::size_t k = 0; k < first->steps.size(); ++k) {
    EXPECT_EQ(first->steps[k].what, second->steps[k].what);
    EXPECT_NEAR(first->steps[k].target, second->steps[k].target, 1e-9);
    EXPECT_NEAR(first->steps[k].stop, second->steps[k].stop, 1e-9);
    EXPECT_NEAR(first->steps[k].never, second->steps[k].never, 1e-9);
  }
}

}  // namespace
}  // namespace portwright::plan
