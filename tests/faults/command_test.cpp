#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "unit/cli/program.hpp"
#include "wire/json.hpp"

// Bad input at the program's door: which status, what is said, what is left on the disk.
namespace {

using namespace portwright;
using program::Folder;
using program::larch;
using program::replaced;
using program::run;
using program::with_line;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
namespace fs = std::filesystem;

class command : public ::testing::Test {
 protected:
  Folder folder;
  std::string saw = folder.file("larch.saw.toml", larch);
  [[nodiscard]] std::string place(const char* name) const { return (folder.path() / name).string(); }

  // The file is refused as a whole by every command that reads one.
  void expect_refused(const std::string& file, int status, const char* said) const {
    for (const char* name : {"study", "check"}) {
      const auto ran = run({name, file});
      EXPECT_EQ(ran.status, status) << name << ran.err;
      EXPECT_THAT(ran.out, IsEmpty());
      EXPECT_THAT(ran.err, HasSubstr(said));
    }
    const auto map = run({"map", file, "-o", place("map.svg")});
    EXPECT_EQ(map.status, status);
    EXPECT_FALSE(fs::exists(place("map.svg")));
  }

  // One reading is wrong: named first, the rest answered, status 4, and nothing is written.
  void expect_rest_stands(const std::string& text, const char* path) const {
    const std::string file = folder.file("bad.saw.toml", text);
    const auto ran = run({"study", file, "--json"});
    EXPECT_EQ(ran.status, 4) << ran.out.substr(0, 400) << ran.err;
    const auto answer = wire::from_json<wire::StudyAnswer>(ran.out);
    ASSERT_TRUE(answer) << answer.error().message;
    ASSERT_FALSE(answer->head.errors.empty());
    std::string paths;
    for (const base::Error& error : answer->head.errors) paths += error.path + '|' + error.message + '\n';
    EXPECT_THAT(paths, HasSubstr(path));
    EXPECT_GT(answer->figures.size(), 20u);
    const auto text_ran = run({"study", file});
    EXPECT_EQ(text_ran.status, 4);
    EXPECT_THAT(text_ran.out, HasSubstr("Readings that do not fit"));
    for (const std::vector<std::string>& words :
         {std::vector<std::string>{"map", file, "-o", place("x.svg")}, {"template", file, "-o", place("x.pdf")}}) {
      EXPECT_EQ(run(words).status, 4);
      EXPECT_FALSE(fs::exists(words.back()));
    }
  }
};

TEST_F(command, a_sound_saw_is_answered_with_status_0) {
  const auto ran = run({"study", saw});
  EXPECT_EQ(ran.status, 0) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("Larch 70"));
  EXPECT_THAT(ran.err, IsEmpty());
}

TEST_F(command, a_file_that_is_not_there_gives_5) { expect_refused(place("nothing.saw.toml"), 5, "nothing.saw.toml"); }
TEST_F(command, a_folder_in_place_of_a_file_gives_4) { expect_refused(folder.path().string(), 4, ""); }
TEST_F(command, a_file_of_80_kb_gives_4) {
  expect_refused(folder.file("long.saw.toml", larch + std::string(80 * 1024, '#')), 4, "65536");
}
TEST_F(command, a_file_that_is_not_utf8_gives_4) {
  expect_refused(folder.file("latin.saw.toml", replaced(larch, "Larch 70", "L\xE4rche")), 4, "UTF-8");
}
TEST_F(command, a_file_that_is_not_toml_gives_4) { expect_refused(folder.file("x.saw.toml", "name = \"A\n"), 4, ""); }
TEST_F(command, an_unknown_key_gives_4_and_the_nearest_known_one) {
  expect_refused(folder.file("key.saw.toml", replaced(larch, "stroke =", "strok =")), 4, "stroke");
}

