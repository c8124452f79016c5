#include "draw/pdf.hpp"

#include <gmock/gmock.h>

#include <cmath>
#include <cstdlib>

#include "unit/draw/pdf_reading.hpp"

namespace portwright::draw {
namespace {

using test::PdfFile;
using testing::HasSubstr;

constexpr double mm = 72.0 / 25.4;

Document one(Canvas canvas) { return {"Title", "", {std::move(canvas)}}; }

std::string bytes(const Document& document, const PdfOptions& options = {}) {
  auto made = to_pdf(document, options);
  EXPECT_TRUE(made) << (made ? "" : made.error().message);
  return made.value_or("");
}

TEST(Pdf, pages_are_exactly_their_size) {
  const std::string plain = PdfFile(bytes({"Two", "", {Canvas(210, 297), Canvas(215.9, 279.4)}})).plain();
  EXPECT_THAT(plain, HasSubstr("595.2755"));  // 210 mm
  EXPECT_THAT(plain, HasSubstr("841.8897"));  // 297 mm
  EXPECT_THAT(plain, HasSubstr("612"));       // 8.5 in
  EXPECT_THAT(plain, HasSubstr("792"));       // 11 in
}

TEST(Pdf, asks_the_reader_not_to_scale) {
  EXPECT_THAT(PdfFile(bytes(one(Canvas(100, 100)))).plain(), HasSubstr("/PrintScaling /None"));
}

TEST(Pdf, lines_lie_where_they_were_drawn_to_a_hundredth_of_a_millimetre) {
  Canvas c(210, 297);
  c.stroke(line({13.37, 41.25}, {170.14, 255.5}));
  const auto found = test::path_operators(PdfFile(bytes(one(c))).plain());
  ASSERT_GE(found.size(), 2U);
  EXPECT_NEAR(found[0].numbers[0] / mm, 13.37, 0.001);
  EXPECT_NEAR(297 - found[0].numbers[1] / mm, 41.25, 0.001);
  EXPECT_NEAR(found[1].numbers[0] / mm, 170.14, 0.001);
  EXPECT_NEAR(297 - found[1].numbers[1] / mm, 255.5, 0.001);
}

TEST(Pdf, bezier_curves_keep_within_a_thousandth_of_the_arc) {
  for (const double radius : {0.5, 4.0, 60.0, 400.0}) {
    Canvas c(1000, 1000);
    c.stroke(arc({500, 500}, radius, 0.2, 5.1));
    Point at;
    double worst = 0;
    for (const auto& op : test::path_operators(PdfFile(bytes(one(c))).plain())) {
      const auto p = [&](std::size_t i) { return Point{op.numbers[i] / mm, 1000 - op.numbers[i + 1] / mm}; };
      if (op.name == "c") {
        for (int k = 0; k <= 16; ++k) {
          const double t = k / 16.0, u = 1 - t;
          const Point q = u * u * u * at + 3 * u * u * t * p(0) + 3 * u * t * t * p(2) + t * t * t * p(4);
          worst = std::max(worst, std::abs(std::hypot(q.x - 500, q.y - 500) - radius));
        }
      }
      at = p(op.numbers.size() - 2);
    }
    EXPECT_GT(worst, 0.0) << radius;
    EXPECT_LT(worst, 0.001) << radius;
  }
}

TEST(Pdf, printer_correction_reaches_every_line) {
  Canvas c(200, 100);
  c.correction = {1.01, 0.99};
  c.stroke(line({0, 0}, {200, 100}));
  const auto found = test::path_operators(PdfFile(bytes(one(c))).plain());
  ASSERT_GE(found.size(), 2U);
  EXPECT_NEAR((found[1].numbers[0] - found[0].numbers[0]) / mm, 202, 0.001);
  EXPECT_NEAR((found[0].numbers[1] - found[1].numbers[1]) / mm, 99, 0.001);
}

TEST(Pdf, words_and_figures_can_be_found) {
  Canvas c(200, 100);
  c.words({10, 20}, "Exhaust roof höher", {Role::ink, 4});
  c.letter({10, 40}, "37.54", {Role::ink, 4});
  c.letter({60, 40}, "−1.9°", {Role::ink, 4, Anchor::middle, -90});
  const std::string text = PdfFile(bytes(one(c))).text();
  EXPECT_THAT(text, HasSubstr("Exhaust roof höher"));
  EXPECT_THAT(text, HasSubstr("37.54"));
  EXPECT_THAT(text, HasSubstr("−1.9°"));
}

TEST(Pdf, text_of_any_language_or_none_is_taken) {
  Canvas c(200, 100);
  for (const char* text : {"日本語 тест עברית ภาษา", "🪚🪚", "\xff\xfe\xc0\x80", "(((\\)))", "\x01\x02"}) {
    c.words({10, 20}, text, {Role::ink, 4, Anchor::end, 0, true, 1.5});
    c.letter({10, 40}, text, {Role::ink, 4});
  }
  c.words({10, 20}, std::string(100000, 'x'));
  EXPECT_TRUE(PdfFile(bytes({"日本 (\\) \xff", "тест", {c}})).is_sound());
}

TEST(Pdf, without_the_text_face_words_are_drawn) {
  Canvas c(200, 100);
  c.words({10, 20}, "Exhaust", {Role::ink, 4});
  PdfOptions options;
  options.face = options.face_bold = "/nowhere/at-all.ttf";
  const PdfFile file(bytes(one(c), options));
  EXPECT_TRUE(file.is_sound());
  EXPECT_GT(test::path_operators(file.plain()).size(), 10U);
}

TEST(Pdf, a_face_that_is_not_a_face_is_passed_over) {
  PdfOptions options;
  options.face = options.face_bold = PORTWRIGHT_SOURCE_DIR "/CMakeLists.txt";
  Canvas c(200, 100);
  c.words({10, 20}, "Exhaust", {Role::ink, 4});
  EXPECT_TRUE(PdfFile(bytes(one(c), options)).is_sound());
}

TEST(Pdf, the_same_document_gives_the_same_bytes) {
  Canvas c(200, 100);
  c.words({10, 20}, "Exhaust", {Role::ink, 4});
  c.hatch({circle({50, 50}, 20)}, {});
  EXPECT_EQ(bytes(one(c)), bytes(one(c)));
}

TEST(Pdf, source_date_epoch_goes_before_the_given_date) {
  PdfOptions options;
  options.date = 1700000000;  // 14 November 2023
  ::unsetenv("SOURCE_DATE_EPOCH");
  EXPECT_THAT(bytes(one(Canvas(50, 50)), options), HasSubstr("D:20231114221320"));
  ::setenv("SOURCE_DATE_EPOCH", "86400", 1);
  EXPECT_THAT(bytes(one(Canvas(50, 50)), options), HasSubstr("D:19700102000000"));
  ::setenv("SOURCE_DATE_EPOCH", "soon", 1);
  EXPECT_THAT(bytes(one(Canvas(50, 50)), options), HasSubstr("D:20231114221320"));
  ::unsetenv("SOURCE_DATE_EPOCH");
}

TEST(Pdf, impossible_papers_are_refused_with_a_reason) {
  EXPECT_EQ(to_pdf({}).error().code, base::ErrorCode::impossible);
  EXPECT_EQ(to_pdf(one(Canvas(0, 100))).error().code, base::ErrorCode::impossible);
  EXPECT_EQ(to_pdf(one(Canvas(1e6, 100))).error().code, base::ErrorCode::impossible);
  Canvas c(50, 50);
  c.stroke(line({0, 0}, {std::nan(""), 1}));
  EXPECT_EQ(to_pdf(one(c)).error().code, base::ErrorCode::impossible);
}

TEST(Pdf, dashes_add_up_to_the_share_of_ink_in_the_pattern) {
  Canvas c(200, 50);
  c.stroke(line({10, 10}, {190, 10}), {Role::ink, 0.25, Dash::hidden, false});
  const auto found = test::path_operators(PdfFile(bytes(one(c))).plain());
  double ink = 0, from = 0;
  for (const auto& op : found) {
    if (op.name == "m")
      from = op.numbers[0];
    else
      ink += (op.numbers[0] - from) / mm;
  }
  EXPECT_NEAR(ink, 180 / 1.7, 1.0);
}

TEST(Pdf, every_mark_of_the_canvas_makes_a_sound_file) {
  Canvas c(100, 100);
  c.clip({circle({50, 50}, 30)}).hatch({rectangle(0, 0, 100, 100)}, {Hatch::dots, Role::ink}).end_clip();
  c.end_clip();  // one too many
  c.clip({});    // never ended
  c.fill({});
  c.stroke(circle({10, 10}, 3), {Role::stop, 0.5, Dash::centre});
  PdfOptions slate;
  slate.theme = &theme_slate();
  EXPECT_TRUE(PdfFile(bytes(one(c), slate)).is_sound());
}

}  // namespace
}  // namespace portwright::draw
