#include <gtest/gtest.h>

#include <sstream>

#include "cli/page.hpp"
#include "unit/cli/program.hpp"

// Every text of the program fits a terminal of 80 columns.
namespace {

using portwright::cli::columns;
using program::run;

void expect_80_columns(const std::vector<std::string>& words, const std::string& input = {}) {
  const auto ran = run(words, input);
  for (const std::string& text : {ran.out, ran.err}) {
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
      EXPECT_LE(columns(line), 80u) << words[0] << ": " << line;
      EXPECT_TRUE(line.empty() || line.back() != ' ') << words[0] << ": blanks at the end of: " << line;
    }
  }
  EXPECT_FALSE(ran.out.empty() && ran.err.empty());
}

// The same for a saw file whatever it holds.
void expect_every_command_fits(const std::string& saw) {
  const std::string cuts = "base -0.5 mm; roof exhaust +0.5 mm";
  for (const std::vector<std::string>& words :
       std::vector<std::vector<std::string>>{{"study", saw},
                                             {"study", saw, "--all"},
                                             {"study", saw, "--cuts", cuts},
                                             {"study", saw, "--cuts", cuts, "--all", "--units", "metric"},
                                             {"why", saw, "timing.blowdown"},
                                             {"why", saw, "chamber.trapped_ratio", "--cuts", cuts},
                                             {"check", saw, "--all"},
                                             {"compare", saw, "--cuts-b", cuts},
                                             {"compare", saw, "--cuts-b", cuts, "--all"},
                                             {"edge", saw, "exhaust"},
                                             {"edge", saw, "exhaust", "--at", "98 deg"},
                                             {"edge", saw, "exhaust", "--at", "98 deg", "--cuts", cuts},
                                             {"edge", saw, "exhaust", "--edge", "floor"},
                                             {"plan", saw, "--wish", "exhaust at 101 deg; squish 0.7 mm"},
                                             {"plan", saw, "--wish", "blowdown 22 deg", "--all"},
                                             {"plan", saw, "--wish", "squish 0.2 mm"},
                                             {"sheet", saw, "--wish", "squish 0.2 mm", "-o", "none.pdf"}})
    expect_80_columns(words);
}

TEST(columns, every_command_over_every_sample_fits) {
  ASSERT_FALSE(program::samples().empty());
#ifdef PORTWRIGHT_SANITIZED
  constexpr std::size_t each = 3;  // the columns are counted over all of them without sanitizers; here memory counts
#else
  constexpr std::size_t each = 1;
#endif
  for (std::size_t i = 0; i < program::samples().size(); i += each)
    expect_every_command_fits(program::samples()[i].string());
}

TEST(columns, long_names_and_wide_letters_fit) {
  const program::Folder folder;
  for (const std::string& name :
       {std::string(200, 'x'),
        std::string("\u843D\u8449\u677E\u843D\u8449\u677E\u843D\u8449\u677E\u843D\u8449\u677E\u843D\u8449\u677E\u843D"
                    "\u8449\u677E\u843D\u8449\u677E\u843D\u8449\u677E\u843D\u8449\u677E"),
        std::string("e\u0301 with a mark")})
    expect_every_command_fits(folder.file("named.saw.toml", program::replaced(program::larch, "Larch 70", name)));
}

TEST(columns, a_saw_that_is_hardly_read_fits) {
  const program::Folder folder;
  expect_every_command_fits(
      folder.file("bare.saw.toml", "name = \"Bare\"\n[[port]]\nname = \"exhaust\"\nkind = \"exhaust\"\n"));
}

TEST(columns, help_errors_and_units_fit) {
  expect_80_columns({"--help"});
  for (const char* name : {"study", "why", "check", "compare", "edge", "plan", "sheet", "units", "new", "map",
                           "template", "measuring-sheet", "completion", "man"})
    expect_80_columns({name, "--help"});
  expect_80_columns({"units", "47 thou"});
  expect_80_columns({"units", "1,250 mm"});
  expect_80_columns({"study", std::string(300, 'n')});
  expect_80_columns({std::string(300, 'n')});
}

}  // namespace
