#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>
#include <sstream>

#include "saw/ascii_form.hpp"
#include "saw/fields.hpp"
#include "saw/file.hpp"
#include "saw/toml_text.hpp"
#include "saw/walk.hpp"

// What is written reads back, and the blank file holds every field.
namespace {

using namespace portwright;
using testing::HasSubstr;
using testing::IsEmpty;

saw::Readings again(const saw::Readings& readings) {
  auto read = saw::read_saw(saw::write_saw(readings));
  EXPECT_TRUE(read.has_value()) << saw::write_saw(readings);
  return read ? read->readings : saw::Readings{};
}

saw::Readings named(const std::string& text) {
  auto read = saw::read_saw("name = \"Alder\"\n" + text);
  EXPECT_TRUE(read.has_value());
  return read ? read->readings : saw::Readings{};
}

TEST(write_saw, a_name_alone_is_two_lines) {
  EXPECT_EQ(saw::write_saw(named("")), "format = \"portwright saw 1\"\nname = \"Alder\"\n");
}

TEST(write_saw, odd_characters_come_back) {
  auto readings = named("");
  readings.name = "Al\"der\\ \n\t\r\x01\x7F \xC3\xA9 \xE2\x88\x92 \xF0\x9F\x8C\xB2 '''";
  readings.crank.bore.repeats = {{"50\" \n [x]\n", std::nullopt}};
  readings.crank.bore.note = "# not a comment";
  readings.cylinder.squish.places = {{"front left", {{{"0.9 mm", std::nullopt}}, "", "", ""}},
                                     {"", {{{"0.8 mm", std::nullopt}}, "", "", ""}}};
  EXPECT_EQ(again(readings), readings);
}

TEST(write_saw, bytes_that_are_no_text_do_not_spoil_the_file) {
  auto readings = named("");
  readings.name = "Alder \xFF\xC3";
  EXPECT_EQ(again(readings).name, "Alder \xEF\xBF\xBD\xEF\xBF\xBD");
}

TEST(write_saw, unreadable_readings_are_written_as_typed) {
  const auto readings = named("[crank]\nstroke = 36\nbore = \"fifty\"\n[case]\nvolume_at = \"TDC\"\n");
  const std::string text = saw::write_saw(readings);
  EXPECT_THAT(text, HasSubstr("stroke = \"36\""));
  EXPECT_THAT(text, HasSubstr("bore = \"fifty\""));
  EXPECT_EQ(again(readings), readings);
}

TEST(write_saw, an_empty_ring_keeps_its_place) {
  auto readings = named("");
  readings.piston.ring.resize(3);
  readings.piston.ring[2].peg.repeats = {{"10 deg", std::nullopt}};
  EXPECT_EQ(again(readings), readings);
}

TEST(write_saw, lines_below_an_inner_table_stay_in_their_own) {
  const auto readings = named(R"(
[intake.reed]
material = "a very long material name that does not fit upon a single line with all of its neighbours, glass epoxy"
window = { length = "24 mm", width = "17 mm" }
stop = "8 mm"
)");
  EXPECT_EQ(readings.intake.reed.stop.repeats.size(), 1u);
  EXPECT_EQ(again(readings), readings);
}

// "# bore = .." and "# [crank]" with their # taken off.
std::string filled(const std::string& blank) {
  std::istringstream lines(blank);
  std::string out;
  for (std::string line; std::getline(lines, line);) {
    const bool field =
        line.starts_with("# ") &&
        (line[2] == '[' || (line.find(" = ") != std::string::npos && line.find(' ', 2) == line.find(" = ")));
    out += (field ? line.substr(2) : line) + "\n";
  }
  return out;
}

TEST(blank_saw, reads_as_a_saw_with_nothing_but_its_name) {
  auto read = saw::read_saw(saw::blank_saw("Old \"Larch\""));
  ASSERT_TRUE(read.has_value());
  saw::Readings expected;
  expected.format = "portwright saw 1";
  expected.name = "Old \"Larch\"";
  EXPECT_EQ(read->readings, expected);
}

TEST(blank_saw, holds_every_field_and_its_examples_can_be_read) {
  auto read = saw::read_saw(filled(saw::blank_saw("Alder")));
  ASSERT_TRUE(read.has_value()) << read.error()[0].message << " " << read.error()[0].path;
  for (const base::Error& error : read->errors) ADD_FAILURE() << error.path << ": " << error.message;
  std::set<std::string> missing;
  saw::for_each_field(read->readings, [&](const saw::FieldAt& field) {
    if (!field.taken) missing.insert(field.path);
  });
  // Readings that stand only on the second of the two example ports.
  for (auto at = missing.begin(); at != missing.end();) {
    const bool other_port = at->starts_with("port.") &&
                            !missing.contains((at->starts_with("port.exhaust.") ? std::string("port.primary.")
                                                                                : std::string("port.exhaust.")) +
                                              at->substr(at->find('.', 5) + 1));
    at = other_port ? missing.erase(at) : std::next(at);
  }
  EXPECT_THAT(missing, IsEmpty());
}

TEST(ascii_form, comes_back_as_it_was_whatever_marks_and_escapes_are_in_it) {
  for (const char* text :
       {"", "plain", "~ ~7E ~~C3", "\xC3\xA9 \xF0\x9F\x8C\xB2~", "\\u007E41", "\\U0000007e ^ `", "~"}) {
    const auto form = saw::to_ascii(text);
    ASSERT_TRUE(form.has_value()) << text;
    for (const char c : form->text) EXPECT_LT(static_cast<unsigned char>(c), 0x80);
    EXPECT_EQ(saw::from_ascii(form->text, form->mark), text);
  }
  EXPECT_FALSE(saw::to_ascii("007e 005E 0060 007C 0024 0040 0021 003f").has_value());
}

TEST(ascii_form, does_not_show_in_what_is_read) {
  auto read = saw::read_saw(
      "name = \"~C3~A9 \\u007E41 \xC3\xA9 \\u00e9\"\nmodel = '\\u007E ^5E'\n[crank]\nbore = [[\"\xC3\xA9~\"]]\n");
  ASSERT_TRUE(read.has_value());
  EXPECT_EQ(read->readings.name, "~C3~A9 ~41 \xC3\xA9 \xC3\xA9");
  EXPECT_EQ(read->readings.model, "\\u007E ^5E");
  EXPECT_EQ(read->readings.crank.bore.repeats[0].text, "[\"\xC3\xA9~\"]");
}

TEST(toml_key, is_bare_where_it_can_be) {
  EXPECT_EQ(saw::toml_key("front_left-2"), "front_left-2");
  EXPECT_EQ(saw::toml_key("front left"), "\"front left\"");
  EXPECT_EQ(saw::toml_key(""), "\"\"");
}

}  // namespace
