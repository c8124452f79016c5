#include "sheet/cut_sheet.hpp"

#include <gmock/gmock.h>

#include "draw/pdf.hpp"
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
