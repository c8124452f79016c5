// A production saw whose rated output a maker's sheet gives: 41.6 cm3, 42 x 30 mm, 2.1 kW at 9,500 rpm with its stock
// silencer by ISO 7293, so 3.19 bar (own arithmetic). Its ports are the trade's stock middles and the rest is scaled
// from a sample, all written down before the first run: forty_two.saw.toml.
#include <algorithm>

#include <gtest/gtest.h>

#include "cycle/build.hpp"
#include "cycle/curve.hpp"
#include "geometry/survey.hpp"
#include "saw/file.hpp"

namespace portwright::cycle {
namespace {

std::vector<Point> forty_two() {
  const auto file = saw::read_saw_file(PORTWRIGHT_SOURCE_DIR "/tests/reference/cycle/forty_two.saw.toml");
  const geometry::Survey survey = geometry::survey(file.value().readings);
  EXPECT_TRUE(survey.errors.empty());
  const auto net = build(geometry::resolve(survey), middle_assumptions(), survey.needs);
  CurvePlan plan;
  plan.both_ways = false;
  for (double rpm = 8000; rpm <= 11500; rpm += 250) plan.speeds.push_back(rpm / 60.0);
  return run_curve(net.value(), plan).points;
}

TEST(anchor, a_rated_production_saw_is_met_within_15_percent_of_pressure_and_10_of_speed) {
  const std::vector<Point> curve = forty_two();
  ASSERT_EQ(curve.size(), 15U);
  const Point& rated = curve[6];
  EXPECT_NEAR(rated.speed * 60.0, 9500.0, 1e-6);
  EXPECT_NEAR(rated.bmep, 3.19e5, 0.15 * 3.19e5);
  const auto peak = std::max_element(curve.begin(), curve.end(), [](auto& a, auto& b) { return a.power < b.power; });
  EXPECT_NEAR(peak->speed * 60.0, 9500.0, 950.0);
  // Fuel of plain carburetted hand-held two-strokes 370 to 550 g/kWh, 17 to 32 % of it lost unburnt (EPA rates).
  EXPECT_GT(rated.fuel * 3.6e9, 370.0);
  EXPECT_LT(rated.fuel * 3.6e9, 550.0);
  EXPECT_GT(rated.fuel_lost, 0.17);
  EXPECT_LT(rated.fuel_lost, 0.32);
}

}  // namespace
}  // namespace portwright::cycle
