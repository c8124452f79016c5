#include "draw/lettering.hpp"

#include <gtest/gtest.h>

#include "draw/words.hpp"

namespace portwright::draw {
namespace {

TEST(Lettering, has_every_printable_ascii_and_the_signs_of_a_drawing) {
  for (char32_t c = 0x20; c < 0x7F; ++c) EXPECT_TRUE(has_glyph(c)) << static_cast<unsigned>(c);
  for (const char32_t c : U"°±×²³−·∅π–’“”üöäéßøåñçłž½µ→≤\u202f") {
    EXPECT_TRUE(c == 0 || has_glyph(c)) << static_cast<unsigned>(c);
  }
}

TEST(Lettering, figures_are_tabular) {
  for (char32_t c = U'0'; c <= U'9'; ++c) EXPECT_DOUBLE_EQ(glyph(c).width, glyph(U'0').width);
  EXPECT_DOUBLE_EQ(lettering_width("11111", 2.5), lettering_width("88888", 2.5));
}

TEST(Lettering, no_letter_strays_far_from_its_width) {
  for (char32_t c = 0x21; c < 0x2300; ++c) {
    if (!has_glyph(c)) continue;
    for (const Path& stroke : glyph(c).strokes) {
      const Box box = bounds(stroke);
      EXPECT_GE(box.left, -1.5) << static_cast<unsigned>(c);
      EXPECT_LE(box.right, glyph(c).width + 1.5) << static_cast<unsigned>(c);
      EXPECT_GE(box.top, -3.5) << static_cast<unsigned>(c);  // y up on the grid
      EXPECT_LE(box.bottom, 14.0) << static_cast<unsigned>(c);
    }
  }
}

TEST(Lettering, a_figure_is_as_high_as_asked) {
  const auto paths = lettering_paths({{10, 20}, "0", {Role::ink, 3.5}});
  EXPECT_NEAR(bounds(paths).height(), 3.5, 1e-9);
  EXPECT_NEAR(bounds(paths).bottom, 20, 1e-9);
  EXPECT_NEAR(bounds(paths).left, 10, 1e-9);
}

TEST(Lettering, anchors_put_start_middle_and_end_at_the_place) {
  const auto left = [](Anchor anchor) {
    return bounds(lettering_paths({{50, 0}, "808", {Role::ink, 3.0, anchor}})).left;
  };
  const double width = lettering_width("808", 3.0);
  // the bowls of 8 reach a little over their box
  EXPECT_NEAR(left(Anchor::start) - left(Anchor::middle), width / 2, 1e-9);
  EXPECT_NEAR(left(Anchor::start) - left(Anchor::end), width, 1e-9);
}

TEST(Lettering, an_unknown_letter_is_a_box_and_not_a_gap) {
  EXPECT_FALSE(has_glyph(U'語'));
  EXPECT_EQ(lettering_paths({{0, 0}, "語", {}}).size(), 1U);
}

TEST(Words, bytes_that_are_not_utf8_become_a_replacement_each) {
  EXPECT_EQ(clean_text("a\xff"
                       "b"),
            "a\uFFFDb");
  EXPECT_EQ(clean_text("\xc0\x80"), "\uFFFD\uFFFD");          // overlong
  EXPECT_EQ(code_points("\xed\xa0\x80").front(), U'\uFFFD');  // a half of a pair
  EXPECT_EQ(code_points("\xe2\x82").front(), U'\uFFFD');      // cut short
  EXPECT_EQ(clean_text("größe 日本 🪚"), "größe 日本 🪚");
}

TEST(Words, controls_and_direction_marks_become_blanks) {
  EXPECT_EQ(clean_text(std::string_view("a\0b\n\x1b[31m\u202e", 12)), "a b  [31m ");
}

TEST(Words, wrapped_lines_fit_and_lose_no_word) {
  const std::string text = "Seen from inside the bore, plug end up. Cut out the strip, roll it with the print inward.";
  std::string joined;
  for (const auto& one : wrapped(text, 3.2, 40)) {
    EXPECT_LE(words_width(one, 3.2), 40);
    joined += (joined.empty() ? "" : " ") + one;
  }
  EXPECT_EQ(joined, text);
}

TEST(Words, a_word_longer_than_the_line_is_cut_and_not_lost) {
  std::string joined;
  for (const auto& one : wrapped(std::string(200, 'm') + " ü日本", 3.2, 20)) {
    EXPECT_LE(words_width(one, 3.2), 20);
    joined += one;
  }
  EXPECT_EQ(joined.substr(0, 200), std::string(200, 'm'));
  EXPECT_TRUE(wrapped("", 3, 20).empty());
  EXPECT_EQ(wrapped("wide", 3, 0.001).size(), 4U);  // a letter a line at the worst
}

TEST(Words, fitted_text_fits) {
  EXPECT_EQ(fitted("short", 3, 100), "short");
  EXPECT_LE(words_width(fitted("a name that is much too long for its cell", 3, 30), 3), 30);
}

}  // namespace
}  // namespace portwright::draw
