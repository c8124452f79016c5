#include "cli/words.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cli/manual.hpp"

namespace {

using namespace portwright;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

TEST(words, arguments_and_options_come_in_any_order) {
  const auto words = cli::parse_words({"study", "--json", "--cuts", "base -0.5 mm", "larch.saw.toml", "--rpm=9500"});
  ASSERT_TRUE(words) << words.error().message;
  EXPECT_THAT(words->arguments, ElementsAre("larch.saw.toml"));
  EXPECT_EQ(words->value("--cuts"), "base -0.5 mm");
  EXPECT_EQ(words->value("--rpm"), "9500");
  EXPECT_TRUE(words->has("--json"));
  EXPECT_FALSE(words->has("--all"));
}

TEST(words, values_may_begin_with_a_minus_and_a_dash_is_a_file) {
  EXPECT_EQ(cli::parse_words({"units", "-0.5 mm"})->argument(0), "-0.5 mm");
  EXPECT_EQ(cli::parse_words({"units", "-0.5", "mm"})->argument(0), "-0.5 mm");
  EXPECT_EQ(cli::parse_words({"study", "-"})->argument(0), "-");
  EXPECT_EQ(cli::parse_words({"edge", "f", "exhaust", "--at", "-5 deg"})->value("--at"), "-5 deg");
}

struct Misuse {
  std::vector<std::string> words;
  const char* said;
  const char* hint;
};

TEST(words, a_misuse_is_named_with_what_was_meant) {
  const Misuse all[] = {
      {{"stduy", "f"}, "stduy", "Did you mean study?"},
      {{"study", "f", "--cutz", "x"}, "--cutz", "Did you mean --cuts?"},
      {{"study", "f", "--jsno"}, "--jsno", "Did you mean --json?"},
      {{"study", "f", "--units", "metrik"}, "metrik", "Did you mean metric?"},
      {{"study", "f", "--cuts"}, "--cuts needs a value", "--help"},
      {{"study", "f", "--cuts", "a", "--cuts", "b"}, "--cuts stands twice", "--help"},
      {{"study"}, "needs FILE", "--help"},
      {{"study", "a", "b"}, "one word too many", "--help"},
      {{"completion", "fsh"}, "fsh", "Did you mean"},
      {{"xyzzy"}, "xyzzy", "--help"},
      {{""}, "", "--help"},
  };
  for (const Misuse& misuse : all) {
    const auto words = cli::parse_words(misuse.words);
    ASSERT_FALSE(words) << misuse.said;
    EXPECT_EQ(words.error().code, base::ErrorCode::usage);
    EXPECT_THAT(words.error().message, HasSubstr(misuse.said));
    EXPECT_THAT(words.error().hint, HasSubstr(misuse.hint));
  }
}

TEST(words, every_command_has_examples_that_its_own_parser_takes) {
  for (const cli::Command& command : cli::commands()) {
    EXPECT_FALSE(command.examples.empty()) << command.name;
    EXPECT_FALSE(command.summary.empty()) << command.name;
    for (const cli::Option& option : command.options) EXPECT_EQ(option.name.substr(0, 2), "--") << option.name;
  }
}

TEST(manual, help_man_and_completions_name_every_command_and_option) {
  const std::string man = cli::man_page(), bash = cli::bash_completion(), zsh = cli::zsh_completion(),
                    overview = cli::overview(false);
  for (const cli::Command& command : cli::commands()) {
    const std::string name(command.name);
    if (command.hidden) {
      EXPECT_EQ(overview.find("\n  " + name + ' '), std::string::npos);
      continue;
    }
    if (cli::stands_first(command)) {
      EXPECT_THAT(overview, HasSubstr("\n  " + name));
    }
    for (const std::string& text : {bash, zsh}) EXPECT_THAT(text, HasSubstr(name));
    const std::string help = cli::command_help(command, false);
    for (const cli::Option& option : command.options) {
      EXPECT_THAT(help, HasSubstr(std::string(option.name)));
      for (const std::string& text : {bash, zsh}) EXPECT_THAT(text, HasSubstr(std::string(option.name)));
    }
  }
  for (const cli::ExitStatus& status : cli::exit_statuses())
    EXPECT_THAT(man, HasSubstr("\n.B " + std::to_string(status.status) + "\n"));
}

TEST(manual, examples_come_first_in_help) {
  for (const cli::Command& command : cli::commands()) {
    const std::string help = cli::command_help(command, false);
    EXPECT_LT(help.find(command.examples.front().line), help.find("Usage")) << command.name;
  }
}

}  // namespace
