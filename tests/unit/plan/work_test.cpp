#include "plan/work.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/builders.hpp"
#include "unit/plan/plan_saws.hpp"

namespace portwright::plan {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;

struct Planned {
  geometry::Survey survey;
  Settings settings;
  Plan plan;
};

Planned planned(const std::string& saw, const std::string& wishes, cuts::CutList done = {}) {
  Planned out{bench::sample_survey(saw), Settings(), {}};
  out.settings.done = std::move(done);
  auto plan = bench::planned(out.survey, wishes, out.settings);
  if (plan)
    out.plan = *std::move(plan);
  else
    ADD_FAILURE() << plan.error().front().message;
  return out;
}

Work work_for(const Planned& planned, std::size_t way, const Bench& bench = {}) {
  auto work = work_of(planned.plan.ways.at(way), planned.survey, planned.settings, bench);
  if (!work) {
    ADD_FAILURE() << work.error().front().message;
    return {};
  }
  return *std::move(work);
}

constexpr const char* usual_wishes =
    "exhaust at 99 deg; transfers at 119 deg; squish 0.7 mm; intake at 72 deg; exhaust width 60 %";

TEST(guard, the_band_is_at_least_two_and_a_half_of_the_last_reading_and_hand) {
  const auto guard = guard_of({{"wheel", 0.15, 0.15}}, {0.35, 0.1}, 0.6, "exhaust opens", "deg");
  ASSERT_TRUE(guard);
  // 2.5 sqrt(.15² + .15² / n + .1²): 0.586 with one reading.
  EXPECT_EQ(guard->repeats, 1);
  const auto narrower = guard_of({{"wheel", 0.15, 0.15}}, {0.35, 0.1}, 0.52, "exhaust opens", "deg");
  ASSERT_TRUE(narrower);
  // 0.522 with two, 0.500 with three.
  EXPECT_EQ(narrower->repeats, 3);
  EXPECT_NEAR(narrower->sigma, std::sqrt(0.0225 + 0.0225 / 3 + 0.01), 1e-12);
  EXPECT_NEAR(narrower->short_of, 2.5 * std::sqrt(0.0225 + 0.0225 + 0.1225), 1e-12);
}

TEST(guard, a_band_too_narrow_is_refused_with_the_readings_that_would_do) {
  const std::vector<Gauge> gauges = {{"wheel", 0.15, 0.15}, {"height", 0.05, 0.05}};
  const auto refused = guard_of(gauges, {0.3, 0.1}, 0.2, "exhaust opens", "deg");
  ASSERT_FALSE(refused);
  EXPECT_THAT(refused.error().message, AllOf(HasSubstr("0.2 deg"), HasSubstr("exhaust opens")));
  // 2.5 sqrt(.0225 + .0025 + .01) = 0.468; 2.5 sqrt(.0025 + .000278 + .01) = 0.283.
  EXPECT_THAT(refused.error().readings[0], AllOf(HasSubstr("wheel"), HasSubstr("0.5 deg")));
  EXPECT_THAT(refused.error().readings[1], AllOf(HasSubstr("height"), HasSubstr("0.3 deg")));
  EXPECT_EQ(guard_of(gauges, {0.3, 0.1}, 0.3, "exhaust opens", "deg")->gauge, "height");
}

TEST(work, steps_stand_in_the_order_of_the_work) {
  const Planned alder = planned("alder-60", usual_wishes);
  for (std::size_t w = 0; w < alder.plan.ways.size(); ++w) {
    const auto rank = [](const WorkStep& step) {
      if (step.what.starts_with("Widen")) return 1;
      if (step.what.starts_with("Raise the exhaust")) return 2;
      if (step.what.starts_with("Raise")) return 4;
      return step.what.starts_with("Lower") || step.what.starts_with("Shorten") ? 3 : 0;
    };
    const Work work = work_for(alder, w);
    for (std::size_t i = 1; i < work.steps.size(); ++i) EXPECT_LE(rank(work.steps[i - 1]), rank(work.steps[i]));
  }
}

TEST(work, the_squish_between_steps_never_passes_its_limit) {
  const std::pair<const char*, const char*> asked[] = {
      {"alder-60", "trapped ratio 8; squish 0.7 mm; exhaust at 102 deg"},
      {"alder-60", "trapped ratio 12; squish 0.7 mm"},
      {"alder-60", "trapped ratio 7.5; squish 0.7 mm"},
      {"alder-60", "trapped ratio 8; squish 0.6 mm"},
      {"spruce-92", "trapped ratio 7; squish 0.6 mm"},
      {"spruce-92", "trapped ratio 7.5; squish 0.8 mm"}};
  int planned_at_all = 0, opened_first = 0;
  for (const auto& [saw, wishes] : asked) {
    const geometry::Survey survey = bench::sample_survey(saw);
    const auto plan = bench::planned(survey, wishes, {});
    if (!plan) continue;
    ++planned_at_all;
    for (const Way& way : plan->ways)
      for (const cuts::CutList& list : {way.exact, way.cuts}) {
        const auto first_base =
            std::find_if(list.begin(), list.end(), [](auto& c) { return c.act == cuts::Act::base; });
        opened_first += first_base != list.end() && first_base != list.begin() ? 1 : 0;
        for (std::size_t k = 1; k <= list.size(); ++k) {
          const auto figures = bench::figures_after(survey, {list.begin(), list.begin() + static_cast<int>(k)});
          EXPECT_GE(figures.at("squish.working"), 0.35) << saw << ": " << cuts::cuts_text(list) << ", step " << k;
        }
      }
  }
  EXPECT_GE(planned_at_all, 3);
  EXPECT_GE(opened_first, 1);
}

TEST(work, a_done_cut_that_would_put_metal_on_is_refused_with_what_was_meant) {
  const geometry::Survey survey = bench::sample_survey("alder-60");
  const std::pair<const char*, const char*> typed[] = {{"roof exhaust -1 mm", "roof exhaust +1 mm"},
                                                       {"base +0.3 mm", "base -0.3 mm"},
                                                       {"floor rear +0.4 mm", "floor rear -0.4 mm"},
                                                       {"widen exhaust -0.5 mm", "widen exhaust +0.5 mm"},
                                                       {"skirt intake +0.5 mm", "skirt intake -0.5 mm"}};
  for (const auto& [done, meant] : typed) {
    Settings settings;
    settings.done = *cuts::parse_cuts(done);
    const auto plan = bench::planned(survey, "exhaust at 99 deg; squish 0.7 mm", settings);
    ASSERT_FALSE(plan) << done;
    EXPECT_THAT(plan.error().front().message, AllOf(HasSubstr(done), HasSubstr("put metal on")));
    EXPECT_THAT(plan.error().front().readings, ::testing::ElementsAre(meant));
  }
  Settings settings;
  settings.done = *cuts::parse_cuts("gasket to 0.3 mm");
  EXPECT_TRUE(bench::planned(survey, "exhaust at 99 deg; squish 0.7 mm", settings));
}

TEST(work, numbers_to_expect_are_those_of_the_cuts_so_far) {
  const Planned alder = planned("alder-60", usual_wishes);
  const Way& way = alder.plan.ways.front();
  const Work work = work_for(alder, 0);
  ASSERT_EQ(work.steps.size(), way.exact.size());
  cuts::CutList so_far;
  for (std::size_t k = 0; k < work.steps.size(); ++k) {
    so_far.push_back(way.exact[k]);
    const WorkStep& step = work.steps[k];
    const auto figures = bench::figures_after(alder.survey, so_far);
    if (step.label == "exhaust opens") {
      EXPECT_NEAR(step.target, figures.at("port.exhaust.opens"), 1e-6);
      EXPECT_NEAR(step.target, 99.0, 1e-6);
    }
    if (step.label.starts_with("squish")) {
      EXPECT_NEAR(step.target, figures.at("squish.clearance"), 1e-6);
    }
  }
}

TEST(work, the_stop_mark_lies_short_of_the_target_by_the_guard) {
  const Work work = work_for(planned("alder-60", usual_wishes), 0);
  int with_stop = 0;
  for (const WorkStep& step : work.steps) {
    if (!step.guard) continue;
    EXPECT_LT(std::abs(step.stop - step.before), std::abs(step.target - step.before) + 1e-12) << step.what;
    EXPECT_GE(step.guard->half_band, sigmas_in_band * step.guard->sigma) << step.what;
    EXPECT_LE(step.guard->repeats, most_repeats);
    if (step.stop_amount <= 0.0) continue;
    ++with_stop;
    EXPECT_NEAR(std::abs(step.target - step.stop), step.guard->short_of, 1e-9) << step.what;
  }
  EXPECT_GE(with_stop, 2);
}

TEST(work, a_band_that_no_reading_allows_refuses_the_sheet) {
  const Planned alder = planned("alder-60", usual_wishes);
  Bench bench;
  bench.edge_band = 0.1 * bench::degree;
  const auto refused = work_of(alder.plan.ways.front(), alder.survey, alder.settings, bench);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().front().path, "band");
  EXPECT_FALSE(refused.error().front().readings.empty());
}