TEST_F(command, a_unit_of_another_kind_leaves_the_rest_standing) {
  expect_rest_stands(replaced(larch, "\"36.0 mm\"", "\"36.0 cc\""), "crank.stroke");
}
TEST_F(command, a_bare_number_leaves_the_rest_standing) {
  expect_rest_stands(replaced(larch, "\"36.0 mm\"", "\"36.0\""), "crank.stroke");
}
TEST_F(command, a_negative_height_leaves_the_rest_standing) {
  expect_rest_stands(replaced(larch, "floor = \"25.2 mm\"", "floor = \"-25.2 mm\""), "port.exhaust.floor");
}
TEST_F(command, contradicting_readings_leave_the_rest_standing) {
  expect_rest_stands(with_line(larch, "opens = \"103 deg\"", "roof = \"45 mm\""), "port.exhaust");
}
TEST_F(command, a_port_above_tdc_leaves_the_rest_standing) {
  expect_rest_stands(replaced(larch, "opens = \"103 deg\"", "roof = \"66 mm\""), "port.exhaust");
}
TEST_F(command, overlapping_windows_leave_the_rest_standing) {
  expect_rest_stands(replaced(larch, "centre = \"65 deg\"", "centre = \"20 deg\""), "lie over each other");
}

TEST_F(command, a_saw_with_nothing_but_a_name_is_answered) {
  const auto ran = run({"study", folder.file("bare.saw.toml", "name = \"Bare\"\n")});
  EXPECT_EQ(ran.status, 0) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("Waits for"));
  EXPECT_THAT(ran.out, HasSubstr("crank.bore"));
}

TEST_F(command, wrong_words_give_2_and_leave_standard_output_empty) {
  for (const std::vector<std::string>& words : {std::vector<std::string>{"stduy", saw},
                                                {"study"},
                                                {"study", saw, "--cutz", "x"},
                                                {"study", saw, "--units", "both"},
                                                {"map", saw},
                                                {"compare", saw}}) {
    const auto ran = run(words);
    EXPECT_EQ(ran.status, 2) << words[0] << ran.err;
    EXPECT_THAT(ran.out, IsEmpty());
    EXPECT_FALSE(ran.err.empty());
  }
}

TEST_F(command, a_mistyped_command_option_figure_or_port_is_answered_with_the_nearest) {
  EXPECT_THAT(run({"stduy", saw}).err, HasSubstr("study"));
  EXPECT_THAT(run({"study", saw, "--jsno"}).err, HasSubstr("--json"));
  const auto figure = run({"why", saw, "timing.blowdwon"});
  EXPECT_EQ(figure.status, 5);
  EXPECT_THAT(figure.err, HasSubstr("timing.blowdown"));
  const auto port = run({"edge", saw, "exaust"});
  EXPECT_EQ(port.status, 5);
  EXPECT_THAT(port.err, HasSubstr("Did you mean exhaust?"));
}

TEST_F(command, errors_go_to_standard_output_as_json_when_json_is_asked_for) {
  for (const std::vector<std::string>& words : {std::vector<std::string>{"study", place("none"), "--json"},
                                                {"stduy", "--json"},
                                                {"study", saw, "--json", "--cuts", "sand exhaust"},
                                                {"units", "--json", "47"},
                                                {"edge", saw, "exhaust", "--at", "164 deg", "--json"}}) {
    const auto ran = run(words);
    EXPECT_NE(ran.status, 0);
    EXPECT_THAT(ran.err, IsEmpty());
    const auto answer = wire::from_json<wire::ErrorAnswer>(ran.out);
    ASSERT_TRUE(answer) << ran.out;
    EXPECT_FALSE(answer->errors.empty());
  }
}

TEST_F(command, a_cut_that_is_not_understood_gives_4_without_figures) {
  const auto ran = run({"study", saw, "--cuts", "roof exhaust +0.5"});
  EXPECT_EQ(ran.status, 4);
  EXPECT_THAT(ran.out, IsEmpty());
  EXPECT_NE(run({"study", saw, "--cuts", "roof exaust +0.5 mm"}).status, 0);
}

TEST_F(command, a_limit_asked_about_gives_3_only_when_it_is_passed) {
  EXPECT_EQ(run({"study", saw, "--fail-on", "stop"}).status, 0);
  EXPECT_EQ(run({"study", saw, "--cuts", "base -0.6 mm", "--fail-on", "stop"}).status, 3);
  EXPECT_EQ(run({"study", saw, "--cuts", "base -0.6 mm"}).status, 0);
}

