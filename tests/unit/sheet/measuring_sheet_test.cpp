#include "sheet/measuring_sheet.hpp"

#include <gmock/gmock.h>

#include "draw/pdf.hpp"
#include "sheet/rubbing_page.hpp"
#include "unit/draw/pdf_reading.hpp"
#include "unit/sheet/layout.hpp"

namespace portwright::sheet {
namespace {

TEST(MeasuringSheet, every_reading_has_its_number_in_the_list_and_in_a_drawing) {
  const auto document = draw_measuring_sheet(a4);
  std::vector<int> seen(200);
  int greatest = 0;
  for (const draw::Canvas& page : document.pages) {
    if (&page == &document.pages.back()) continue;  // the rubbing's: no readings, and a rule with its own numbers
    for (const draw::TextBox& text : draw::text_boxes(page)) {
      if (text.text.empty() || text.text.find_first_not_of("0123456789") != std::string::npos) continue;
      const int number = std::stoi(text.text);
      ++seen[static_cast<std::size_t>(number)];
      greatest = std::max(greatest, number);
    }
  }
  EXPECT_GT(greatest, 50);
  for (int k = 1; k <= greatest; ++k) EXPECT_GE(seen[static_cast<std::size_t>(k)], 2) << k;
}

TEST(MeasuringSheet, fits_both_papers) {
  for (const Paper& paper : {a4, letter}) {
    const auto document = draw_measuring_sheet(paper);
    EXPECT_GE(document.pages.size(), 3U);
    test::expect_texts_on_page(document);
    test::expect_texts_apart(document);
    EXPECT_TRUE(test::PdfFile(*draw::to_pdf(document)).is_sound());
  }
}

// The photo's scale hangs on it: white inside of 120 mm, black about it, nothing printed inside, and nothing where the
// triangle would stand on a page that is turned.
TEST(MeasuringSheet, ends_with_a_square_of_known_size_and_nothing_in_it) {
  for (const Paper& paper : {a4, letter}) {
    const auto document = draw_measuring_sheet(paper);
    const draw::Canvas& page = document.pages.back();
    const draw::Box in = rubbing_inside(paper);
    EXPECT_NEAR(in.width(), 120.0, 1e-9);
    EXPECT_NEAR(in.height(), 120.0, 1e-9);
    int frames = 0;
    for (const draw::Item& item : page.items())
      if (const auto* fill = std::get_if<draw::FillItem>(&item); fill && fill->area.size() == 2) {
        ++frames;
        EXPECT_NEAR(draw::bounds(fill->area[0]).width(), 130.0, 1e-9);
        EXPECT_NEAR(draw::bounds(fill->area[0]).left, in.left - 5.0, 1e-9);
        EXPECT_NEAR(draw::bounds(fill->area[1]).top, in.top, 1e-9);
        EXPECT_NEAR(draw::bounds(fill->area[1]).right, in.right, 1e-9);
      }
    EXPECT_EQ(frames, 1);
    for (const draw::TextBox& text : draw::text_boxes(page)) {
      bool beside = true;
      for (const draw::Point& p : text.corners)
        beside = beside && (p.x < in.left - 6 || p.x > in.right + 6 || p.y < in.top - 6 || p.y > in.bottom + 6);
      EXPECT_TRUE(beside) << text.text;
    }
  }
}

TEST(Paper, names_are_found_whatever_their_case) {
  EXPECT_EQ(find_paper("a4")->width, 210.0);
  EXPECT_EQ(find_paper("LETTER")->height, 279.4);
  EXPECT_FALSE(find_paper("A5"));
}

}  // namespace
}  // namespace portwright::sheet