TEST(work, what_is_left_is_planned_from_what_was_really_cut) {
  const std::string wishes = "exhaust at 99 deg; transfers opens as stock; squish 0.7 mm";
  const Planned first = planned("alder-60", wishes);
  // The base came out 0.03 mm too deep: the squish cannot be had any more, and is wished as it now is.
  const auto done = cuts::parse_cuts("base -0.375 mm");
  const auto over = bench::planned(first.survey, wishes, [&] {
    Settings settings;
    settings.done = *done;
    settings.step = 0.0;
    return settings;
  }());
  ASSERT_TRUE(over) << over.error().front().message;
  for (const Way& way : over->ways) {
    EXPECT_EQ(way.exact.front(), done->front());
    const auto figures = bench::figures_after(first.survey, way.exact);
    EXPECT_NEAR(figures.at("port.exhaust.opens"), 99.0, 1e-6);
    EXPECT_NEAR(figures.at("squish.clearance"), 0.7, 1e-6);
  }
  // A chord ground too wide has no way back.
  Settings settings;
  settings.done = *cuts::parse_cuts("widen exhaust +1.5 mm");
  const auto past = bench::planned(first.survey, "exhaust width 60 %; squish 0.7 mm", settings);
  ASSERT_FALSE(past) << cuts::cuts_text(past->ways.front().exact);
  EXPECT_THAT(past.error().front().message, HasSubstr("exhaust width comes to"));
}

