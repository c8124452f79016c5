#include "sheet/cut_sheet.hpp"

#include <gmock/gmock.h>

#include "draw/pdf.hpp"
#include "sheet/work_words.hpp"
#include "unit/draw/pdf_reading.hpp"
#include "unit/plan/plan_saws.hpp"
#include "unit/sheet/layout.hpp"

namespace portwright::sheet {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;

/// Every sample's first plan for a handful of wishes, as work.
struct Piece {
  geometry::Survey survey;
  plan::Settings settings;
  plan::Work work;
};

Piece piece(const std::string& saw, const std::string& wishes, const std::string& done = "",
            base::UnitStyle style = base::UnitStyle::shop) {
  Piece out{bench::sample_survey(saw), {}, {}};
  out.settings.study.samples = 32;
  out.settings.study.style = style;
  out.settings.done = *cuts::parse_cuts(done);
  const auto plan = bench::planned(out.survey, wishes, out.settings);
  if (!plan) {
    ADD_FAILURE() << saw << ": " << plan.error().front().message;
    return out;
  }
  const auto work = plan::work_of(plan->ways.front(), out.survey, out.settings, {});
  if (work)
    out.work = *work;
  else
    ADD_FAILURE() << saw << ": " << work.error().front().message;
  return out;
}

CutSheetInput input_of(const Piece& piece, const Paper& paper) {
  CutSheetInput input{piece.work, "Saw with a name that is longer than a sheet of paper is wide, surely it is", "stock",
                      "plan 1 of 3"};
  input.wishes = {{"exhaust opens", "104.8 deg", "99.0 deg", ""}, {"squish", "1.05 mm (41 thou)", "0.70 mm", ""}};
  input.notes = {
      "A note of the plan that is long enough to need more than one line on any paper that is in use, and "
      "then some more words.",
      "Another one."};
  input.cautions = {"Measure, creep up, stop short: metal that is cut does not come back."};
  input.paper = paper;
  return input;
}

std::vector<std::string> texts_of(const draw::Document& document) {
  std::vector<std::string> out;
  for (const draw::Canvas& page : document.pages)
    for (const draw::TextBox& text : draw::text_boxes(page)) out.push_back(text.text);
  return out;
}

constexpr const char* wishes = "exhaust at 99 deg; transfers at 119 deg; squish 0.7 mm; exhaust width 60 %";

TEST(CutSheet, fits_every_paper_and_no_text_lies_on_another) {
  for (const char* saw : {"alder-60", "larch-70", "spruce-92", "hornbeam-66-b"}) {
    const Piece made = piece(saw, wishes);
    for (const Paper& paper : {a4, letter, a5}) {
      const draw::Document document = draw_cut_sheet(input_of(made, paper));
      test::expect_texts_on_page(document);
      test::expect_texts_apart(document);
      EXPECT_TRUE(test::PdfFile(*draw::to_pdf(document)).is_sound()) << saw;
    }
  }
}

TEST(CutSheet, every_step_has_its_target_stop_mark_and_last_word) {
  const Piece made = piece("alder-60", wishes);
  const auto texts = texts_of(draw_cut_sheet(input_of(made, a4)));
  EXPECT_THAT(texts, Contains("99.0 deg"));
  EXPECT_THAT(texts, Contains(HasSubstr("then it reads about")));
  EXPECT_THAT(texts, Contains(HasSubstr("put the tool down")));
  // The exhaust's band is a degree: never past 98.0.
  EXPECT_THAT(texts, Contains(HasSubstr("98.0 deg")));
  for (const std::string& line : plan::assembly_list()) EXPECT_THAT(texts, Contains(line));
  EXPECT_THAT(texts, Contains("On assembly"));
}

TEST(CutSheet, the_card_has_the_steps_alone) {
  const Piece made = piece("alder-60", wishes);
  const auto texts = texts_of(draw_cut_sheet(input_of(made, a5)));
  EXPECT_THAT(texts, Contains("99.0 deg"));
  EXPECT_THAT(texts, ::testing::Not(Contains("On assembly")));
}

/// All texts of a document in one line, however they were wrapped.
std::string whole(const CutSheetInput& input) {
  std::string out;
  for (const std::string& text : texts_of(draw_cut_sheet(input))) out += text + " ";
  return out;
}

TEST(CutSheet, the_card_says_nothing_else_than_the_sheet) {
  const char* const all_wishes = "exhaust at 99 deg; squish 0.7 mm; exhaust width 60 %";
  for (const char* done : {"", "base -0.36 mm; widen exhaust +1.1 mm", "base -0.33 mm"}) {
    const Piece made = piece("alder-60", all_wishes, done);
    const std::string sheet = whole(input_of(made, a4)), card = whole(input_of(made, a5));
    for (const plan::WorkStep& step : made.work.steps) {
      const auto lines = card_lines(step, base::UnitStyle::shop);
      if (step.done || !step.guard) continue;
      EXPECT_EQ(lines.front().starts_with("before: "), true);
      EXPECT_THAT(lines.front(), HasSubstr("stop and read again"));
    }
    for (const char* words : {"nothing to cut", "leave it", "stop and read again"})
      EXPECT_EQ(sheet.find(words) != std::string::npos, card.find(words) != std::string::npos) << done << words;
  }
}

TEST(CutSheet, what_is_a_stop_stands_on_top_of_both) {
  const Piece made = piece("alder-60", wishes);
  for (const Paper& paper : {a4, a5}) {
    CutSheetInput input = input_of(made, paper);
    input.stops = {
        "Skirt over the exhaust floor is \u22120.30 mm: case and exhaust join for a moment at TDC, whatever else "
        "is cut. Drop the cylinder less."};
    const draw::Document document = draw_cut_sheet(input);
    test::expect_texts_on_page(document);
    test::expect_texts_apart(document);
    const std::string text = whole(input);
    ASSERT_NE(text.find("Stop. Skirt over"), std::string::npos);
    EXPECT_LT(text.find("Stop. Skirt over"), text.find("stop mark"));
    EXPECT_LT(text.find("Stop. Skirt over"), 300u);
  }
}

TEST(CutSheet, a_done_step_is_ticked_and_has_no_large_number) {
  const Piece made = piece("alder-60", wishes, "base -0.33 mm");
  for (const Paper& paper : {a4, a5}) {
    const auto document = draw_cut_sheet(input_of(made, paper));
    const auto texts = texts_of(document);
    EXPECT_THAT(texts, Contains("done"));
    EXPECT_THAT(texts, Contains(HasSubstr("by 0.33 mm")));
    EXPECT_THAT(texts, ::testing::Not(Contains(figure_text(made.work.steps.front(), made.work.steps.front().target))));
    test::expect_texts_on_page(document);
    test::expect_texts_apart(document);
  }
}

TEST(CutSheet, a_height_that_was_never_read_is_not_asked_for_again) {
  // Willow has openings alone; Alder's heights were read from the face that is turned here.
  const char* const cases[][3] = {{"willow-64", "transfer at 119 deg", ""}, {"alder-60", wishes, "base -0.33 mm"}};
  for (const auto& [saw, asked, done] : cases) {
    const Piece made = piece(saw, asked, done);
    const std::string text = whole(input_of(made, a4));
    EXPECT_EQ(text.find("height over its stock reading"), std::string::npos) << saw;
    EXPECT_EQ(text.find("waits for readings"), std::string::npos) << saw;
    EXPECT_NE(text.find("scribed before the cut"), std::string::npos) << saw;
    EXPECT_NE(text.find("mm gone"), std::string::npos) << saw;
  }
  // Where it was read and its face stands, it is told in mm too.
  const std::string read = whole(input_of(piece("alder-60", "transfers at 119 deg; squish as stock"), a4));
  EXPECT_NE(read.find("height over its stock reading"), std::string::npos);
  EXPECT_NE(read.find("mm high"), std::string::npos);
}

TEST(CutSheet, never_past_lies_on_the_safe_side_of_every_hard_limit) {
  const Piece made = piece("larch-70", "squish 0.55 mm");
  const auto plan = bench::planned(made.survey, "squish 0.55 mm", made.settings);
  plan::Bench wide;
  wide.squish_band = 0.3e-3;
  int clipped = 0;
  for (const plan::Way& way : plan->ways) {
    const plan::Work work = *plan::work_of(way, made.survey, made.settings, wide);
    for (std::size_t k = 0; k < work.steps.size(); ++k) {
      const plan::WorkStep& step = work.steps[k];
      if (!step.guard || !step.label.starts_with("squish")) continue;
      cuts::CutList list = way.exact;
      list[k].amount += std::copysign(1e-3 * std::abs((step.never - step.target) / step.per_mm), list[k].amount);
      EXPECT_GE(bench::figures_after(made.survey, list).at("squish.working"), 0.35 - 1e-6);
      const bool is_clipped = std::abs(step.never - step.target) < step.guard->half_band - 1e-9;
      clipped += is_clipped ? 1 : 0;
      EXPECT_EQ(step.never_why.empty(), !is_clipped);
    }
  }
  EXPECT_GE(clipped, 1);
}

TEST(CutSheet, what_is_done_stands_beside_what_was_planned) {
  const Piece made = piece("alder-60", wishes, "widen exhaust +1.0 mm");
  CutSheetInput input = input_of(made, a4);
  input.done = {{"Widen the exhaust", "1.10 mm", "1.00 mm", "\u22120.10 mm"}};
  const auto texts = texts_of(draw_cut_sheet(input));
  EXPECT_THAT(texts, Contains("Planned and cut"));
  EXPECT_THAT(texts, Contains("\u22120.10 mm"));
  EXPECT_THAT(texts, Contains(HasSubstr("by 0.10 mm")));
}

TEST(CutSheet, metric_has_no_thou) {
  const Piece made = piece("alder-60", wishes, "", base::UnitStyle::metric);
  CutSheetInput input = input_of(made, a4);
  input.style = base::UnitStyle::metric;
  input.wishes.clear();
  for (const std::string& text : texts_of(draw_cut_sheet(input)))
    EXPECT_EQ(text.find("thou"), std::string::npos) << text;
}

}  // namespace
}  // namespace portwright::sheet
