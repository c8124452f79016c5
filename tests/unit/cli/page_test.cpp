#include "cli/page.hpp"

#include <gtest/gtest.h>

namespace {

using namespace portwright::cli;

TEST(page, columns_are_counted_as_a_terminal_counts_them) {
  EXPECT_EQ(columns("103.0 deg"), 9u);
  EXPECT_EQ(columns("\u22121.9"), 4u);
  EXPECT_EQ(columns("12\u202F500"), 6u);
  EXPECT_EQ(columns("e\u0301"), 1u);
  EXPECT_EQ(columns("\u843D\u8449\u677E"), 6u);
  EXPECT_EQ(columns("\xFF\xFE"), 2u);
}

TEST(page, a_cell_is_as_wide_as_asked_whatever_is_in_it) {
  for (const char* text :
       {"", "short", "a text that is longer than its cell", "\u843D\u8449\u677E\u843D\u8449\u677E\u843D",
        "\u2212\u2212\u2212\u2212\u2212\u2212\u2212\u2212\u2212\u2212\u2212\u2212"}) {
    EXPECT_EQ(columns(left(text, 10)), 10u) << text;
    EXPECT_EQ(columns(right(text, 10)), 10u) << text;
    EXPECT_EQ(left(text, 0), "") << text;
  }
}

TEST(page, wrapped_lines_keep_every_word_and_the_width) {
  const std::string text = "Raise the roof by 1.43 mm (56 thou), then read the wheel again before anything else.";
  std::string back;
  for (const std::string& line : wrap(text, 20)) {
    EXPECT_LE(columns(line), 20u);
    back += (back.empty() ? "" : " ") + line;
  }
  EXPECT_EQ(back, text);
}

TEST(page, a_word_longer_than_the_line_is_cut) {
  for (const std::string& line : wrap(std::string(100, 'x'), 30)) EXPECT_LE(columns(line), 30u);
}

TEST(page, what_could_steer_a_terminal_does_not_reach_it) {
  Page page(false);
  page.line("Larch\x1b[31m\x07\n70\u202E \u009B");
  EXPECT_EQ(page.text(), "Larch [31m  70\n");
}

TEST(page, colour_is_put_on_only_where_it_is_wanted) {
  Page plain(false), coloured(true);
  plain.line("Stop", Ink::stop);
  coloured.line("Stop", Ink::stop);
  EXPECT_EQ(plain.text(), "Stop\n");
  EXPECT_EQ(coloured.text(), "\x1b[1;31mStop\x1b[0m\n");
}

}  // namespace
