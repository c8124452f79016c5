#include <cmath>

#include <gtest/gtest.h>

#include "combustion/burning.hpp"
#include "combustion/knock.hpp"
#include "combustion/wall_heat.hpp"

namespace portwright::combustion {
namespace {

const BurnAssumptions usual{};

/// Greatest second difference of a law, divided by the step's square.
template <class F>
double greatest_bend(F&& law, double from, double to, double step) {
  double worst = 0.0;
  for (double x = from + step; x <= to - step; x += step)
    worst = std::max(worst, std::abs(law(x + step) - 2.0 * law(x) + law(x - step)) / (step * step));
  return worst;
}

/// A kink's second difference doubles when the step is halved; that of a smooth law stays.
template <class F>
void expect_no_kink(F&& law, double from, double to, double step) {
  const double coarse = greatest_bend(law, from, to, step), fine = greatest_bend(law, from, to, 0.25 * step);
  EXPECT_LT(fine, 1.1 * coarse + 1e-4);
}

TEST(burning, every_law_is_smooth_over_purity_speed_and_mixture) {
  expect_no_kink([](double y) { return completeness(usual, y); }, 0.3, 1.0, 0.004);
  expect_no_kink([](double y) { return fires(usual, y, 0.9); }, 0.2, 1.0, 0.004);
  expect_no_kink([](double y) { return burn_duration(usual, 150.0, y); }, 0.3, 1.0, 0.004);
  expect_no_kink([](double n) { return burn_duration(usual, n, 0.75); }, 30.0, 250.0, 1.0);
  expect_no_kink([](double l) { return rich_factor(usual, l); }, 0.6, 1.4, 0.004);
  expect_no_kink([](double l) { return fires(usual, 0.7, l); }, 0.4, 1.6, 0.004);
}

TEST(burning, second_differences_stay_bounded_where_engines_run) {
  EXPECT_LE(greatest_bend([](double y) { return completeness(usual, y); }, 0.5, 1.0, 1e-3),
            1.01 * usual.purity_slope / (4.0 * usual.purity_width));
  EXPECT_LT(greatest_bend([](double y) { return burnt_fuel(usual, y, 0.88); }, 0.72, 1.0, 1e-3), 11.0);
  EXPECT_LT(greatest_bend([](double n) { return burn_duration(usual, n, 0.75); }, 80.0, 220.0, 1.0), 1e-4);
}

TEST(burning, duration_is_the_reference_at_its_place_and_grows_with_speed_and_dilution) {
  EXPECT_NEAR(burn_duration(usual, 150.0, 0.75), 48.0 * degree, 1e-14);
  EXPECT_NEAR(burn_duration(usual, 300.0, 0.75) / burn_duration(usual, 150.0, 0.75), std::pow(2.0, 0.3), 1e-14);
  EXPECT_GT(burn_duration(usual, 150.0, 0.65), burn_duration(usual, 150.0, 0.75));
}

TEST(burning, completeness_is_flat_when_pure_and_falls_one_for_one_when_diluted) {
  EXPECT_NEAR(completeness(usual, 0.75), 0.92, 0.003);
  EXPECT_NEAR(completeness(usual, 0.90), 0.92, 1e-5);
  EXPECT_NEAR(completeness(usual, 0.55), 0.92 - 0.15, 1e-3);
  double before = 0.0;
  for (double y = 0.0; y <= 1.0; y += 0.01) {
    EXPECT_GE(completeness(usual, y), before);
    before = completeness(usual, y);
  }
  BurnAssumptions steep = usual;
  steep.purity_slope = 2.0;
  EXPECT_GT(completeness(steep, 0.0), 0.0);
}

TEST(burning, rich_factor_loses_1_3_for_each_unit_of_lambda) {
  EXPECT_NEAR(rich_factor(usual, 0.85), 1.0 - 1.3 * 0.15, 1e-4);
  EXPECT_NEAR(rich_factor(usual, 1.15), 1.0, 1e-4);
  EXPECT_NEAR(rich_factor(usual, 1.0), 1.0, 0.02);
}

TEST(burning, misfire_is_unnoticed_where_engines_run_and_complete_where_nothing_burns) {
  EXPECT_GT(fires(usual, 0.65, 0.85), 0.9999);
  EXPECT_LT(fires(usual, 0.30, 0.85), 0.003);
  EXPECT_LT(fires(usual, 0.75, 0.40), 0.01);
  EXPECT_LT(fires(usual, 0.75, 1.60), 0.01);
  EXPECT_NEAR(fires(usual, usual.purity_limit, 1.0), 0.5, 1e-4);
}

TEST(burning, course_starts_after_the_delay_and_its_rate_is_its_slope) {
  const Burn b = burn(usual, -28.0 * degree, 150.0, 0.75);
  EXPECT_NEAR(b.start, -19.0 * degree, 1e-14);
  EXPECT_EQ(burnt_share(b, b.start), 0.0);
  EXPECT_EQ(burn_rate(b, b.start - 0.1), 0.0);
  EXPECT_NEAR(burnt_share(b, b.start + b.duration), 0.999, 1e-6);
  EXPECT_NEAR(burnt_share(b, b.start + 3.0 * b.duration), 1.0, 1e-12);
  double sum = 0.0, before = 0.0;
  const double step = 0.02 * degree;
  for (double angle = b.start; angle < b.start + 2.0 * b.duration; angle += step) {
    sum += step * burn_rate(b, angle + 0.5 * step);
    EXPECT_NEAR(burnt_share(b, angle + step), sum, 1e-5);
    EXPECT_GE(burnt_share(b, angle), before);
    before = burnt_share(b, angle);
  }
}

TEST(end_gas, follows_the_isentrope_of_the_working_gas) {
  const gas::WorkingGas gas = gas::working_gas(12.8, 0.008).value();
  const gas::Caloric k = gas::blend(gas, 0.75, 0.054);
  double worst[2] = {0.0, 0.0};
  for (int halved = 0; halved < 2; ++halved) {
    const int steps = 60 << halved;
    EndGas end{1.2e5, 400.0, 0.0};
    for (int i = 1; i <= steps; ++i)
      end = later(end, k, gas.c, 1.2e5 * std::exp(std::log(30.0) * i / steps), 1e-5, 95.0);
    worst[halved] = std::abs(end.T / gas::isentropic_temperature(k, gas.c, 400.0, 30.0) - 1.0);
  }
  EXPECT_LT(worst[0], 1e-5);
  EXPECT_LT(worst[1], 0.3 * worst[0]);
}

TEST(end_gas, goes_back_when_the_pressure_does) {
  const gas::WorkingGas gas = gas::working_gas(12.8, 0.008).value();
  const gas::Caloric k = gas::blend(gas, 0.75, 0.054);
  EndGas end{1e5, 400.0, 0.0};
  for (double p : {1.1e5, 1.3e5, 1.1e5, 1e5}) end = later(end, k, gas.c, p, 1e-5, 95.0);
  EXPECT_NEAR(end.T, 400.0, 1e-3);
  EXPECT_GT(end.integral, 0.0);
}

TEST(knock, comes_sooner_hotter_harder_pressed_and_on_poorer_fuel) {
  const double tau = ignition_delay(3e6, 850.0, 95.0);
  EXPECT_LT(ignition_delay(3.3e6, 850.0, 95.0), tau);
  EXPECT_LT(ignition_delay(3e6, 900.0, 95.0), tau);
  EXPECT_LT(ignition_delay(3e6, 850.0, 90.0), tau);
}

TEST(octane, scales_differ_by_the_sensitivity) {
  EXPECT_EQ(octane_asked(91.0, OctaneScale::pump), 91.0);
  EXPECT_EQ(octane_asked(95.5, OctaneScale::research), 91.0);
  EXPECT_EQ(octane_asked(86.5, OctaneScale::motor), 91.0);
  EXPECT_EQ(octane_asked(95.0, OctaneScale::research, {.sensitivity = 9.0, .motor_share = 0.0}), 95.0);
  EXPECT_EQ(octane_asked(85.0, OctaneScale::motor, {.sensitivity = 9.0, .motor_share = 1.0}), 85.0);
}

TEST(wall_heat, woschni_speed_makes_no_jump_while_a_port_opens) {
  const ShutIn from{1.2e5, 400.0, 50e-6};
  double before = woschni_speed(10.0, 1.0, 60e-6, from, 2e5);
  for (double shut = 0.99; shut >= 0.0; shut -= 0.01) {
    const double now = woschni_speed(10.0, shut, 60e-6, from, 2e5);
    EXPECT_LT(std::abs(now - before), 1.0);
    before = now;
  }
}

TEST(wall_heat, every_film_grows_with_pressure_and_speed) {
  EXPECT_GT(woschni_film(0.05, 2e6, 1500.0, 25.0), woschni_film(0.05, 2e6, 1500.0, 20.0));
  EXPECT_GT(woschni_film(0.05, 2.2e6, 1500.0, 20.0), woschni_film(0.05, 2e6, 1500.0, 20.0));
  EXPECT_GT(hohenberg_film(2e-5, 2.2e6, 1500.0, 10.0), hohenberg_film(2e-5, 2e6, 1500.0, 10.0));
  EXPECT_GT(annand_film(0.5, 0.05, 5.5, 1500.0, 10.0), annand_film(0.5, 0.05, 5.0, 1500.0, 10.0));
}

}  // namespace
}  // namespace portwright::combustion
