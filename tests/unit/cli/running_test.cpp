#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <csignal>
#include <sstream>

#include "cli/page.hpp"
#include "cli/progress.hpp"
#include "cli/texts.hpp"
#include "unit/cli/program.hpp"

namespace {

using namespace portwright;
using ::testing::HasSubstr;
using ::testing::Not;

study::Figure figure(const char* id, const char* label, const char* unit, double value, const char* text) {
  study::Figure out;
  out.id = id, out.label = label, out.unit = unit, out.value = value, out.text = text;
  return out;
}

wire::RunAnswer answer() {
  wire::RunAnswer out;
  out.head.saw.emplace();
  out.head.saw->name = "Larch 70";
  out.rated_rpm = 9000;
  out.rated_from = "greatest power of the mean stock curve";
  out.promise = "Without this saw's own stock power, power is an order of size.";
  for (const double rpm : {8000.0, 9000.0, 10000.0}) {
    wire::RunPoint point;
    point.rpm = rpm;
    point.settled = rpm < 9500 ? "stable" : "alternating";
    point.figures = {figure("run.power", "Power", "kW", rpm / 4000, "about 1.5 to 3.0 kW"),
                     figure("run.torque", "Torque", "N m", 2.5, "about 1.8 to 3.3 N m"),
                     figure("run.charging", "Charging", "-", 0.47, "0.47")};
    out.points.push_back(point);
  }
  return out;
}

wire::RunAnswer cut_answer() {
  wire::RunAnswer out = answer();
  out.head.cuts = {"roof exhaust +0.5 mm"};
  out.changes = {
      {"run.power", "Power", "kW", 5850, 2, 1.5, 2.6, -0.02, -0.1, 0.06, false, "not told apart", "−0.10 to +0.06"},
      {"run.power", "Power", "kW", 9000, 3, 2.1, 3.9, 0.12, 0.05, 0.19, true, "+0.12 kW (+4 %)", "+0.05 to +0.19"}};
  for (wire::RunPoint& point : out.points)
    for (study::Figure& one : point.figures) one.change = study::Change{0.1, 0.05, 0.15, point.rpm > 8500};
  return out;
}

std::size_t place(const std::string& text, const std::string& part) {
  const std::size_t at = text.find(part);
  EXPECT_NE(at, std::string::npos) << part;
  return at;
}

void expect_narrow(const std::string& text) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) EXPECT_LE(cli::columns(line), cli::page_width) << line;
}

TEST(run_text, differences_come_before_sizes_when_there_are_cuts) {
  const std::string text = cli::run_text(cut_answer(), {});
  EXPECT_LT(place(text, "Differences from stock"), place(text, "Over speed"));
  EXPECT_THAT(text, HasSubstr("+0.12 kW (+4 %)"));
  EXPECT_THAT(text, HasSubstr("not told apart"));
  EXPECT_THAT(text, HasSubstr("−0.10 to +0.06"));
  EXPECT_THAT(cli::run_text(answer(), {}), Not(HasSubstr("Differences")));
  expect_narrow(text);
}

TEST(run_text, power_without_an_anchor_is_a_range_everywhere) {
  const std::string text = cli::run_text(answer(), {});
  EXPECT_THAT(text, HasSubstr("power is an order of size"));
  EXPECT_THAT(text, HasSubstr("1.5 to 3.0"));
  EXPECT_THAT(text, Not(HasSubstr("2.25")));  // its middle at 9,000 rpm
  expect_narrow(text);
}

TEST(run_text, a_speed_that_does_not_settle_has_a_mark_and_its_word) {
  const std::string text = cli::run_text(answer(), {});
  EXPECT_THAT(text, HasSubstr("\u25C7 10\u202F000"));
  EXPECT_THAT(text, HasSubstr("alternating: 10\u202F000 rpm"));
}

TEST(run_text, a_stopped_run_says_so_and_shows_what_was_ready) {
  wire::RunAnswer stopped = answer();
  stopped.stopped = true;
  EXPECT_THAT(cli::run_text(stopped, {}), HasSubstr("Stopped: here is what was ready."));
  EXPECT_THAT(cli::run_text(stopped, {}), HasSubstr("9\u202F000"));
  stopped.points.clear();
  EXPECT_THAT(cli::run_text(stopped, {}), Not(HasSubstr("Over speed")));
}

TEST(run_text, readings_that_something_stands_in_for_are_named_and_the_rest_is_counted) {
  wire::RunAnswer with = answer();
  with.head.assumed = {{"altitude (for day.altitude)", 0, 0, 0, "m", "memory"},
                       {"friction_pressure", 0.3, 0.2, 0.4, "bar", "memory"},
                       {"bend_share", 0.3, 0.2, 0.4, "-", "memory"}};
  const std::string text = cli::run_text(with, {});
  EXPECT_THAT(text, HasSubstr("day.altitude."));
  EXPECT_THAT(text, HasSubstr("2 values"));
}

