#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <numbers>

#include "saw/file.hpp"

// What a saw file's text comes to, and what is said of one that is wrong.
namespace {

using namespace portwright;
using portwright::saw::read_saw;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

constexpr double degree = std::numbers::pi / 180.0;

saw::ReadSaw good(const std::string& text) {
  auto read = read_saw("name = \"Alder\"\n" + text);
  EXPECT_TRUE(read.has_value()) << text << "\n" << (read ? "" : read.error()[0].message);
  return read ? *read : saw::ReadSaw{};
}

base::Errors bad(const std::string& text) {
  auto read = read_saw(text);
  EXPECT_FALSE(read.has_value()) << text;
  return read ? base::Errors{base::Error{}} : read.error();
}

base::Errors refused(const std::string& text) { return bad("name = \"Alder\"\n" + text); }

TEST(read_saw, a_name_alone_is_a_saw_and_the_format_is_echoed) {
  const auto read = good("");
  EXPECT_EQ(read.readings.name, "Alder");
  EXPECT_EQ(read.readings.format, "portwright saw 1");
  EXPECT_THAT(read.errors, IsEmpty());
  EXPECT_FALSE(read.readings.crank.bore.taken());
}

TEST(read_saw, without_a_name_it_is_none) {
  EXPECT_EQ(bad("")[0].path, "name");
  EXPECT_EQ(bad("name = \"\"")[0].path, "name");
  EXPECT_EQ(bad("[crank]\nbore = \"50 mm\"")[0].code, base::ErrorCode::not_a_saw_file);
}

TEST(read_saw, another_format_is_not_read) {
  EXPECT_EQ(refused("format = \"portwright saw 2\"")[0].code, base::ErrorCode::unknown_format);
}

TEST(read_saw, takes_a_text_repeats_and_the_long_form) {
  const auto read = good(R"(
[crank]
bore = "50.0 mm"
stroke = ["36.0 mm", "36.1 mm", "35.9 mm"]
rod = { value = ["65 mm", "65.2 mm"], with = "caliper", setup = "bench 1", note = "pins \"in\"" }
pin_offset = { note = "not measured" }
)");
  EXPECT_THAT(read.errors, IsEmpty());
  const auto& crank = read.readings.crank;
  ASSERT_THAT(crank.bore.repeats, SizeIs(1));
  EXPECT_EQ(crank.bore.repeats[0].text, "50.0 mm");
  EXPECT_NEAR(crank.bore.repeats[0].value->si, 0.050, 1e-15);
  ASSERT_THAT(crank.stroke.repeats, SizeIs(3));
  EXPECT_NEAR(crank.stroke.repeats[2].value->si, 0.0359, 1e-15);
  ASSERT_THAT(crank.rod.repeats, SizeIs(2));
  EXPECT_EQ(crank.rod.with, "caliper");
  EXPECT_EQ(crank.rod.setup, "bench 1");
  EXPECT_EQ(crank.rod.note, "pins \"in\"");
  EXPECT_FALSE(crank.pin_offset.taken());
  EXPECT_EQ(crank.pin_offset.note, "not measured");
}

TEST(read_saw, squish_is_a_text_repeats_a_long_form_or_places_in_their_order) {
  const auto squish = [](const std::string& text) {
    return good("[cylinder]\nsquish = " + text).readings.cylinder.squish.places;
  };
  auto plain = squish("\"0.9 mm\"");
  ASSERT_THAT(plain, SizeIs(1));
  EXPECT_EQ(plain[0].first, "");
  auto list = squish("[\"0.9 mm\", \"0.92 mm\"]");
  ASSERT_THAT(list, SizeIs(1));
  EXPECT_THAT(list[0].second.repeats, SizeIs(2));
  auto longer = squish("{ value = \"0.9 mm\", with = \"solder\" }");
  ASSERT_THAT(longer, SizeIs(1));
  EXPECT_EQ(longer[0].second.with, "solder");
  auto places = squish(
      "{ pto = \"0.9 mm\", exhaust = [\"0.8 mm\", \"0.82 mm\"], intake = { value = \"0.95 mm\", note = \"x\" } }");
  ASSERT_THAT(places, SizeIs(3));
  EXPECT_EQ(places[0].first, "pto");
  EXPECT_EQ(places[1].first, "exhaust");
  EXPECT_THAT(places[1].second.repeats, SizeIs(2));
  EXPECT_EQ(places[2].second.note, "x");
}

TEST(read_saw, ports_rings_and_tables_inside_them_land_in_their_places) {
  const auto read = good(R"(
[[piston.ring]]
peg = "150 deg"
[[piston.ring]]
peg = "-150 deg"
[[port]]
name = "primary"
kind = "transfer"
mirrored = true
opens = "121 deg"
twin = { opens = "122 deg" }
[port.passage]
foot = "2.0 cm2"
lower = { roof = "5 mm", open = true }
[[port]]
name = "exhaust"
kind = "exhaust"
outline = [["-12.0 mm", "0 mm"], ["12 mm", "0 mm"]]
)");
  EXPECT_THAT(read.errors, IsEmpty());
  ASSERT_THAT(read.readings.ports, SizeIs(2));
  const auto& primary = read.readings.ports[0];
  EXPECT_NEAR(primary.edges.opens.repeats[0].value->si, 121 * degree, 1e-12);
  EXPECT_NEAR(primary.twin.opens.repeats[0].value->si, 122 * degree, 1e-12);
  EXPECT_EQ(primary.mirrored, true);
  EXPECT_EQ(primary.passage.lower.open, true);
  EXPECT_THAT(read.readings.ports[1].outline.rows, SizeIs(2));
  ASSERT_THAT(read.readings.piston.ring, SizeIs(2));
  EXPECT_NEAR(read.readings.piston.ring[1].peg.repeats[0].value->si, -150 * degree, 1e-12);
}

TEST(read_saw, words_numbers_flags_octane_and_power_are_read) {
  const auto read = good(R"(
[case]
volume_at = "bdc"
[intake]
kind = "Skirt"
reed = { petals = 4 }
[fuel]
octane = "91 pump"
air_fuel = 12.8
[muffler]
boxes = ["350 cc", "100 cc"]
outlets = "1.4 cm2"
screen = true
[readings]
stock_power = "3.6 kW at 9000 rpm"
)");
  EXPECT_THAT(read.errors, IsEmpty());
  const auto& r = read.readings;
  EXPECT_NEAR(r.crankcase.volume_at.repeats[0].value->si, std::numbers::pi, 1e-12);
  EXPECT_EQ(r.intake.kind, "skirt");
  EXPECT_EQ(r.intake.reed.petals, 4.0);
  EXPECT_EQ(r.fuel.octane.number, 91.0);
  EXPECT_EQ(r.fuel.octane.method, "pump");
  EXPECT_EQ(r.fuel.air_fuel, 12.8);
  EXPECT_THAT(r.muffler.boxes.items, SizeIs(2));
  EXPECT_THAT(r.muffler.outlets.items, SizeIs(1));
  EXPECT_NEAR(r.evidence.stock_power.power->si, 3600, 1e-9);
  EXPECT_NEAR(r.evidence.stock_power.speed->si, 150, 1e-9);
}

TEST(read_saw, a_bare_number_is_kept_and_refused_with_what_it_could_mean) {
  const auto read = good("[crank]\nstroke = 36\nbore = 50.5\nrod = \"65.0 mm\"");
  ASSERT_THAT(read.errors, SizeIs(2));
  EXPECT_EQ(read.errors[0].path, "crank.bore");
  EXPECT_EQ(read.errors[1].path, "crank.stroke");
  EXPECT_EQ(read.errors[1].code, base::ErrorCode::unreadable);
  EXPECT_THAT(read.errors[1].readings, Contains("36 mm"));
  EXPECT_THAT(read.errors[1].readings, Contains("36 in"));
  EXPECT_EQ(read.readings.crank.stroke.repeats[0].text, "36");
  EXPECT_FALSE(read.readings.crank.stroke.repeats[0].value.has_value());
  EXPECT_TRUE(read.readings.crank.rod.readable());
}

TEST(read_saw, one_unreadable_reading_leaves_the_rest_and_names_its_port) {
  const auto read = good(R"(
[[port]]
name = "exhaust"
kind = "exhaust"
opens = "1o3 deg"
floor = "25.2 mm"
width = "28 psi"
[[piston.ring]]
peg = true
[[cooling.fins]]
length = ["18 mm", ["2 mm"]]
)");
  std::vector<std::string> paths;
  for (const auto& error : read.errors) paths.push_back(error.path);
  EXPECT_THAT(paths,
              ElementsAre("piston.ring.1.peg", "port.exhaust.opens", "port.exhaust.width", "cooling.fins.1.length"));
  EXPECT_EQ(read.errors[2].code, base::ErrorCode::wrong_unit);
  EXPECT_EQ(read.readings.ports[0].edges.opens.repeats[0].text, "1o3 deg");
  EXPECT_TRUE(read.readings.ports[0].edges.floor.readable());
  EXPECT_EQ(read.readings.piston.ring[0].peg.repeats[0].text, "true");
  EXPECT_EQ(read.readings.cooling.fins[0].length.repeats[1].text, "[\"2 mm\"]");
}

TEST(read_saw, wrong_words_flags_numbers_pairs_octane_and_power_are_single_errors) {
  const auto read = good(R"(
[aim]
use = "wrok"
[cylinder]
plated = "yes"
[fuel]
octane = "91"
air_fuel = nan
[drive]
teeth = "seven"
[ignition]
curve = [["800 rpm", "8 deg"], "9000 rpm", ["800 rpm"]]
[readings]
stock_power = "3.6 kW"
)");
  std::vector<std::string> paths;
  for (const auto& error : read.errors) paths.push_back(error.path);
  EXPECT_THAT(paths,
              testing::UnorderedElementsAre("aim.use", "cylinder.plated", "fuel.octane", "fuel.air_fuel", "drive.teeth",
                                            "ignition.curve", "ignition.curve", "readings.stock_power"));
  EXPECT_EQ(read.errors[0].hint, "did you mean work?");
  EXPECT_EQ(read.readings.aim.use, "wrok");
  EXPECT_EQ(read.readings.fuel.octane.text, "91");
  EXPECT_FALSE(read.readings.fuel.octane.number.has_value());
  EXPECT_THAT(read.readings.ignition.curve.rows, SizeIs(3));
  EXPECT_FALSE(read.readings.drive.teeth.has_value());
  EXPECT_EQ(read.readings.drive.teeth.text, "seven");
  EXPECT_EQ(read.readings.fuel.air_fuel.text, "nan");
  EXPECT_FALSE(read.readings.cylinder.plated.has_value());
  EXPECT_EQ(read.readings.cylinder.plated.text, "yes");
  for (const auto& error : read.errors) {
    if (error.path != "fuel.octane") continue;
    EXPECT_THAT(error.readings, ElementsAre("91 pump", "91 research", "91 motor"));
  }
}

TEST(read_saw, an_unknown_key_is_refused_with_the_nearest_known_one) {
  const auto errors = refused("[[port]]\nname = \"exhaust\"\nkind = \"exhaust\"\nopnes = \"103 deg\"");
  ASSERT_THAT(errors, SizeIs(1));
  EXPECT_EQ(errors[0].code, base::ErrorCode::unknown_key);
  EXPECT_EQ(errors[0].path, "port.exhaust.opnes");
  EXPECT_EQ(errors[0].hint, "did you mean opens?");
  EXPECT_THAT(errors[0].readings, ElementsAre("port.exhaust.opens"));
  EXPECT_THAT(refused("squish_band = \"6 mm\"")[0].hint, HasSubstr("belongs to cylinder"));
  EXPECT_EQ(refused("[crank]\nbore = { vlaue = \"50 mm\" }")[0].path, "crank.bore.vlaue");
  EXPECT_EQ(refused("colour = \"orange\"")[0].hint, "");
}

TEST(read_saw, says_all_that_is_wrong_at_once) {
  const auto errors = refused(R"(
format = "portwright saw 9"
colour = "orange"
crank = "36 mm"
[[port]]
kind = "exhaust"
[[port]]
name = "Exhaust"
kind = "exhaust"
[[port]]
name = "a"
kind = "exhuast"
opnes = "3 deg"
[[port]]
name = "a"
kind = "exhaust"
[piston]
ring = "3 mm"
)");
  std::vector<std::string> paths;
  for (const auto& error : errors) paths.push_back(error.path);
  EXPECT_THAT(paths, testing::UnorderedElementsAre("format", "colour", "crank", "port", "port", "port.a.kind",
                                                   "port.a.opnes", "port.a.name", "piston.ring"));
}

TEST(read_saw, a_port_written_as_one_table_is_told_how_to_write_it) {
  const auto errors = refused("[port]\nname = \"exhaust\"\nkind = \"exhaust\"");
  EXPECT_EQ(errors[0].path, "port");
  EXPECT_THAT(errors[0].hint, HasSubstr("[[port]]"));
}

TEST(read_saw, an_empty_text_is_a_line_not_yet_filled) {
  const auto read =
      good("model = \"\"\n[crank]\nbore = \"\"\n[cylinder]\nsquish = \"\"\nplated = \"\"\n[intake]\nkind = \"\"");
  EXPECT_THAT(read.errors, IsEmpty());
  EXPECT_FALSE(read.readings.crank.bore.taken());
  EXPECT_FALSE(read.readings.cylinder.squish.taken());
}

TEST(read_saw, not_toml_is_refused_with_its_line) {
  const auto errors = refused("[crank]\nbore = 50 mm");
  EXPECT_EQ(errors[0].code, base::ErrorCode::not_a_saw_file);
  EXPECT_THAT(errors[0].message, HasSubstr("line 3"));
}

TEST(read_saw, a_mark_of_byte_order_and_windows_lines_are_taken) {
  const auto read = read_saw("\xEF\xBB\xBFname = \"Alder\"\r\n[crank]\r\nstroke = 36\r\n");
  ASSERT_TRUE(read.has_value());
  EXPECT_EQ(read->readings.crank.stroke.repeats[0].text, "36");
}

}  // namespace
