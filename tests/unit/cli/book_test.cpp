// Commands of two words, and the book at the program's door.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

#include "cli/manual.hpp"
#include "cli/page.hpp"
#include "cli/words.hpp"
#include "unit/cli/program.hpp"

namespace {

using namespace portwright;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

TEST(two_words, are_looked_up_before_one) {
  const auto words = cli::parse_words({"book", "set", "larch", "crank.bore", "50.0", "mm", "--with", "caliper"});
  ASSERT_TRUE(words) << words.error().message;
  EXPECT_EQ(words->command->name, "book set");
  EXPECT_THAT(words->arguments, ElementsAre("larch", "crank.bore", "50.0 mm"));
  EXPECT_EQ(cli::parse_words({"book"})->command->name, "book");
  EXPECT_EQ(cli::parse_words({"book", "--help"})->command->name, "book");
  EXPECT_THAT(cli::parse_words({"book", "add", "a", "b c", "d"})->arguments, ElementsAre("a", "b c", "d"));
  EXPECT_EQ(cli::find_command(std::vector<std::string>{"book list"}).command, nullptr);
}

TEST(two_words, values_that_begin_with_a_minus_are_values) {
  for (const char* text : {"-0.5 mm", "-.5 mm", "-5"}) {
    const auto words = cli::parse_words({"book", "set", "l", "crank.pin_offset", text, "--with", text});
    ASSERT_TRUE(words) << words.error().message;
    EXPECT_EQ(words->argument(2), text);
    EXPECT_EQ(words->value("--with"), text);
  }
  const auto words = cli::parse_words({"book", "note", "l", "--", "--json is no option here"});
  ASSERT_TRUE(words) << words.error().message;
  EXPECT_EQ(words->argument(1), "--json is no option here");
  EXPECT_FALSE(words->has("--json"));
}

TEST(two_words, a_mistyped_second_word_has_a_nearest) {
  const auto words = cli::parse_words({"book", "lst"});
  ASSERT_FALSE(words);
  EXPECT_THAT(words.error().message, HasSubstr("\u201Clst\u201D is no command of book"));
  EXPECT_EQ(words.error().hint, "Did you mean book list?");
  EXPECT_THAT(cli::parse_words({"bok"}).error().hint, HasSubstr("Did you mean book?"));
}

TEST(two_words, help_of_the_group_man_page_and_completions_have_each_of_them) {
  const cli::Command* group = cli::find_command(std::string_view("book"));
  ASSERT_NE(group, nullptr);
  const auto members = cli::members_of(*group);
  EXPECT_GE(members.size(), 20u);
  const std::string help = cli::command_help(*group, false), man = cli::man_page(), bash = cli::bash_completion(),
                    zsh = cli::zsh_completion();
  for (const cli::Command* command : members) {
    const std::string name(command->name), last(cli::last_word(*command));
    EXPECT_THAT(help, HasSubstr("\n  " + name + ' '));
    EXPECT_THAT(man, HasSubstr(".SS \"portwright " + program::replaced(name, "-", "\\-")));
    EXPECT_THAT(bash, HasSubstr("    \"" + name + "\")"));
    EXPECT_THAT(bash, HasSubstr(' ' + last));
    EXPECT_THAT(zsh, HasSubstr("    \"" + name + "\")"));
    EXPECT_THAT(zsh, HasSubstr("        '" + last + ':'));
    EXPECT_THAT(program::run({"help", "book", last}).out, HasSubstr("portwright " + name));
  }
  EXPECT_THAT(cli::overview(false), HasSubstr("\n  book "));
  EXPECT_EQ(cli::overview(false).find("\n  book add"), std::string::npos);
}

TEST(two_words, bash_offers_the_second_word_and_then_what_it_takes) {
  const program::Folder folder;
  const std::string script =
      folder.file("try.sh", cli::bash_completion() +
                                "COMP_WORDS=(portwright book bri); COMP_CWORD=2; _portwright; echo "
                                "\"${COMPREPLY[@]}\"\n"
                                "COMP_WORDS=(portwright book wood l --ru); COMP_CWORD=4; COMPREPLY=(); "
                                "_portwright; echo \"${COMPREPLY[@]}\"\n"
                                "COMP_WORDS=(portwright book wood l --rp); COMP_CWORD=4; COMPREPLY=(); "
                                "_portwright; echo \"${COMPREPLY[@]}\"\n");
  const std::string out = (folder.path() / "out").string();
  if (std::system("bash -c true") != 0) GTEST_SKIP() << "no bash here";
  ASSERT_EQ(std::system(("bash " + program::quoted(script) + " >" + program::quoted(out)).c_str()), 0);
  EXPECT_EQ(program::read_file(out), "bring-back\n\n--rpm\n");
}

class book_command : public ::testing::Test {
 protected:
  program::Folder folder;
  std::string saw = folder.file("larch.saw.toml", program::larch);
  std::string book = (folder.path() / "b" / "book.portwright").string();
  [[nodiscard]] program::Ran run(const std::vector<std::string>& words) const {
    return program::run(words, "",
                        "PORTWRIGHT_BOOK=" + program::quoted(book) + " PORTWRIGHT_AUTHOR=ann XDG_STATE_HOME=" +
                            program::quoted((folder.path() / "state").string()));
  }
};

TEST_F(book_command, exits_say_what_happened) {
  EXPECT_EQ(run({"book", "list"}).status, 5);
  EXPECT_EQ(run({"book", "add", saw}).status, 0);
  EXPECT_EQ(run({"book", "list"}).status, 0);
  EXPECT_EQ(run({"book", "show", "beech"}).status, 5);
  EXPECT_EQ(run({"book", "set", "larch", "crank.strok", "1 mm"}).status, 5);
  EXPECT_EQ(run({"book", "set", "larch", "crank.stroke"}).status, 2);
  EXPECT_EQ(run({"book", "set", "larch", "crank.stroke", "36 cc"}).status, 4);
  EXPECT_EQ(run({"study", "book:larch"}).status, 4);
  EXPECT_EQ(run({"book", "undo"}).status, 0);
  EXPECT_EQ(run({"study", "book:larch"}).status, 0);
  EXPECT_EQ(run({"book", "undo"}).status, 0);
  EXPECT_EQ(run({"book", "undo"}).status, 5);
  EXPECT_EQ(run({"book", "journal", "--last", "no"}).status, 2);
  EXPECT_EQ(run({"book", "list", "--book", saw}).status, 4);
  EXPECT_EQ(run({"study", "./book:larch"}).status, 5);
}

TEST_F(book_command, every_command_that_takes_a_file_takes_a_saw_of_the_book) {
  ASSERT_EQ(run({"book", "add", saw}).status, 0);
  const std::string out = (folder.path() / "x").string();
  EXPECT_EQ(run({"study", "book:larch-70"}).out, run({"study", saw}).out);
  EXPECT_EQ(run({"check", "book:larch-70"}).out, run({"check", saw}).out);
  EXPECT_EQ(run({"why", "book:larch-70", "blowdown"}).out, run({"why", saw, "blowdown"}).out);
  EXPECT_EQ(run({"edge", "book:larch-70", "exhaust"}).out, run({"edge", saw, "exhaust"}).out);
  EXPECT_EQ(run({"compare", "book:larch-70", "--cuts-b", "base -1 mm"}).out,
            run({"compare", saw, "--cuts-b", "base -1 mm"}).out);
  EXPECT_EQ(run({"compare", "book:larch-70", saw}).status, 0);
  EXPECT_EQ(run({"map", "book:larch-70", "-o", out}).status, 0);
  EXPECT_EQ(run({"template", "book:larch-70", "-o", out + ".pdf"}).status, 0);
  EXPECT_EQ(run({"plan", "book:larch-70", "--wish", "exhaust at 101 deg"}).status, 0);
  EXPECT_EQ(run({"sheet", "book:larch-70", "--wish", "exhaust at 101 deg", "-o", out + ".pdf"}).status, 0);
}

TEST_F(book_command, every_text_fits_80_columns_whatever_a_saw_is_called) {
  const std::string name(180, 'x');
  const std::string odd = folder.file(
      "odd.saw.toml", program::replaced(program::larch, "\"Larch 70\"",
                                        "\"" + name + "\"\nmodel = \"" + name + "\"\ncasting = \"<script>\""));
  const std::string twin =
      folder.file("twin.saw.toml", program::replaced(program::read_file(odd), "103 deg", "101 deg"));
  ASSERT_EQ(run({"book", "add", saw, odd, twin}).status, 0);
  const std::string id = run({"book", "list"}).out;
  for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
           {"book", "list"},
           {"book", "show", "larch"},
           {"book", "where"},
           {"book", "show", "xxx"},
           {"book", "set", "larch", "crank.stroke", std::string(60, '9')},
           {"book", "note", "larch", std::string(400, 'n')},
           {"book", "wood", "larch", "--times", "12 s; quick", "--felt", std::string(200, 'f')},
           {"book", "failure", "larch", "ring", "--where", "port"},
           {"book", "cut", "larch", "gasket out"},
           {"book", "accept", "larch", "wall.least", "--reason", "looked at"},
           {"study", "book:larch"},
           {"book", "set", "larch", "crank.strok", "9"},
           {"book", "find", "nnn"},
           {"book", "find", "nowhere"},
           {"book", "sisters", name},
           {"book", "sisters", name, "--all"},
           {"book", "borrow", "larch", "New", "one"},
           {"book", "show", "new one"},
           {"book", "journal"},
           {"book", "undo"},
           {"book", "redo"},
           {"book", "verify"},
           {"book", "hide", "larch"},
           {"book", "list", "--hidden"},
           {"book", "bring-back", "larch"},
           {"book"}}) {
    const auto ran = run(words);
    EXPECT_FALSE(ran.out.empty() && ran.err.empty()) << words.back();
    for (const std::string& text : {ran.out, ran.err}) {
      std::istringstream lines(text);
      for (std::string line; std::getline(lines, line);) {
        const bool is_path = line.find(folder.path().string()) != std::string::npos;  // a path is never cut
        EXPECT_TRUE(is_path || cli::columns(line) <= 80u) << words.back() << ": " << line;
        EXPECT_TRUE(line.empty() || line.back() != ' ') << words.back() << ": " << line;
      }
    }
  }
}

TEST_F(book_command, two_authors_have_their_own_undo) {
  ASSERT_EQ(run({"book", "add", saw}).status, 0);
  ASSERT_EQ(run({"book", "set", "larch", "crank.stroke", "35 mm"}).status, 0);
  const auto ben = [&](const std::vector<std::string>& words) {
    return program::run(words, "",
                        "PORTWRIGHT_BOOK=" + program::quoted(book) + " PORTWRIGHT_AUTHOR=ben XDG_STATE_HOME=" +
                            program::quoted((folder.path() / "state").string()));
  };
  EXPECT_EQ(ben({"book", "undo"}).status, 5);
  ASSERT_EQ(ben({"book", "set", "larch", "crank.stroke", "34 mm"}).status, 0);
  const auto refused = run({"book", "undo"});
  EXPECT_EQ(refused.status, 6) << refused.out;
  EXPECT_THAT(refused.err, HasSubstr("34 mm"));
  EXPECT_THAT(refused.err, HasSubstr("36.0 mm"));
  EXPECT_EQ(ben({"book", "undo"}).status, 0);
  EXPECT_EQ(run({"book", "undo"}).status, 0);
}

}  // namespace