TEST(airflow_text, ways_stand_in_the_order_of_the_charge_and_the_jet_last) {
  wire::AirflowAnswer air;
  air.head.saw.emplace();
  air.rpm = 9000, air.rpm_from = "asked", air.settled = "stable";
  air.ways = {{"exhaust", "exhaust", 1, 55, 2, 1, {}, ""},
              {"primary", "transfer", 2, 24, 1, 0.55, {{"window", 90, 0.8}, {"bend", 12, 0.2}}, ""},
              {"tract", "tract", 1, 44, 0, 1, {}, ""}};
  const std::string text = cli::airflow_text(air, {});
  EXPECT_LT(place(text, "tract"), place(text, "primary, 2 windows"));
  EXPECT_LT(place(text, "primary, 2 windows"), place(text, "exhaust"));
  EXPECT_THAT(text, HasSubstr("bend 12 mbar; jet at the window 90 mbar"));
  expect_narrow(text);
}

TEST(progress, the_line_is_narrow_whole_and_says_how_long) {
  EXPECT_THAT(cli::progress_line(0.5, "stock curve", 10.0), HasSubstr(" 50 %  about 10 s left"));
  EXPECT_THAT(cli::progress_line(0.1, "stock curve", 60.0), HasSubstr("about 9 min left"));
  EXPECT_THAT(cli::progress_line(0.001, "curve", 0.2), Not(HasSubstr("left")));
  for (const double share : {-1.0, 0.0, 0.3, 1.0, 7.0, std::nan("")})
    EXPECT_LE(cli::columns(cli::progress_line(share, "a stage with a name that is far too long", 1e5)), 79u);
}

TEST(progress, a_signal_asks_for_a_stop_while_it_is_listened_to) {
  cli::Progress silent(false);
  {
    const cli::StopSignals signals;
    EXPECT_FALSE(silent(0.5, "curve"));
    std::raise(SIGINT);
    EXPECT_TRUE(silent(0.5, "curve"));
  }
  const cli::StopSignals again;
  EXPECT_FALSE(silent(0.6, "curve"));
}

const std::string alder = PORTWRIGHT_SOURCE_DIR "/data/samples/alder-60.saw.toml";

TEST(run_command, speeds_that_make_no_sense_are_refused_in_words) {
  struct {
    const char* speeds;
    int status;
  } const all[] = {{"0", 4}, {"60000", 4}, {"abc", 2}, {"9000:8000:100", 2}};
  for (const auto& [speeds, status] : all) {
    const auto ran = program::run({"run", alder, "--no-bands", "--rpm", speeds});
    EXPECT_EQ(ran.status, status) << speeds;
    EXPECT_EQ(ran.out, "") << speeds;
    EXPECT_THAT(ran.err, HasSubstr("rpm")) << speeds;
  }
}

TEST(run_command, one_speed_gives_a_curve_in_json_and_nothing_on_standard_error) {
  const auto ran = program::run({"run", alder, "--no-bands", "--rpm", "9000", "--json"});
  EXPECT_EQ(ran.status, 0);
  EXPECT_EQ(ran.err, "");
  EXPECT_THAT(ran.out, HasSubstr("\"run.power\""));
}

TEST(run_command, a_picture_on_standard_output_has_it_for_itself) {
  const auto ran = program::run({"airflow", alder, "--plot", "-"});
  EXPECT_EQ(ran.status, 0);
  EXPECT_TRUE(ran.out.starts_with("<svg") || ran.out.starts_with("<?xml"));
  EXPECT_THAT(ran.out, ::testing::EndsWith("</svg>\n"));
  EXPECT_EQ(program::run({"airflow", alder, "--plot", "-", "--json"}).status, 2);
}

TEST(run_command, a_stop_keeps_what_is_ready_and_exits_with_8) {
  const program::Folder folder;
  const std::string out = program::quoted((folder.path() / "out").string());
  const std::string line = program::quoted(PORTWRIGHT_PROGRAM) + " run " + program::quoted(alder) + " >" + out +
                           " 2>&1 & p=$!; sleep 1; kill -TERM $p; wait $p";
  const int status = std::system(line.c_str());
  EXPECT_EQ(WIFEXITED(status) ? WEXITSTATUS(status) : -1, 8);
  EXPECT_THAT(program::read_file(folder.path() / "out"), HasSubstr("Stopped: here is what was ready."));
}

}  // namespace