TEST(work, what_is_within_its_band_is_left_and_the_rest_is_planned) {
  const geometry::Survey survey = bench::sample_survey("alder-60");
  const auto rest = [&](const char* wishes, const char* done) {
    Settings settings;
    settings.bands = Bands();
    settings.done = *cuts::parse_cuts(done);
    auto plan = bench::planned(survey, wishes, settings);
    EXPECT_TRUE(plan) << done << ": " << (plan ? "" : plan.error().front().message);
    return plan ? *std::move(plan) : Plan();
  };
  constexpr const char* three = "exhaust at 99 deg; squish 0.7 mm; exhaust width 60 %";
  const Plan all = rest(three, "base -0.33 mm; widen exhaust +1.1 mm; roof exhaust +1.96 mm");
  ASSERT_EQ(all.ways.size(), 1u);
  EXPECT_EQ(all.ways[0].exact.size(), 3u);  // nothing is left to do
  EXPECT_EQ(std::count_if(all.kept.begin(), all.kept.end(),
                          [](const std::string& s) { return s.find("leave it") != std::string::npos; }),
            3);
  // The squish came out too small by less than its band: told, and the roof is planned.
  const Plan past = rest(three, "base -0.36 mm; widen exhaust +1.1 mm");
  ASSERT_FALSE(past.ways.empty());
  ASSERT_EQ(past.ways[0].exact.size(), 3u);
  EXPECT_EQ(past.ways[0].exact[2].act, cuts::Act::roof);
  EXPECT_NEAR(bench::figures_after(survey, past.ways[0].exact).at("port.exhaust.opens"), 99.0, 1e-6);
  EXPECT_THAT(past.kept, ::testing::Contains(AllOf(HasSubstr("squish stands at"), HasSubstr("past"))));
  // A roof too far by less than its band, squish and chord still to come.
  const Plan roof = rest(three, "roof exhaust +1.1 mm; widen exhaust +1.1 mm");
  EXPECT_FALSE(roof.ways.empty());
  // What was not touched is not near because it is near as it stands.
  const Plan untouched = rest("exhaust at 104.5 deg; squish as stock; exhaust width 60 %", "widen exhaust +1.1 mm");
  ASSERT_FALSE(untouched.ways.empty());
  EXPECT_NEAR(untouched.ways[0].reached_exact[0], 104.5, 1e-6);
}

