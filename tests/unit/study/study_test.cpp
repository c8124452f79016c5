// Figures, ranges, changes and what is waited for, on the contract's saw.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "larch.hpp"

namespace portwright::study {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::Not;

/// A row of the contract's table of what each cut moves.
struct Row {
  const char* cuts;
  double exhaust, transfer, blowdown, intake, skirt, crown, squish, chamber, full, trapped;
};

void expect_row(const Study& s, const Row& row) {
  SCOPED_TRACE(row.cuts);
  EXPECT_NEAR(*figure(s, "port.exhaust.opens").value, row.exhaust, 0.0051);
  EXPECT_NEAR(*figure(s, "port.primary.opens").value, row.transfer, 0.0051);
  EXPECT_NEAR(*figure(s, "timing.blowdown").value, row.blowdown, 0.0051);
  EXPECT_NEAR(*figure(s, "port.intake.opens").value, row.intake, 0.0051);
  EXPECT_NEAR(*figure(s, "skirt.cover_exhaust").value, row.skirt, 0.0051);
  EXPECT_NEAR(*figure(s, "crown.over_floors").value, row.crown, 0.0051);
  EXPECT_NEAR(*figure(s, "squish.clearance").value, row.squish, 0.0051);
  EXPECT_NEAR(*figure(s, "chamber.volume").value, row.chamber, 0.0051);
  EXPECT_NEAR(*figure(s, "chamber.full_ratio").value, row.full, 0.0051);
  EXPECT_NEAR(*figure(s, "chamber.trapped_ratio").value, row.trapped, 0.0051);
}

TEST(study, the_saw_as_it_is_gives_the_first_row_of_the_table) {
  expect_row(study_of(larch_text), {"none", 103.00, 121.00, 18.00, 75.00, 2.20, -0.20, 0.89, 8.90, 8.94, 6.40});
}

TEST(study, cuts_give_the_other_rows_of_the_table) {
  const Row rows[] = {
      {"gasket out", 104.76, 123.21, 18.45, 76.53, 1.70, 0.30, 0.39, 7.92, 9.93, 7.19},
      {"base -0.5 mm", 104.76, 123.21, 18.45, 76.53, 1.70, 0.30, 0.39, 7.92, 9.93, 7.19},
      {"band -0.5 mm", 103.00, 121.00, 18.00, 75.00, 2.20, -0.20, 1.39, 9.31, 8.59, 6.16},
      {"crown edge -0.5 mm wide 6 mm", 101.27, 118.86, 17.59, 75.00, 2.20, -0.70, 1.39, 9.31, 8.59, 6.05},
      {"base -1 mm; crown edge -1 mm wide 6 mm", 103.00, 121.00, 18.00, 78.07, 1.20, -0.20, 0.89, 7.77, 10.10, 7.18},
      {"base -1 mm; band -1 mm", 106.55, 125.51, 18.96, 78.07, 1.20, 0.80, 0.89, 7.77, 10.10, 7.44},
      {"roof exhaust +0.5 mm", 101.27, 121.00, 19.73, 75.00, 2.20, -0.20, 0.89, 8.90, 8.94, 6.29},
      {"base -0.5 mm; roof exhaust +0.5 mm", 103.00, 123.21, 20.21, 76.53, 1.70, 0.30, 0.39, 7.92, 9.93, 7.07},
  };
  for (const Row& row : rows) expect_row(study_of(larch_text, row.cuts), row);
}

TEST(study, the_range_of_a_least_wall_lies_about_the_value_read_however_many_walls_are_alike) {
  const auto file = saw::read_saw_file(PORTWRIGHT_SOURCE_DIR "/data/samples/spruce-92.saw.toml");
  const Study s = study(geometry::survey(file.value().readings), {}, nullptr, {});
  for (const char* id : {"wall.least", "ring.1.peg_wall", "ring.2.peg_wall", "crown.over_floors", "pin.hole_wall"}) {
    const Figure& one = figure(s, id);
    const double place = (*one.value - *one.low) / (*one.high - *one.low);
    EXPECT_NEAR(place, 0.5, 0.08) << id;
  }
}

TEST(study, every_figure_of_the_full_saw_is_there) {
  const Study s = study_of(larch_text);
  for (const Figure& one : s.figures) {
    EXPECT_TRUE(one.value.has_value()) << one.id << " waits for " << (one.waits_for.empty() ? "" : one.waits_for[0]);
    EXPECT_FALSE(one.why.empty()) << one.id;
    EXPECT_FALSE(one.formula.empty()) << one.id;
    EXPECT_FALSE(one.source.empty()) << one.id;
    EXPECT_FALSE(one.text.empty()) << one.id;
    EXPECT_THAT(one.why + one.formula, Not(HasSubstr("{"))) << one.id;
    if (one.low) {
      EXPECT_LT(*one.low, *one.high) << one.id;
    }
  }
}

TEST(study, a_name_alone_gives_figures_that_say_what_they_wait_for) {
  const Study s = study_of("name = \"Bare\"\n");
  EXPECT_THAT(figure(s, "crank.displacement").waits_for, testing::UnorderedElementsAre("crank.bore", "crank.stroke"));
  EXPECT_FALSE(figure(s, "timing.blowdown").value.has_value());
  EXPECT_THAT(figure(s, "timing.blowdown").waits_for, testing::UnorderedElementsAre("port.exhaust", "port.transfer"));
  EXPECT_FALSE(s.next_reading.empty());
  for (const Finding& one : s.findings) EXPECT_NE(one.state, State::stop) << one.rule;
}

TEST(study, timing_read_by_wheel_gives_blowdown_without_bore_or_stroke) {
  const Study s = study_of(
      "name = \"Wheel\"\n[[port]]\nname = \"exhaust\"\nkind = \"exhaust\"\nopens = \"100 deg\"\n"
      "[[port]]\nname = \"primary\"\nkind = \"transfer\"\nopens = \"120 deg\"\n");
  ASSERT_TRUE(figure(s, "timing.blowdown").value.has_value());
  EXPECT_NEAR(*figure(s, "timing.blowdown").value, 20.0, 1e-9);
  EXPECT_THAT(figure(s, "port.exhaust.area").waits_for, Contains("crank.bore"));
}

TEST(study, a_change_is_narrower_than_the_figures_it_lies_between) {
  const Study s = study_of(larch_text, "base -0.5 mm");
  const Figure& opens = figure(s, "port.primary.opens");
  ASSERT_TRUE(opens.change && opens.change->low && opens.stock);
  EXPECT_NEAR(opens.change->value, 2.21, 0.01);
  EXPECT_TRUE(opens.change->distinguishable);
  EXPECT_LT(*opens.change->high - *opens.change->low, 0.25 * (*opens.high - *opens.low));
}

TEST(study, what_a_cut_does_not_move_is_not_told_apart) {
  const Figure opens = figure(study_of(larch_text, "band -0.5 mm"), "port.exhaust.opens");
  ASSERT_TRUE(opens.change);
  EXPECT_EQ(opens.change->value, 0.0);
  EXPECT_FALSE(opens.change->distinguishable);
}

TEST(study, a_range_follows_from_the_typed_tolerance) {
  std::string text = larch_text;
  text.replace(text.find("opens = \"103 deg\""), 17, "opens = \"103 deg +- 0.5\"");
  const Figure opens = figure(study_of(text), "port.exhaust.opens");
  ASSERT_TRUE(opens.low && opens.high);
  EXPECT_NEAR(*opens.high - *opens.low, 2.0 * 1.96 * 0.5, 0.05);
}

TEST(study, the_speed_is_asked_for_or_read_in_the_cut_or_usual) {
  EXPECT_EQ(study_of(larch_text).speed_from, "in-cut reading");
  Options options;
  options.speed = 10000.0 / 60.0;
  const Study asked = study_of(larch_text, options);
  EXPECT_EQ(asked.speed_from, "asked");
  EXPECT_NEAR(*figure(asked, "crank.mean_piston_speed").value, 12.0, 1e-9);  // 2 x 36 mm x 10,000 / 60
  const Study bare = study_of("name = \"Bare\"\n");
  EXPECT_EQ(bare.speed_from, "usual");
  EXPECT_NEAR(bare.speed, 150.0, 1e-9);
}

TEST(study, squish_cut_to_nothing_leaves_its_velocity_without_a_value) {
  const Study s = study_of(larch_text, "base -0.9 mm");
  EXPECT_FALSE(figure(s, "squish.velocity").value.has_value());
  EXPECT_THAT(figure(s, "squish.velocity").waits_for, Contains("a squish clearance above 0"));
  ASSERT_NE(finding(s, "working_squish"), nullptr);
  EXPECT_EQ(finding(s, "working_squish")->state, State::stop);
}

TEST(study, a_figure_that_some_samples_cannot_have_says_so) {
  const Figure velocity = figure(study_of(larch_text, "base -0.86 mm"), "squish.velocity");
  ASSERT_TRUE(velocity.value.has_value());
  EXPECT_THAT(velocity.why, HasSubstr("has no value at all in"));
}

TEST(study, shares_of_the_variance_sum_to_one_and_name_the_readings) {
  const geometry::Survey survey = survey_of(larch_text);
  const auto w = why(survey, nullptr, "chamber.trapped_ratio", {});
  ASSERT_TRUE(w.has_value());
  double sum = 0.0;
  for (const Share& share : w->inputs) sum += share.share;
  EXPECT_NEAR(sum, 1.0, 1e-9);
  EXPECT_EQ(w->inputs[0].path, "cylinder.chamber");
  EXPECT_THAT(w->figure.from, Contains("crank.bore"));
  EXPECT_THAT(w->figure.from, Not(Contains("port.primary.opens")));
}

TEST(study, an_unknown_figure_is_not_found) {
  const geometry::Survey survey = survey_of(larch_text);
  EXPECT_EQ(why(survey, nullptr, "port.third.opens", {}).error().code, base::ErrorCode::not_found);
}

TEST(study, the_same_case_gives_the_same_bits) {
  const Study a = study_of(larch_text), b = study_of(larch_text);
  for (std::size_t i = 0; i < a.figures.size(); ++i) {
    EXPECT_EQ(a.figures[i].value, b.figures[i].value);
    EXPECT_EQ(a.figures[i].low, b.figures[i].low);
    EXPECT_EQ(a.figures[i].high, b.figures[i].high);
  }
}

TEST(compare, a_saw_with_itself_is_told_apart_nowhere) {
  const geometry::Survey survey = survey_of(larch_text);
  for (const Compared& row : compare(survey, nullptr, survey, nullptr, {})) {
    EXPECT_FALSE(row.distinguishable) << row.id;
    if (row.change) {
      EXPECT_EQ(*row.change, 0.0) << row.id;
    }
  }
}

TEST(compare, two_saws_have_independent_errors) {
  const geometry::Survey a = survey_of(larch_text), b = survey_of(larch_text);
  const Study alone = study_of(larch_text);
  const Figure& opens = figure(alone, "port.exhaust.opens");
  for (const Compared& row : compare(a, nullptr, b, nullptr, {})) {
    EXPECT_FALSE(row.distinguishable) << row.id;
    if (row.id != "port.exhaust.opens") continue;
    ASSERT_TRUE(row.low && row.high);
    EXPECT_NEAR((*row.high - *row.low) / (*opens.high - *opens.low), std::sqrt(2.0), 0.08);
  }
}

}  // namespace
}  // namespace portwright::study
