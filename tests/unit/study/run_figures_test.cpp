// Figures and findings of a turning engine, from points made by hand.
#include "study/run_figures.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "study/run_findings.hpp"
#include "tables/limits.hpp"

namespace portwright::study {
namespace {

using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

cycle::Point a_point(double rpm) {
  cycle::Point p;
  p.speed = rpm / 60.0;
  p.power = 2340.0;
  p.torque = 2.48;
  p.bmep = 2.6e5;
  p.imep = 3.1e5;
  p.delivery_ratio = 0.4162;
  p.charging = 0.3358;
  p.peak_pressure = 24.43e5;
  p.exhaust_temperature = 930.4;
  p.case_low = 0.876e5;
  p.case_high = 1.36e5;
  p.fuel = 481e-3 / 3.6e6;
  p.knock = 0.4935;
  p.spit_back = 0.031;
  p.blow_back = 0.0736;
  p.reed_lift = 3.2e-3;
  p.reed_impact = 5.4;
  return p;
}

const Figure& the(const std::vector<Figure>& figures, const std::string& id) {
  for (const Figure& figure : figures)
    if (figure.id == id) return figure;
  throw std::runtime_error("no " + id);
}

bool has(const std::vector<Figure>& figures, const std::string& id) {
  for (const Figure& figure : figures)
    if (figure.id == id) return true;
  return false;
}

const Finding& rule(const std::vector<Finding>& findings, const std::string& name) {
  for (const Finding& finding : findings)
    if (finding.rule == name) return finding;
  throw std::runtime_error("no " + name);
}

TEST(run_figures, are_those_of_the_contract_in_its_units) {
  const std::pair<const char*, const char*> contract[] = {
      {"run.power", "kW"},        {"run.torque", "N m"},       {"run.bmep", "bar"},
      {"run.imep", "bar"},        {"run.delivery_ratio", "-"}, {"run.trapping", "-"},
      {"run.scavenging", "-"},    {"run.charging", "-"},       {"run.peak_pressure", "bar"},
      {"run.case_low", "bar"},    {"run.case_high", "bar"},    {"run.exhaust_temperature", "K"},
      {"run.fuel", "g/kWh"},      {"run.knock", "-"},          {"run.knock_margin", "-"},
      {"run.spit_back", "%"},     {"run.blow_back", "%"},      {"run.reed_lift", "mm"},
      {"run.reed_impact", "m/s"}, {"run.heat.cylinder", "W"}};
  EXPECT_EQ(run_rows().size(), std::size(contract));
  for (const auto& [id, unit] : contract) {
    const RunRow* row = run_row(id);
    ASSERT_NE(row, nullptr) << id;
    EXPECT_STREQ(row->unit, unit) << id;
  }
}

TEST(run_figures, each_say_what_they_are_why_and_from_where) {
  std::set<std::string> seen;
  for (const Figure& figure : run_figures(a_point(9000), true, {}, base::UnitStyle::shop)) {
    EXPECT_TRUE(seen.insert(figure.id).second) << figure.id;
    for (const std::string& text : {figure.label, figure.why, figure.formula, figure.source, figure.text})
      EXPECT_FALSE(text.empty()) << figure.id;
  }
}

TEST(run_figures, come_out_in_their_own_unit) {
  const auto figures = run_figures(a_point(9000), true, {}, base::UnitStyle::shop);
  EXPECT_NEAR(*the(figures, "run.power").value, 2.34, 1e-12);
  EXPECT_NEAR(*the(figures, "run.fuel").value, 481.0, 1e-9);
  EXPECT_NEAR(*the(figures, "run.blow_back").value, 7.36, 1e-12);
  EXPECT_NEAR(*the(figures, "run.reed_lift").value, 3.2, 1e-12);
  EXPECT_NEAR(*the(figures, "run.knock_margin").value, 1.0 - 0.4935, 1e-12);
}

TEST(run_figures, power_without_an_anchor_is_an_order_of_size) {
  const Figure power = the(run_figures(a_point(9000), false, {}, base::UnitStyle::shop), "run.power");
  EXPECT_EQ(power.text, "about 1.6 to 3.0 kW");
  EXPECT_NEAR(*power.low, 0.7 * 2.34, 1e-12);
  EXPECT_NEAR(*power.high, 1.3 * 2.34, 1e-12);
}

TEST(run_figures, a_narrow_band_does_not_make_unanchored_power_sure) {
  const RunRow& row = *run_row("run.power");
  const cycle::Band band{2340.0, 2300.0, 2380.0};
  EXPECT_EQ(run_figure(row, 2340.0, {band, false}, base::UnitStyle::shop).text, "about 1.6 to 3.0 kW");
  const Figure anchored = run_figure(row, 2340.0, {band, true}, base::UnitStyle::shop);
  EXPECT_EQ(anchored.text, "2.34 kW");
  EXPECT_NEAR(*anchored.low, 2.30, 1e-12);
}

TEST(run_figures, a_wide_band_makes_unanchored_power_wider) {
  const cycle::Band band{2340.0, 1000.0, 4000.0};
  const Figure power = run_figure(*run_row("run.power"), 2340.0, {band, false}, base::UnitStyle::shop);
  EXPECT_NEAR(*power.low, 1.0, 1e-12);
  EXPECT_NEAR(*power.high, 4.0, 1e-12);
}

TEST(run_figures, without_a_range_show_three_digits_at_most) {
  const auto figures = run_figures(a_point(9000), true, {}, base::UnitStyle::metric);
  EXPECT_EQ(the(figures, "run.delivery_ratio").text, "0.416");
  EXPECT_EQ(the(figures, "run.exhaust_temperature").text, "930 K");
  EXPECT_EQ(the(figures, "run.peak_pressure").text, "24.4 bar");
  EXPECT_EQ(three_digits(0.0, "%", base::UnitStyle::shop), "0.0 %");
  EXPECT_EQ(three_digits(12345.0, "W", base::UnitStyle::shop), "12\u202F300 W");
}

TEST(run_figures, a_margin_turns_its_band_round) {
  const Figure margin =
      run_figure(*run_row("run.knock_margin"), 0.5, {cycle::Band{0.5, 0.4, 0.7}, false}, base::UnitStyle::shop);
  EXPECT_NEAR(*margin.low, 0.3, 1e-12);
  EXPECT_NEAR(*margin.high, 0.6, 1e-12);
}

TEST(run_figures, leave_out_what_this_engine_does_not_have) {
  cycle::Point idle = a_point(12000);
  idle.fuel = 0.0;
  const auto figures = run_figures(idle, false, {}, base::UnitStyle::shop);
  for (const char* id : {"run.fuel", "run.reed_lift", "run.reed_impact"}) EXPECT_FALSE(has(figures, id)) << id;
  EXPECT_TRUE(has(figures, "run.power"));
}

TEST(run_changes, stand_with_their_sign_in_the_unit_and_in_percent) {
  const auto shop = base::UnitStyle::shop;
  EXPECT_EQ(signed_change({0.12, 0.05, 0.19}, 3.0, "kW", shop), "+0.12 kW (+4.0 %)");
  EXPECT_EQ(signed_change({-0.30, -0.4, -0.2}, 2.0, "kW", shop), "\u22120.30 kW (\u221215 %)");
  EXPECT_EQ(signed_change({-2.5, -3.0, -2.0}, 8.0, "%", shop), "\u22122.5 %");
}

TEST(run_findings, hold_the_knock_integral_at_the_speed_where_it_is_worst) {
  std::vector<cycle::Point> points{a_point(7000), a_point(8000), a_point(9000)};
  points[1].knock = 0.86;
  const auto note = rule(find_run(points, false, base::UnitStyle::shop), "knock");
  EXPECT_EQ(note.state, State::note);
  EXPECT_THAT(note.text, StartsWith("Knock integral at 8\u202F000 rpm: 0.86"));
  EXPECT_THAT(note.why, HasSubstr("estimate"));
  EXPECT_EQ(note.source, "douaud_eyzat, livengood_wu");
  points[2].knock = 1.04;
  const auto findings = find_run(points, false, base::UnitStyle::shop);
  EXPECT_EQ(findings.front().rule, "knock");
  EXPECT_EQ(findings.front().state, State::caution);
  EXPECT_NEAR(*findings.front().margin, -0.04, 1e-12);
}

TEST(run_findings, a_case_blown_back_is_a_note_above_the_usual_share) {
  std::vector<cycle::Point> points{a_point(9000)};
  EXPECT_EQ(rule(find_run(points, false, base::UnitStyle::shop), "case_blown_back").state, State::ok);
  points[0].blow_back = 0.14;
  EXPECT_EQ(rule(find_run(points, false, base::UnitStyle::shop), "case_blown_back").state, State::note);
}

TEST(run_findings, where_no_number_is_agreed_the_figure_stands_as_a_note_that_says_so) {
  const std::vector<cycle::Point> points{a_point(9000)};
  const auto findings = find_run(points, true, base::UnitStyle::shop);
  for (const char* name : {"spit_back", "reed_impact", "exhaust_temperature"}) {
    EXPECT_EQ(rule(findings, name).state, State::note) << name;
    EXPECT_FALSE(rule(findings, name).limit) << name;
    EXPECT_THAT(rule(findings, name).text, HasSubstr("no number is agreed")) << name;
  }
  for (const Finding& finding : find_run(points, false, base::UnitStyle::shop)) EXPECT_NE(finding.rule, "reed_impact");
}

TEST(run_findings, speak_in_the_unit_of_their_figure) {
  int held = 0;
  for (const tables::LimitRow& limit : tables::limits())
    if (const RunRow* row = run_row(limit.figure)) {
      EXPECT_EQ(limit.unit, row->unit) << limit.rule;
      ++held;
    }
  EXPECT_EQ(held, 5);
}

TEST(once_figures, are_an_upper_bound_and_a_gauge) {
  const Figure bound = once_figure(zero_torque_row(), 14000.0 / 60.0, {}, base::UnitStyle::shop);
  EXPECT_EQ(bound.id, "run.zero_torque_rpm");
  EXPECT_NEAR(*bound.value, 14000.0, 1e-9);
  EXPECT_THAT(bound.label, HasSubstr("upper bound"));
  const Figure gauge = once_figure(gauge_row(), 9.0e5, cycle::Band{9.0e5, 8.0e5, 10.0e5}, base::UnitStyle::shop);
  EXPECT_NEAR(*gauge.value, 130.5, 0.1);
  EXPECT_THAT(gauge.text, HasSubstr("psi"));
}

}  // namespace
}  // namespace portwright::study
