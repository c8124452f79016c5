#include "sheet/measuring_sheet.hpp"

#include <gmock/gmock.h>

#include "draw/pdf.hpp"
#include "unit/draw/pdf_reading.hpp"
#include "unit/sheet/layout.hpp"

namespace portwright::sheet {
namespace {

TEST(MeasuringSheet, every_reading_has_its_number_in_the_list_and_in_a_drawing) {
  const auto document = draw_measuring_sheet(a4);
  std::vector<int> seen(200);
  int greatest = 0;
  for (const draw::Canvas& page : document.pages) {
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

TEST(Paper, names_are_found_whatever_their_case) {
  EXPECT_EQ(find_paper("a4")->width, 210.0);
  EXPECT_EQ(find_paper("LETTER")->height, 279.4);
  EXPECT_FALSE(find_paper("A5"));
}

}  // namespace
}  // namespace portwright::sheet