TEST_F(command, a_speed_that_no_saw_has_is_refused) {
  EXPECT_EQ(run({"study", saw, "--rpm", "0"}).status, 4);
  EXPECT_EQ(run({"study", saw, "--rpm", "1e9"}).status, 4);
  EXPECT_EQ(run({"study", saw, "--rpm", "nan"}).status, 4);
  EXPECT_EQ(run({"study", saw, "--rpm", "9500"}).status, 0);
}

TEST_F(command, a_printer_that_is_off_by_20_percent_is_refused_and_nothing_written) {
  const auto ran = run({"template", saw, "-o", place("t.pdf"), "--printer", "120 mm, 100 mm"});
  EXPECT_EQ(ran.status, 4) << ran.err;
  EXPECT_FALSE(fs::exists(place("t.pdf")));
  EXPECT_EQ(run({"template", saw, "-o", place("t.pdf"), "--printer", "99.2 mm, 99.6 mm"}).status, 0);
  EXPECT_TRUE(fs::exists(place("t.pdf")));
}

TEST_F(command, a_folder_that_is_not_there_gives_7_and_a_written_file_stays) {
  EXPECT_EQ(run({"map", saw, "-o", place("no/such/map.svg")}).status, 7);
  const std::string kept = folder.file("map.svg", "kept");
  EXPECT_EQ(run({"map", saw, "-o", kept, "--cuts", "nonsense"}).status, 4);
  EXPECT_EQ(program::read_file(kept), "kept");
}

TEST_F(command, a_folder_without_rights_gives_7_and_leaves_nothing) {
  if (geteuid() == 0) GTEST_SKIP() << "the administrator may write anywhere";
  const fs::path closed = folder.path() / "closed";
  fs::create_directory(closed);
  fs::permissions(closed, fs::perms::owner_read | fs::perms::owner_exec);
  EXPECT_EQ(run({"new", "Alder", "-o", (closed / "alder.saw.toml").string()}).status, 7);
  EXPECT_TRUE(fs::is_empty(closed));
}

TEST_F(command, a_full_disk_gives_7) {
  if (!fs::exists("/dev/full")) GTEST_SKIP() << "this system has no /dev/full";
  const std::string line =
      program::quoted(PORTWRIGHT_PROGRAM) + " study " + program::quoted(saw) + " >/dev/full 2>/dev/null";
  const int status = std::system(line.c_str());
  ASSERT_TRUE(WIFEXITED(status));
  EXPECT_EQ(WEXITSTATUS(status), 7);
}

TEST_F(command, a_saw_file_that_is_there_is_never_written_over) {
  const auto ran = run({"new", "Alder 60", "-o", saw});
  EXPECT_NE(ran.status, 0);
  EXPECT_EQ(program::read_file(saw), larch);
}

TEST_F(command, a_new_saw_reads_back_and_a_name_with_quotes_does_too) {
  for (const char* name : {"Alder 60", "Dad's \"old\" saw", "\u843D\u8449\u677E", "back\\slash"}) {
    const std::string file = place("fresh.saw.toml");
    fs::remove(file);
    ASSERT_EQ(run({"new", name, "-o", file}).status, 0) << name;
    const auto ran = run({"study", file, "--json"});
    EXPECT_EQ(ran.status, 0) << ran.out;
    const auto answer = wire::from_json<wire::StudyAnswer>(ran.out);
    ASSERT_TRUE(answer);
    EXPECT_EQ(answer->head.saw->name, name);
  }
}

TEST_F(command, standard_input_and_output_do_for_files) {
  EXPECT_EQ(run({"study", "-"}, larch).out, run({"study", saw}).out);
  EXPECT_EQ(run({"compare", "-", "--cuts-b", "base -0.5 mm"}, larch).status, 0);
  const auto map = run({"map", saw, "-o", "-"});
  EXPECT_EQ(map.status, 0);
  EXPECT_THAT(map.out, HasSubstr("<svg"));
}

TEST_F(command, colour_is_for_terminals_only) {
  EXPECT_EQ(run({"study", saw}).out.find('\x1b'), std::string::npos);
  EXPECT_EQ(run({"stduy"}).err.find('\x1b'), std::string::npos);
}

}  // namespace
