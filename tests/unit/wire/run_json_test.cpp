// Answers of a turning engine to JSON and back.
#include <gtest/gtest.h>

#include <limits>
#include <stdexcept>

#include "wire/json.hpp"
#include "wire/run_answer.hpp"

namespace {

using namespace portwright;

wire::RunAnswer a_run() {
  wire::RunAnswer answer;
  answer.rated_rpm = 9000.0;
  answer.rated_from = "stock power reading";
  answer.anchored = true;
  study::Figure power;
  power.id = "run.power";
  power.unit = "kW";
  power.value = 2.4;
  power.low = 1.7;
  power.high = 3.1;
  power.stock = base::Spread{2.3, {}, {}};
  power.change = study::Change{0.1, 0.05, 0.15, true};
  wire::RunPoint point;
  point.rpm = 9000.0;
  point.figures = {power};
  point.settled = "two-solution";
  point.cycles = 31;
  point.mass_residual = 1e-15;
  answer.points = {point};
  answer.bands = {power};
  wire::RunChange change;
  change.figure = "run.power";
  change.rpm = 9000.0;
  change.change = 0.1;
  change.text = "+0.10 kW (+4.0 %)";
  answer.changes = {change};
  answer.stopped = true;
  return answer;
}

template <class A>
void expect_round(const A& answer) {
  const std::string text = wire::to_json(answer);
  const auto back = wire::from_json<A>(text);
  ASSERT_TRUE(back) << back.error().message;
  EXPECT_EQ(wire::to_json(*back), text);
}

TEST(run_json, a_run_reads_back_as_it_was_written) {
  expect_round(a_run());
  const auto back = wire::from_json<wire::RunAnswer>(wire::to_json(a_run()));
  ASSERT_TRUE(back);
  EXPECT_EQ(back->points.at(0).settled, "two-solution");
  EXPECT_EQ(back->points.at(0).cycles, 31);
  EXPECT_TRUE(back->stopped);
  EXPECT_FALSE(back->zero_torque_rpm);
  EXPECT_TRUE(back->changes.at(0).text.starts_with("+0.10"));
}

TEST(run_json, gauge_and_airflow_read_back_as_they_were_written) {
  wire::CrankAnswer crank;
  crank.strokes_bar = {5.2, 6.5, 6.8};
  crank.read_bar = 9.0;
  crank.verdict = "they agree";
  expect_round(crank);
  wire::AirflowAnswer air;
  air.ways = {{"primary", "transfer", 2, 14.8, 1.2, 0.51, {{"mouth", 12.0, 0.3}, {"bend", 2.0, 0.1}}, "Primary."}};
  air.gains = {{"primary", "mouth primary to 1.9 cm2", 0.4, 0.3, "Opening."}};
  expect_round(air);
  EXPECT_EQ(wire::from_json<wire::AirflowAnswer>(wire::to_json(air))->ways.at(0).losses.at(1).cause, "bend");
}

TEST(run_json, a_speed_without_torque_that_was_not_met_is_null) {
  wire::RunAnswer answer = a_run();
  EXPECT_NE(wire::to_json(answer).find("\"zero_torque_rpm\": null"), std::string::npos);
  answer.zero_torque_rpm = 14000.0;
  EXPECT_NE(wire::to_json(answer).find("\"zero_torque_rpm\": 14000.0"), std::string::npos);
}

TEST(run_json, no_number_that_is_not_finite_is_written) {
  wire::RunAnswer answer = a_run();
  answer.points[0].energy_residual = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THROW(static_cast<void>(wire::to_json(answer)), std::logic_error);
}

TEST(run_json, the_answers_of_one_use_case_are_not_those_of_another) {
  EXPECT_FALSE(wire::from_json<wire::CrankAnswer>(wire::to_json(a_run())));
  EXPECT_FALSE(wire::from_json<wire::RunAnswer>(wire::to_json(wire::AirflowAnswer{})));
}

}  // namespace
