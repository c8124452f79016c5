// Runs of real samples, few speeds at a time.
#include "desk/run.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "desk/turning.hpp"
#include "turning_samples.hpp"

namespace {

using namespace portwright;
using namespace turning_samples;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::IsSupersetOf;
using testing::Not;
using testing::SizeIs;
using testing::StartsWith;

desk::RunRequest plain(const std::string& file, const std::string& speeds) {
  desk::RunRequest request;
  request.file = file;
  request.speeds = speeds;
  request.bands = false;
  return request;
}

base::Error fault_of(const std::string& speeds) {
  const auto taken = desk::speeds_of(speeds);
  return taken ? base::Error{base::ErrorCode::fault, "taken", "", "", {}} : taken.error();
}

const study::Figure& figure(const wire::RunPoint& point, const std::string& id) {
  for (const study::Figure& one : point.figures)
    if (one.id == id) return one;
  throw std::runtime_error("no " + id);
}

std::set<std::string> paths(const base::Errors& errors) {
  std::set<std::string> out;
  for (const base::Error& error : errors) out.insert(error.path);
  return out;
}

TEST(speeds, are_one_or_from_to_and_step) {
  EXPECT_EQ(desk::speeds_of("9000").value(), std::vector<double>{9000.0});
  EXPECT_EQ(desk::speeds_of(" 9000 rpm ").value(), std::vector<double>{9000.0});
  EXPECT_EQ(desk::speeds_of("5000:6000:500").value(), (std::vector<double>{5000.0, 5500.0, 6000.0}));
  const auto usual = desk::speeds_of("").value();
  EXPECT_EQ(usual.front(), 4500.0);
  EXPECT_EQ(usual.back(), 12000.0);
  EXPECT_THAT(usual, SizeIs(16));
}

TEST(speeds, outside_what_an_engine_turns_are_a_sentence) {
  for (const char* text : {"0", "60000", "-9000", "999", "20001", "500:9000:500", "9000:60000:1000"}) {
    const base::Error fault = fault_of(text);
    EXPECT_EQ(fault.code, base::ErrorCode::out_of_range) << text;
    EXPECT_EQ(base::exit_status(fault.code), 4) << text;
    EXPECT_THAT(fault.message, HasSubstr("rpm")) << text;
  }
}

TEST(speeds, that_are_not_understood_are_wrong_usage) {
  for (const char* text : {"fast", "9,000", "5000:9000", "9000:5000:500", "5000:9000:0", "5000:9000:-500",
                           "5000:12000:10", "1e4", "nan", "5000:9000:500:1", ":", "5000::500"}) {
    const base::Error fault = fault_of(text);
    EXPECT_EQ(fault.code, base::ErrorCode::usage) << text;
    EXPECT_THAT(fault.hint, Not(IsEmpty())) << text;
  }
}

/// The skirt-timed sample at one speed, turned once for all that look at it.
const base::ResultAll<wire::RunAnswer>& alder_at_9000() {
  static const auto answer = desk::run(plain(sample("alder-60"), "9000"));
  return answer;
}

TEST(run, a_stock_sample_gives_its_figures_and_no_stop) {
  const auto& answer = alder_at_9000();
  ASSERT_TRUE(answer);
  ASSERT_THAT(answer->points, SizeIs(1));
  EXPECT_EQ(answer->points[0].rpm, 9000.0);
  EXPECT_EQ(answer->points[0].settled, "stable");
  const study::Figure& power = figure(answer->points[0], "run.power");
  EXPECT_GT(*power.value, 1.0);
  EXPECT_LT(*power.value, 5.0);
  EXPECT_THAT(power.text, StartsWith("about "));
  EXPECT_THAT(answer->promise, HasSubstr("order of size"));
  EXPECT_FALSE(answer->anchored);
  for (const study::Finding& finding : answer->findings) EXPECT_LT(finding.state, study::State::stop) << finding.text;
  EXPECT_THAT(answer->cautions, Not(IsEmpty()));
  EXPECT_FALSE(answer->stopped);
}

TEST(run, lists_what_was_assumed_and_in_whose_place) {
  const auto& answer = alder_at_9000();
  ASSERT_TRUE(answer);
  std::set<std::string> names;
  for (const study::Assumed& one : answer->head.assumed) {
    EXPECT_TRUE(names.insert(one.name).second) << one.name;
    EXPECT_LE(one.low, one.value) << one.name;
    EXPECT_LE(one.value, one.high) << one.name;
    EXPECT_FALSE(one.source.empty()) << one.name;
  }
  EXPECT_THAT(names, IsSupersetOf({"exit_bias", "woschni_factor", "humidity (for day.humidity)"}));
  EXPECT_EQ(names.count("reed_loss_ratio"), 0u) << "a skirt engine has no petals";
  EXPECT_EQ(names.count("case_share"), 0u) << "its case was read";
}

TEST(run, a_cut_stands_beside_stock_at_the_same_speed) {
  desk::RunRequest request = plain(sample("alder-60"), "9000");
  request.cuts = "outlets to 2.5 cm2";
  const auto cut = desk::run(request);
  const auto& stock = alder_at_9000();
  ASSERT_TRUE(cut);
  ASSERT_TRUE(stock);
  const study::Figure& power = figure(cut->points[0], "run.power");
  ASSERT_TRUE(power.stock);
  ASSERT_TRUE(power.change);
  EXPECT_NEAR(power.stock->value, *figure(stock->points[0], "run.power").value, 1e-12);
  EXPECT_NEAR(power.change->value, *power.value - power.stock->value, 1e-12);
  EXPECT_FALSE(power.change->low) << "no range was run";
  EXPECT_THAT(cut->promise, HasSubstr("mixture"));
  EXPECT_THAT(cut->changes, IsEmpty());
}

TEST(run, differences_have_ranges_at_three_speeds_of_rated) {
  const Folder folder;
  desk::RunRequest request = plain(folder.file("a.saw.toml", anchored_text()), "9000");
  request.cuts = "outlets to 2.5 cm2";
  request.bands = true;
  request.members = 2;
  const auto answer = desk::run(request);
  ASSERT_TRUE(answer);
  EXPECT_NEAR(answer->rated_rpm, 9000.0, 1e-6);
  EXPECT_EQ(answer->rated_from, "stock power reading");
  std::set<double> speeds;
  for (const wire::RunChange& change : answer->changes) {
    speeds.insert(std::round(change.rpm));
    EXPECT_LE(change.low, change.change + 1e-9) << change.figure;
    EXPECT_GE(change.high, change.change - 1e-9) << change.figure;
    EXPECT_EQ(change.distinguishable, change.low > 0.0 || change.high < 0.0) << change.figure;
    EXPECT_EQ(change.text == "not told apart", !change.distinguishable) << change.figure;
  }
  EXPECT_EQ(speeds, (std::set<double>{5850.0, 9000.0, 11250.0}));
  EXPECT_EQ(answer->bands.front().id, "run.power");
  ASSERT_TRUE(answer->bands.front().change);
  EXPECT_TRUE(figure(answer->points[0], "run.power").change->low) << "between the three speeds a point has its range";
}

TEST(run, stopped_keeps_the_points_that_are_ready) {
  int asked = 0;
  double greatest = 0.0;
  const auto answer =
      desk::run(plain(sample("alder-60"), "7000:9000:1000"), [&](double share, const std::string& what) {
        ++asked;
        EXPECT_FALSE(what.empty());
        EXPECT_GE(share, greatest - 1e-12);
        greatest = std::max(greatest, share);
        return share > 0.0;
      });
  ASSERT_TRUE(answer);
  EXPECT_TRUE(answer->stopped);
  EXPECT_GE(asked, 5);
  ASSERT_THAT(answer->points, SizeIs(1));
  EXPECT_EQ(answer->points[0].rpm, 7000.0);
  EXPECT_GT(*figure(answer->points[0], "run.power").value, 0.0);
  EXPECT_FALSE(answer->zero_torque_rpm);
}

TEST(run, stopped_at_once_is_an_answer_without_points) {
  const auto answer = desk::run(plain(sample("alder-60"), "9000"), [](double, const std::string&) { return true; });
  ASSERT_TRUE(answer);
  EXPECT_TRUE(answer->stopped);
  EXPECT_THAT(answer->points, IsEmpty());
}

TEST(run, an_air_head_saw_is_refused_in_words) {
  const auto answer = desk::run(plain(sample("birch-50"), "9000"));
  ASSERT_FALSE(answer);
  EXPECT_THAT(answer.error().front().message, HasSubstr("geometry only"));
  EXPECT_EQ(base::exit_status(answer.error().front().code), 4);
}

TEST(run, all_that_is_missing_is_named_at_once) {
  const Folder folder;
  const auto bare = desk::run(plain(folder.file("bare.saw.toml", "name = \"Bare\"\n"), "9000"));
  ASSERT_FALSE(bare);
  EXPECT_THAT(paths(bare.error()), IsSupersetOf({"crank.bore", "crank.stroke", "cylinder.chamber", "port.exhaust",
                                                 "port.transfer", "intake.kind", "carburettor.venturi"}));
  std::string text = changed(text_of(sample("alder-60")), "venturi = ", "# ");
  text = changed(text, "chamber = ", "# ");
  const auto two = desk::run(plain(folder.file("two.saw.toml", text), "9000"));
  ASSERT_FALSE(two);
  EXPECT_EQ(paths(two.error()), (std::set<std::string>{"carburettor.venturi", "cylinder.chamber"}));
}

TEST(run, a_shut_muffler_is_a_sentence_and_no_number) {
  const Folder folder;
  const auto shut = desk::run(plain(folder.file("shut.saw.toml", changed(text_of(sample("alder-60")), "outlets = [\"",
                                                                         "outlets = [\"0 cm2\"] # [\"")),
                                    "9000"));
  ASSERT_FALSE(shut);
  EXPECT_EQ(shut.error().front().path, "muffler.outlets");
  desk::RunRequest cut = plain(sample("alder-60"), "9000");
  cut.cuts = "outlets to 0 cm2";
  EXPECT_FALSE(desk::run(cut));
}

TEST(run, members_are_counted_within_reason) {
  desk::RunRequest request = plain(sample("alder-60"), "9000");
  for (const int members : {-1, 0, 1, 100000}) {
    request.members = members;
    const auto answer = desk::run(request);
    ASSERT_FALSE(answer) << members;
    EXPECT_EQ(answer.error().front().code, base::ErrorCode::usage);
  }
}

TEST(run, traces_are_rows_with_a_head_that_names_the_units) {
  const Folder folder;
  desk::RunRequest request = plain(sample("alder-60"), "9000");
  request.traces = folder.at("t.csv");
  request.plot = folder.at("t.svg");
  const auto answer = desk::run(request);
  ASSERT_TRUE(answer);
  EXPECT_THAT(answer->written, testing::UnorderedElementsAre(request.traces, request.plot));
  const std::string csv = text_of(request.traces);
  const std::string head = csv.substr(0, csv.find('\n'));
  EXPECT_THAT(head, StartsWith("speed [rpm],angle [deg ATDC],cylinder [bar],case [bar]"));
  const auto commas = [](const std::string& line) { return std::count(line.begin(), line.end(), ','); };
  std::size_t rows = 0;
  double last = -1e9;
  for (std::size_t at = csv.find('\n') + 1; at < csv.size(); at = csv.find('\n', at) + 1, ++rows) {
    const std::string line = csv.substr(at, csv.find('\n', at) - at);
    EXPECT_EQ(commas(line), commas(head));
    EXPECT_THAT(line, StartsWith("9000,"));
    const double angle = std::stod(line.substr(5));
    EXPECT_GE(angle, last);
    last = angle;
  }
  EXPECT_GT(rows, 300u);
  EXPECT_THAT(text_of(request.plot), HasSubstr("<svg"));
}

TEST(run, a_curve_is_drawn_where_it_is_asked_for) {
  const Folder folder;
  desk::RunRequest request = plain(sample("alder-60"), "8000:9000:1000");
  request.plot = folder.at("c.svg");
  const auto curve_only = [](double, const std::string& what) { return what == "speed without torque"; };
  const auto answer = desk::run(request, curve_only);
  ASSERT_TRUE(answer);
  EXPECT_THAT(answer->points, SizeIs(2));
  EXPECT_TRUE(answer->stopped);
  EXPECT_THAT(text_of(request.plot), HasSubstr("<svg"));
  request.speeds = "9000";
  request.plot = folder.at("no/such/folder/c.svg");
  const auto lost = desk::run(request);
  ASSERT_FALSE(lost);
  EXPECT_EQ(lost.error().front().code, base::ErrorCode::storage);
}

}  // namespace
