// A window rubbed off and traced: its range, its place, what contradicts it, and that the sampled path asks for no
// memory.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <memory>

#include "larch.hpp"
#include "study/measure.hpp"
#include "unit/support/allocations.hpp"

namespace portwright::study {
namespace {

using testing::HasSubstr;

constexpr const char* outline =
    "outline = [[\"-12 mm\", \"0 mm\"], [\"12 mm\", \"0 mm\"], [\"13 mm\", \"6 mm\"], [\"9 mm\", \"16 mm\"], "
    "[\"-9 mm\", \"16 mm\"], [\"-13 mm\", \"6 mm\"]]\n";

/// Larch with its exhaust traced; `edges` says how it is placed.
std::string traced(const std::string& edges) {
  std::string text = larch_text;
  const std::size_t from = text.find("opens = \"103 deg\""), to = text.find("duct = {");
  return text.replace(from, to - from, edges + outline);
}

std::string contradiction(const geometry::Survey& survey, const std::string& path) {
  for (const base::Error& error : survey.errors)
    if (error.code == base::ErrorCode::contradiction && error.path == path) return error.message;
  return {};
}

// Half widths 12, 13, 9 mm at 0, 6, 16 mm: 6 (24 + 26) / 2 + 10 (26 + 18) / 2 = 370 mm2.
TEST(traced, its_area_has_the_range_of_a_line_drawn_too_far_out) {
  const Study s = study_of(traced("opens = \"103 deg\"\n"));
  const Figure& area = figure(s, "port.exhaust.area");
  EXPECT_NEAR(*area.value, 3.70, 1e-9);
  // One sigma of 0.1 mm to each side: 0.2 / 26 across and 0.2 / 16 down, together 1.467 % of the area.
  // The ends of a range of 512 draws stray by 4 %.
  ASSERT_TRUE(area.low && area.high);
  EXPECT_NEAR((*area.high - *area.low) / (2 * 1.96), 0.01467 * 3.70, 0.06 * 0.01467 * 3.70);
  EXPECT_THAT(area.from, testing::Contains("assumed.outline_line.exhaust.across"));
  EXPECT_THAT(area.from, testing::Contains("assumed.outline_line.exhaust.down"));
}

TEST(traced, its_area_has_the_range_that_was_read_with_it) {
  const Study s = study_of(traced("opens = \"103 deg\"\noutline_within = \"0.196 mm\"\n"));
  const Figure& area = figure(s, "port.exhaust.area");
  EXPECT_NEAR(*area.value, 3.70, 1e-9);
  // One sigma of 0.1 mm to each side, all round at once: 0.2 / 26 across and 0.2 / 16 down add up to 2.019 %.
  ASSERT_TRUE(area.low && area.high);
  EXPECT_NEAR((*area.high - *area.low) / (2 * 1.96), 0.02019 * 3.70, 0.06 * 0.02019 * 3.70);
  EXPECT_THAT(area.from, testing::Contains("port.exhaust.outline_within"));
  EXPECT_THAT(area.from, testing::Not(testing::Contains("assumed.outline_line.exhaust.across")));
}

TEST(traced, a_bound_that_cannot_be_is_named_and_the_usual_one_stands_in) {
  const Study s = study_of(traced("opens = \"103 deg\"\noutline_within = \"9 mm\"\n"));
  const Figure& area = figure(s, "port.exhaust.area");
  EXPECT_THAT(area.from, testing::Contains("assumed.outline_line.exhaust.across"));
}

TEST(traced, a_floor_alone_places_it) {
  const Study s = study_of(traced("floor = \"25.2 mm\"\n"));
  // Floor 61 - 25.2 = 35.8 mm below TDC, roof 16 mm above it.
  EXPECT_NEAR(*figure(s, "port.exhaust.drop").value, 35.8 - 16.0, 1e-9);
  EXPECT_NEAR(*figure(s, "skirt.cover_exhaust").value, 38.0 - 35.8, 1e-9);
  EXPECT_TRUE(figure(s, "port.exhaust.opens").low.has_value());
}

TEST(traced, a_roof_alone_places_one_that_the_skirt_opens) {
  std::string text = larch_text;
  const std::size_t from = text.find("opens = \"75 deg\""), to = text.find("[intake]");
  text.replace(from, to - from, std::string("roof = \"19.5 mm\"\n") + outline);
  // Floor 41.5 + 16 = 57.5 mm below TDC, the skirt's edge 38 mm below the crown's.
  EXPECT_NEAR(*figure(study_of(text), "port.intake.drop").value, 57.5 - 38.0, 1e-9);
}

TEST(traced, a_floor_that_its_outline_contradicts_is_named_and_the_range_holds_both) {
  const std::string agrees = traced("roof = \"41.2 mm\"\nfloor = \"25.1 mm\"\n"),
                    far = traced("roof = \"41.2 mm\"\nfloor = \"23.2 mm\"\n");
  EXPECT_EQ(contradiction(survey_of(agrees), "port.exhaust.floor"), "");
  EXPECT_THAT(contradiction(survey_of(far), "port.exhaust.floor"), HasSubstr("2.00 mm lower"));
  const Figure cover = figure(study_of(far), "skirt.cover_exhaust");
  EXPECT_NEAR(*cover.value, 38.0 - (61.0 - 41.2 + 16.0), 1e-9);
  EXPECT_LT(*cover.low, 38.0 - (61.0 - 23.2));
}

TEST(traced, a_cut_keeps_the_error_of_the_rubbing) {
  const Study s = study_of(traced("opens = \"103 deg\"\n"), "roof exhaust +0.5 mm");
  const Figure& area = figure(s, "port.exhaust.area");
  EXPECT_NEAR(*area.value, 3.81, 1e-9);  // the points of the upper half move: 6 x 25 + 10.5 x 22 mm2
  EXPECT_GT(*area.high - *area.low, 1.5 * 1.96 * 0.01467 * 3.70);
  // Both have the same rubbing, so it drops out of the change.
  EXPECT_LT(*area.change->high - *area.change->low, 0.1 * (*area.high - *area.low));
}

TEST(traced, the_sampled_path_asks_for_no_memory) {
  const geometry::Survey survey = survey_of(traced("opens = \"103 deg\"\n"));
  const cuts::CutList list = cuts::parse_cuts("base -0.3 mm; roof exhaust +0.5 mm; widen exhaust +0.5 mm").value();
  const auto prepared = cuts::prepare(list, survey, "").value();
  const std::vector<double> values = survey.values();
  const auto engine = std::make_unique<geometry::Engine>(), cut = std::make_unique<geometry::Engine>();
  const auto as_read = std::make_unique<Measures>(), out = std::make_unique<Measures>();
  geometry::resolve(survey, values, *engine);
  measure(*engine, 150.0, {}, *as_read);
  const long before = bench::allocations();
  for (int k = 0; k < 3; ++k) {
    geometry::resolve(survey, values, *engine);
    measure(*engine, 150.0, {}, *out, as_read.get());
    *cut = *engine;
    cuts::apply(*prepared, *cut);
    measure(*cut, 150.0, {}, *out);
  }
  EXPECT_EQ(bench::allocations() - before, 0);
  EXPECT_GT(*out->ports[0].area, 3.7e-4);
}

}  // namespace
}  // namespace portwright::study
