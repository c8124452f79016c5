#include "desk/plan.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "desk/desk.hpp"
#include "wire/json.hpp"

namespace portwright::desk {
namespace {

using ::testing::AllOf;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

const std::string samples = PORTWRIGHT_SOURCE_DIR "/data/samples/";

wire::PlanAnswer planned(const std::string& saw, const std::string& wishes, const std::string& gaskets = "") {
  const auto answer = plan({samples + saw + ".saw.toml", wishes, gaskets, "", "", "", {}, base::UnitStyle::shop, ""});
  if (!answer) {
    ADD_FAILURE() << answer.error().front().message;
    return {};
  }
  EXPECT_FALSE(answer->plans.empty());
  return *answer;
}

base::Error refused(const PlanRequest& request) {
  const auto answer = plan(request);
  if (answer) {
    ADD_FAILURE() << request.wishes << " was planned";
    return {};
  }
  return answer.error().front();
}

TEST(desk_plan, the_list_of_a_plan_does_in_study_what_the_plan_says) {
  const wire::PlanAnswer answer = planned("alder-60", "exhaust at 99 deg; squish 0.7 mm; exhaust width 60 %");
  for (const wire::PlanWay& way : answer.plans) {
    const auto studied = study({samples + "alder-60.saw.toml", way.cuts, {}, base::UnitStyle::shop, ""});
    ASSERT_TRUE(studied);
    EXPECT_NEAR(*studied->metal_mm3, *way.metal_mm3, 1e-6);
    for (const wire::PlanReached& reached : way.wishes)
      for (const study::Figure& figure : studied->figures)
        if (figure.id == reached.figure) {
          EXPECT_NEAR(*figure.value, reached.reached, 1e-6) << figure.id;
        }
  }
}

TEST(desk_plan, what_no_wish_speaks_of_is_told_with_the_wish_that_holds_it) {
  const wire::PlanAnswer answer = planned("alder-60", "squish 0.7 mm");
  EXPECT_THAT(answer.plans.front().moved,
              AllOf(Contains(HasSubstr("primary opens as stock")), Contains(HasSubstr("No roof gives that back")),
                    Contains(AllOf(HasSubstr("Rear opens"), HasSubstr("Only metal put on")))));
  const wire::PlanAnswer held = planned("alder-60", "squish 0.7 mm; transfers opens as stock");
  EXPECT_THAT(held.plans.front().moved, Not(Contains(HasSubstr("primary opens as stock"))));
}

TEST(desk_plan, what_could_not_be_checked_or_tried_is_said) {
  const wire::PlanAnswer bare = planned("willow-64", "transfer at 119 deg");
  EXPECT_THAT(bare.unchecked, AllOf(Contains(HasSubstr("Skirt over the exhaust floor")),
                                    Contains(HasSubstr("Top land")), Contains(HasSubstr("cylinder.spigot_clearance")),
                                    Contains(AllOf(HasSubstr("gasket out"), HasSubstr("was not read")))));
  EXPECT_THAT(bare.unchecked, Not(Contains(HasSubstr("at hand"))));
  EXPECT_THAT(planned("willow-64", "transfer at 119 deg", "0.3 mm").unchecked,
              Contains(HasSubstr("gaskets at hand are left out")));
  EXPECT_THAT(planned("larch-70", "exhaust at 99 deg").unchecked, IsEmpty());
}

TEST(desk_plan, both_sides_of_a_mirrored_port_that_differ_are_told) {
  // Alder's secondary was read on both sides, a degree apart; its primary on one.
  const auto moved = planned("alder-60", "squish 0.7 mm; transfers opens as stock").plans.front().moved;
  EXPECT_THAT(moved, Not(Contains(HasSubstr("Primary"))));
  const auto cut = planned("alder-60", "transfers at 119 deg").plans.front().moved;
  EXPECT_THAT(cut, Contains(AllOf(HasSubstr("Secondary"), HasSubstr("other side opens"), HasSubstr("both sides"))));
  EXPECT_THAT(cut, Not(Contains(HasSubstr("Primary"))));
}

TEST(desk_plan, a_new_stop_and_free_porting_stand_on_top_and_old_stops_do_not) {
  wire::PlanWay way;
  way.newly_stopped = {"impulse_covered"};
  study::Finding finding;
  finding.state = study::State::stop;
  const auto on_top = [&](const char* rule) {
    finding.rule = rule;
    return stands_on_top(way, finding);
  };
  EXPECT_TRUE(on_top("impulse_covered"));
  EXPECT_TRUE(on_top("skirt_cover"));
  EXPECT_FALSE(on_top("wall"));
  finding.state = study::State::caution;
  EXPECT_FALSE(on_top("skirt_cover"));
}

TEST(desk_plan, a_plan_that_brings_a_new_stop_comes_after_those_that_do_not) {
  // Larch drives its fuel pump through the base joint: without the gasket the impulse hole is covered.
  const wire::PlanAnswer answer = planned("larch-70", "exhaust at 99 deg; squish 0.6 mm");
  ASSERT_GE(answer.plans.size(), 2u);
  EXPECT_THAT(answer.plans.front().newly_stopped, IsEmpty());
  EXPECT_THAT(answer.plans.front().cuts, Not(HasSubstr("gasket out")));
  EXPECT_THAT(answer.plans.back().newly_stopped, Contains("impulse_covered"));
  EXPECT_LT(*answer.plans.back().metal_mm3, *answer.plans.front().metal_mm3);
}

TEST(desk_plan, what_the_readings_leave_open_of_an_amount_stands_beside_it) {
  const wire::PlanAnswer answer = planned("alder-60", "exhaust at 99 deg; squish 0.7 mm");
  int with_range = 0, without = 0;
  for (const wire::PlanWay& way : answer.plans)
    for (const wire::PlanCut& step : way.steps) {
      if (step.cut == "gasket out") {
        ++without;
        EXPECT_FALSE(step.within_mm.has_value());
        EXPECT_THAT(step.within_text, IsEmpty());
        continue;
      }
      ++with_range;
      ASSERT_TRUE(step.within_mm.has_value()) << step.cut;
      EXPECT_GT(*step.within_mm, 0.005) << step.cut;
      EXPECT_LT(*step.within_mm, 1.0) << step.cut;
      EXPECT_THAT(step.text, HasSubstr(step.within_text));
    }
  EXPECT_GE(with_range, 3);
  EXPECT_GE(without, 1);
}

TEST(desk_plan, gaskets_at_hand_are_taken_in_any_unit) {
  const wire::PlanAnswer answer = planned("alder-60", "squish 0.745 mm", "0.2 mm, 20 thou");
  EXPECT_EQ(answer.plans.front().cuts, "gasket to 0.2 mm");
  EXPECT_TRUE(answer.plans.front().reversible);
}

TEST(desk_plan, what_is_done_stands_first_and_says_so) {
  PlanRequest request;
  request.file = samples + "alder-60.saw.toml";
  request.wishes = "exhaust at 100 deg; exhaust width 60 %; squish 0.7 mm";
  request.done = "base -0.33 mm; widen exhaust +1 mm";
  const auto answer = plan(request);
  ASSERT_TRUE(answer) << answer.error().front().message;
  EXPECT_THAT(answer->done, ::testing::ElementsAre("base -0.33 mm", "widen exhaust +1 mm"));
  for (const wire::PlanWay& way : answer->plans) {
    EXPECT_THAT(way.cuts, ::testing::StartsWith("base -0.33 mm; widen exhaust +1 mm"));
    EXPECT_THAT(way.steps.front().text, ::testing::StartsWith("Done: "));
    EXPECT_THAT(way.steps.back().text, Not(::testing::StartsWith("Done: ")));
  }
}

TEST(desk_plan, an_answer_reads_back_as_it_was_written) {
  const std::string text = wire::to_json(planned("larch-70", "exhaust at 100 deg"));
  const auto back = wire::from_json<wire::PlanAnswer>(text);
  ASSERT_TRUE(back) << back.error().message;
  EXPECT_EQ(wire::to_json(*back), text);
  EXPECT_EQ(back->kept.size(), 1u);
}

TEST(desk_plan, what_is_typed_wrong_is_refused_with_its_place) {
  const std::string saw = samples + "larch-70.saw.toml";
  EXPECT_EQ(refused({saw, "squish 0.5", "", "", "", "", {}, base::UnitStyle::shop, ""}).path, "wishes.1");
  EXPECT_EQ(refused({saw, "squish 0.6 mm", "", "5 mm", "", "", {}, base::UnitStyle::shop, ""}).path, "step");
  EXPECT_EQ(refused({saw, "squish 0.6 mm", "", "", "90 %", "", {}, base::UnitStyle::shop, ""}).path, "chance");
  EXPECT_EQ(refused({saw, "squish 0.6 mm", "0.3", "", "", "", {}, base::UnitStyle::shop, ""}).path, "gaskets");
  EXPECT_EQ(refused({samples + "none.saw.toml", "squish 0.6 mm", "", "", "", "", {}, base::UnitStyle::shop, ""}).code,
            base::ErrorCode::not_found);
}

}  // namespace
}  // namespace portwright::desk