TEST(work, what_is_past_its_number_for_good_is_told_and_the_rest_is_planned) {
  const geometry::Survey survey = bench::sample_survey("alder-60");
  const auto rest = [&](const char* wishes, const char* done) {
    Settings settings;
    settings.bands = Bands();
    settings.done = *cuts::parse_cuts(done);
    auto plan = bench::planned(survey, wishes, settings);
    EXPECT_TRUE(plan) << done << ": " << (plan ? "" : plan.error().front().message);
    return plan ? *std::move(plan) : Plan();
  };
  constexpr const char* three = "exhaust at 99 deg; squish 0.7 mm; exhaust width 60 %";
  const Plan wide = rest(three, "widen exhaust +1.5 mm");
  ASSERT_FALSE(wide.ways.empty());
  EXPECT_THAT(wide.kept, ::testing::Contains(AllOf(HasSubstr("exhaust width stands at 61"), HasSubstr("past 60.0 %"),
                                                   HasSubstr("no metal is put on"))));
  for (const Way& way : wide.ways) {
    const auto figures = bench::figures_after(survey, way.exact);
    EXPECT_NEAR(figures.at("port.exhaust.opens"), 99.0, 1e-6);
    EXPECT_NEAR(figures.at("squish.clearance"), 0.7, 1e-6);
    EXPECT_EQ(std::count_if(way.exact.begin(), way.exact.end(), [](auto& c) { return c.act == cuts::Act::widen; }), 1);
    EXPECT_GT(way.left[2], 1.0);
  }
  // A transfer past could be had back by a base cut, and not with this intake: the rest is planned all the same, and
  // takes it no further.
  const Plan high =
      rest("exhaust at 99 deg; primary at 119 deg; rear opens as stock; squish as stock", "roof primary +2 mm");
  ASSERT_FALSE(high.ways.empty());
  const double now = bench::figures_after(survey, *cuts::parse_cuts("roof primary +2 mm")).at("port.primary.opens");
  EXPECT_THAT(high.kept, ::testing::Contains(AllOf(HasSubstr("primary opens stands at"), HasSubstr("put on"))));
  for (const Way& way : high.ways) {
    const auto figures = bench::figures_after(survey, way.exact);
    EXPECT_NEAR(figures.at("port.exhaust.opens"), 99.0, 1e-6);
    EXPECT_GE(figures.at("port.primary.opens"), now - 1e-6);
  }
  // What is only asked for, and not done, is refused as ever.
  Settings settings;
  settings.bands = Bands();
  EXPECT_FALSE(bench::planned(survey, "exhaust width 50 %; squish 0.7 mm", settings));
}

TEST(work, a_one_sided_wish_holds_all_over_the_span_where_the_tool_is_put_down) {
  const geometry::Survey survey = bench::sample_survey("alder-60");
  Settings settings;
  settings.bands = Bands();
  settings.inside = true;
  for (const char* wishes :
       {"exhaust opens at most 100 deg", "squish at least 1.2 mm", "exhaust width at least 60 %"}) {
    const auto plan = bench::planned(survey, wishes, settings);
    ASSERT_TRUE(plan) << wishes;
    int held = 0;
    for (const Way& way : plan->ways) {
      const auto work = work_of(way, survey, settings, {});
      ASSERT_TRUE(work);
      const Wanted& wanted = plan->wanted.front();
      const WorkStep& last = work->steps.back();
      const double near = last.target - (last.per_mm > 0.0 ? 1.0 : -1.0) * (last.guard ? last.guard->put_down : 0.0);
      const double scale = wanted.unit == "%" ? 100.0 / 47.01 : 1.0;
      if (!last.guard || (!last.label.starts_with("exhaust") && !last.label.starts_with("squish"))) continue;
      ++held;
      for (const double end : {last.target, near}) {
        const double inside =
            wanted.relation == Relation::at_most ? wanted.asked - end * scale : end * scale - wanted.asked;
        EXPECT_GE(inside, -1e-6) << wishes;
      }
      EXPECT_EQ(way.left.front(), 0.0);
    }
    EXPECT_GE(held, 1) << wishes;
  }
}

bench::Tally crew(int builders, const bench::Builder& builder, unsigned seed) {
  const Planned alder = planned("alder-60", usual_wishes);
  const Work work = work_for(alder, 0);
  bench::Workshop workshop(work, alder.survey, Bench(), seed);
  bench::Tally tally;
  for (int i = 0; i < builders; ++i) workshop.port(builder, tally);
  return tally;
}

TEST(builders, five_hundred_by_the_sheet_end_inside_their_bands) {
  const bench::Tally tally = crew(500, {}, 11);
  EXPECT_GE(tally.share(tally.inside, tally.edges), 0.95);
  EXPECT_LE(tally.share(tally.past, tally.edges), 0.01);
  EXPECT_LE(tally.share(tally.under_squish, tally.saws), 0.05);
  RecordProperty("inside", std::to_string(tally.share(tally.inside, tally.edges)));
  RecordProperty("past", std::to_string(tally.share(tally.past, tally.edges)));
}

TEST(builders, straight_to_the_number_is_far_worse) {
  const bench::Tally tally = crew(200, {1.0, 0.0, 0.0, true}, 12);
  EXPECT_LT(tally.share(tally.inside, tally.edges), 0.95);
  EXPECT_GT(tally.share(tally.past, tally.edges), 0.02);
}

}  // namespace
}  // namespace portwright::plan
