#include "sheet/paper_template.hpp"

#include <gmock/gmock.h>

#include <cmath>
#include <numbers>

#include "draw/pdf.hpp"
#include "sheet/cut_rows.hpp"
#include "sheet/template_page.hpp"
#include "unit/draw/pdf_reading.hpp"
#include "unit/sheet/layout.hpp"
#include "unit/sheet/sample.hpp"

namespace portwright::sheet {
namespace {

using std::numbers::pi;
using test::larch;
using test::saw_of;
using testing::HasSubstr;

constexpr double mm = 72.0 / 25.4;
constexpr const char* five_cuts =
    "gasket out; floor intake -1 mm; widen exhaust +1.5 mm; roof exhaust +1 mm; corner exhaust roof to 6 mm";

TemplateInput input_of(const test::Saw& saw) { return {saw.after, saw.cuts, saw.labels}; }

draw::Document made(const TemplateInput& input) {
  auto document = draw_template(input);
  EXPECT_TRUE(document) << (document ? "" : document.error().message);
  return document ? std::move(*document) : draw::Document{};
}

/// Straight pieces of a PDF, from outside, in mm from the page's top left.
struct Piece {
  double x1, y1, x2, y2;
};
std::vector<Piece> pieces_of(const draw::Document& document, double height) {
  const auto bytes = draw::to_pdf(document);
  EXPECT_TRUE(bytes);
  const test::PdfFile file(bytes.value_or(""));
  EXPECT_TRUE(file.is_sound());
  std::vector<Piece> pieces;
  double x = 0, y = 0;
  for (const auto& op : test::path_operators(file.plain())) {
    const double nx = op.numbers[op.numbers.size() - 2] / mm, ny = height - op.numbers.back() / mm;
    if (op.name == "l") pieces.push_back({x, y, nx, ny});
    x = nx, y = ny;
  }
  return pieces;
}

int count(const std::vector<Piece>& pieces, double dx, double dy) {
  return static_cast<int>(std::count_if(pieces.begin(), pieces.end(), [&](const Piece& p) {
    return std::abs(std::abs(p.x2 - p.x1) - dx) < 0.01 && std::abs(std::abs(p.y2 - p.y1) - dy) < 0.01;
  }));
}

TEST(Template, check_bars_are_100_mm_both_ways) {
  const auto saw = saw_of(larch);
  const auto pieces = pieces_of(made(input_of(saw)), 297);
  EXPECT_GE(count(pieces, 100, 0), 1);
  EXPECT_GE(count(pieces, 0, 100), 1);
}

TEST(Template, a_measured_bar_corrects_the_printer) {
  const auto saw = saw_of(larch);
  TemplateInput input = input_of(saw);
  input.printer = {99.2, 100.5};
  const auto pieces = pieces_of(made(input), 297);
  EXPECT_GE(count(pieces, 100 / 0.992, 0), 1);
  EXPECT_GE(count(pieces, 0, 100 / 1.005), 1);
}

TEST(Template, the_strip_is_pi_times_bore_less_paper_and_closes_on_the_thick_line) {
  const auto saw = saw_of(larch);
  for (const double paper : {0.0, 0.1, 0.25}) {
    TemplateInput input = input_of(saw);
    input.paper_thickness = paper;
    const double length = pi * (50.0 - paper);
    const auto pieces = pieces_of(made(input), 297);
    EXPECT_GE(count(pieces, length + 10, 0), 2);  // upper and lower border, with the tab
    const double left = 14.0;
    const bool closes = std::any_of(pieces.begin(), pieces.end(), [&](const Piece& p) {
      return std::abs(p.x1 - left - length) < 0.01 && std::abs(p.x2 - p.x1) < 0.01 && std::abs(p.y2 - p.y1) > 20;
    });
    EXPECT_TRUE(closes) << paper;
  }
}

TEST(Template, windows_lie_where_the_bore_has_them_to_a_hundredth) {
  // Crank geometry written out apart from the program: drop at 103 deg with stroke 36, rod 65.
  const double a = 103 * pi / 180, r = 18, l = 65;
  const double drop = r * (1 - std::cos(a)) + l - std::sqrt(l * l - r * r * std::sin(a) * std::sin(a));
  const auto saw = saw_of(larch);
  const auto document = made(input_of(saw));
  const double length = pi * 49.9, scale = length / (pi * 50);
  const double roof = 61 - drop, width = 50 * std::asin(28.0 / 50) * scale, straight = width - 2 * 5 * scale;
  const double middle = 14 + length * 135 / 360;
  bool found = false;
  double base = 0;
  const auto pieces = pieces_of(document, 297);
  for (const Piece& p : pieces) {
    if (std::abs(p.x2 - p.x1) > length + 9.9 && std::abs(p.y2 - p.y1) < 0.01) base = std::max(base, p.y1);
  }
  for (const Piece& p : pieces) {
    const bool level = std::abs(p.y1 - p.y2) < 0.01 && std::abs(std::abs(p.x2 - p.x1) - straight) < 0.01;
    found = found || (level && std::abs((p.x1 + p.x2) / 2 - middle) < 0.01 && std::abs(base - p.y1 - roof) < 0.01);
  }
  EXPECT_TRUE(found) << "no roof of " << straight << " at height " << roof << ", base at " << base;
}

TEST(Template, angles_grow_to_the_right_so_the_print_reads_true_inside_the_bore) {
  // Clockwise seen from the plug is to the right hand of one who stands in the bore with the head toward the plug.
  auto text = test::larch_with("mirrored = true\n", "");
  const auto saw = saw_of(text);
  const TemplateInput input = input_of(saw);
  TemplateJob job{input, *plan_of(saw.after, saw.cuts)};
  job.strip.length = pi * 49.9;
  const auto windows = job.windows(job.view(0, 0));
  ASSERT_EQ(windows.size(), 3U);
  EXPECT_EQ(windows[0].wanted.port->kind, geometry::PortKind::exhaust);
  EXPECT_EQ(windows[1].wanted.port->kind, geometry::PortKind::transfer);
  EXPECT_NEAR(windows[1].wanted.x - windows[0].wanted.x, pi * 49.9 * 65 / 360, 1e-9);
}

TEST(Template, rows_say_now_stop_and_then) {
  const auto saw = saw_of(larch, five_cuts);
  const auto rows = cut_rows(*plan_of(saw.after, saw.cuts), saw.labels);
  ASSERT_EQ(rows.size(), 5U);
  EXPECT_EQ(rows[0].what, "Base gasket out");
  EXPECT_EQ(rows[0].now, "0.45");
  EXPECT_EQ(rows[0].stop, "solder");
  EXPECT_EQ(rows[1].what, "Intake floor lower");
  EXPECT_EQ(rows[1].now, "7.29");
  EXPECT_EQ(rows[1].stop, "6.59");
  EXPECT_EQ(rows[1].then, "6.29");
  EXPECT_EQ(rows[1].wheel_end, "79.5° before");
  EXPECT_EQ(rows[2].now, "28.0");
  EXPECT_EQ(rows[2].stop, "30.4");
  EXPECT_EQ(rows[2].then, "31.0");
  EXPECT_EQ(rows[3].now, "36.54");
  EXPECT_EQ(rows[3].stop, "37.24");
  EXPECT_EQ(rows[3].then, "37.54");
  EXPECT_EQ(rows[4].then, "6.0");
}

TEST(Template, wheel_angles_are_those_after_the_cuts_before_them) {
  // Own arithmetic, exact, of the table of cuts: dropped 0.5 opens at 104.76, roof 0.5 higher after it at 103.00 again.
  const auto saw = saw_of(larch, "base -0.5 mm; roof exhaust +0.5 mm");
  const auto rows = cut_rows(*plan_of(saw.after, saw.cuts), saw.labels);
  EXPECT_EQ(rows[1].wheel_end, "103.0° after");
  EXPECT_EQ(rows[1].now, "36.04");  // from the base face that was cut
}

TEST(Template, a_small_cut_stops_half_way) {
  EXPECT_DOUBLE_EQ(short_of(1e-3), 0.3e-3);
  EXPECT_DOUBLE_EQ(short_of(-0.4e-3), 0.2e-3);
}

TEST(Template, the_window_now_lies_where_it_is_once_the_base_is_cut) {
  const auto saw = saw_of(larch, "base -0.5 mm; roof exhaust +1 mm");
  const TemplateInput input = input_of(saw);
  TemplateJob job{input, *plan_of(saw.after, saw.cuts)};
  job.strip.length = pi * 49.9;
  for (const StripWindow& w : job.windows(job.view(0, 0))) {
    if (w.wanted.port->kind != geometry::PortKind::exhaust) {
      EXPECT_FALSE(w.now.has_value());
      continue;
    }
    ASSERT_TRUE(w.now && w.stop);
    EXPECT_NEAR(w.roof - w.now_roof, 1.0, 1e-9);
    EXPECT_NEAR(w.now_roof, 36.54 - 0.5, 0.005);
    EXPECT_NEAR(-w.stop->box.top - w.roof, -0.3, 1e-9);
    EXPECT_EQ(w.cut, 2);
  }
}

TEST(Template, a_long_strip_goes_on_in_pieces_that_overlap) {
  const auto saw = saw_of(test::larch_with("\"50.0 mm\"", "\"60.0 mm\""));
  for (const Paper& paper : {a4, letter}) {
    TemplateInput input = input_of(saw);
    input.paper = paper;
    const auto document = made(input);
    const std::string text = test::PdfFile(*draw::to_pdf(document)).text();
    EXPECT_THAT(text, HasSubstr("Pieces overlap by 8"));
    EXPECT_THAT(text, HasSubstr("join"));
    test::expect_texts_on_page(document);
  }
}

TEST(Template, no_text_leaves_the_page_and_none_lies_on_another) {
  for (const char* cuts : {"", five_cuts,
                           "roof primary +0.3 mm; widen primary +0.5 mm right; weld intake floor 0.4 mm; mouth primary "
                           "to 2 cm2; advance +4 deg"}) {
    const auto saw = saw_of(larch, cuts);
    for (const Paper& paper : {a4, letter}) {
      TemplateInput input = input_of(saw);
      input.paper = paper;
      const auto document = made(input);
      test::expect_texts_on_page(document);
      test::expect_texts_apart(document);
    }
  }
}

TEST(Template, names_of_any_length_and_language_stay_on_the_page) {
  auto saw = saw_of(larch, five_cuts);
  saw.labels.saw = std::string(300, 'W') + " 日本語 </text> \xff";
  saw.labels.state = std::string(200, 'm');
  saw.labels.plan = std::string(200, 'm');
  for (std::string& name : saw.labels.ports) name += " with a long name";
  const auto document = made(input_of(saw));
  test::expect_texts_on_page(document);
  EXPECT_TRUE(test::PdfFile(*draw::to_pdf(document)).is_sound());
}

TEST(Template, many_cuts_go_on_over_pages) {
  std::string cuts;
  for (int k = 0; k < 40; ++k) cuts += "roof exhaust +0.1 mm;";
  const auto saw = saw_of(larch, cuts);
  const auto document = made(input_of(saw));
  EXPECT_GE(document.pages.size(), 2U);
  test::expect_texts_on_page(document);
  EXPECT_EQ(document.pages.front().width(), 210);
}

TEST(Template, findings_stand_on_the_paper_stops_first) {
  const auto saw = saw_of(larch, five_cuts);
  std::vector<study::Finding> findings(30);
  for (auto& f : findings)
    f.state = study::State::note, f.text = "A note that says something of some length about a place in the bore.";
  findings[0].state = study::State::stop;
  findings[0].text = "Skirt covers the exhaust floor by 0.6 mm, 1.0 mm is asked.";
  findings[1].state = study::State::ok;
  TemplateInput input = input_of(saw);
  input.findings = findings;
  const auto document = made(input);
  test::expect_texts_on_page(document);
  const std::string text = test::PdfFile(*draw::to_pdf(document)).text();
  EXPECT_THAT(text, HasSubstr("Stop. Skirt covers the exhaust floor"));
  EXPECT_THAT(text, HasSubstr("1 limit holds."));
  EXPECT_THAT(text, HasSubstr("more notes"));
}

TEST(Template, what_cannot_be_drawn_is_said) {
  const auto no_bore = saw_of(test::larch_with("bore = \"50.0 mm\"\n", ""));
  const auto waits = draw_template(input_of(no_bore));
  ASSERT_FALSE(waits);
  EXPECT_EQ(waits.error().code, base::ErrorCode::not_found);
  EXPECT_THAT(waits.error().message, HasSubstr("crank.bore"));

  const auto saw = saw_of(larch);
  TemplateInput input = input_of(saw);
  input.printer = {50, 100};
  EXPECT_EQ(draw_template(input).error().code, base::ErrorCode::impossible);
  input = input_of(saw);
  input.paper_thickness = std::nan("");
  EXPECT_EQ(draw_template(input).error().code, base::ErrorCode::impossible);
  input = input_of(saw);
  input.after = {};
  EXPECT_EQ(draw_template(input).error().code, base::ErrorCode::impossible);
}

}  // namespace
}  // namespace portwright::sheet
