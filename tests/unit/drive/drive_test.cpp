// Clutch, sprocket, chain and wood.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "drive/wood.hpp"

namespace portwright::drive {
namespace {

constexpr double inch = 0.0254;
const Chain chain{0.375 * inch, 7.0};

TorqueCurve engine() { return {{100.0, 150.0, 190.0}, {4.2, 4.0, 2.9}}; }

// A cubic of the same three ends: the spline meets its points and lies far nearer between them than the parabola.
TEST(torque_curve, through_more_points_follows_a_shape_that_is_no_parabola) {
  const auto shape = [](double n) { return 4.2 - 0.002 * (n - 100.0) - 3e-6 * std::pow(n - 100.0, 3); };
  std::vector<double> speeds, torques;
  for (double n = 100.0; n <= 190.0; n += 15.0) speeds.push_back(n), torques.push_back(shape(n));
  const TorqueCurve curve(speeds, torques);
  const TorqueCurve three({100.0, 145.0, 190.0}, {shape(100.0), shape(145.0), shape(190.0)});
  double off = 0.0, off_three = 0.0;
  for (double n = 100.0; n <= 190.0; n += 0.5) {
    off = std::max(off, std::abs(curve.torque(n) - shape(n)));
    off_three = std::max(off_three, std::abs(three.torque(n) - shape(n)));
  }
  EXPECT_LT(off, 0.1 * off_three);
  for (std::size_t i = 0; i < speeds.size(); ++i) EXPECT_NEAR(curve.torque(speeds[i]), torques[i], 1e-12);
}

TEST(torque_curve, beside_another_meets_what_is_known_of_it) {
  const std::vector<double> speeds = {100.0, 120.0, 145.0, 170.0, 190.0}, torques = {4.2, 4.3, 4.0, 3.5, 2.9};
  const TorqueCurve other = beside(speeds, torques, {100.0, 145.0, 190.0}, {0.3, 0.1, -0.2});
  EXPECT_NEAR(other.torque(100.0), 4.5, 1e-12);
  EXPECT_NEAR(other.torque(145.0), 4.1, 1e-12);
  EXPECT_NEAR(other.torque(190.0), 2.7, 1e-12);
}

TEST(chain, force_times_speed_is_the_power_less_the_drag) {
  const double speed = 150.0, torque = 3.5, drag = 0.07;
  const double power = 2.0 * std::numbers::pi * speed * torque;
  EXPECT_NEAR(chain_force(chain, torque, drag) * chain_speed(chain, speed), (1.0 - drag) * power, 1e-10 * power);
  EXPECT_NEAR(torque_for(chain, chain_force(chain, torque, drag), drag), torque, 1e-12);
}

TEST(chain, a_clutch_is_open_then_slips_then_holds) {
  EXPECT_EQ(clutch_at(50.0, 63.0, 1.35), Clutch::open);
  EXPECT_EQ(clutch_at(70.0, 63.0, 1.35), Clutch::slips);
  EXPECT_EQ(clutch_at(90.0, 63.0, 1.35), Clutch::holds);
}

TEST(torque_curve, goes_through_its_points_and_holds_its_ends) {
  const TorqueCurve curve = engine();
  EXPECT_NEAR(curve.torque(100.0), 4.2, 1e-12);
  EXPECT_NEAR(curve.torque(150.0), 4.0, 1e-12);
  EXPECT_NEAR(curve.torque(190.0), 2.9, 1e-12);
  EXPECT_EQ(curve.torque(50.0), curve.torque(100.0));
  EXPECT_EQ(curve.torque(400.0), curve.torque(190.0));
  const double best = curve.power(curve.power_peak());
  for (double n = 100.0; n <= 190.0; n += 1.0) EXPECT_LE(curve.power(n), best + 1e-9);
  EXPECT_GT(curve.power_peak(), curve.torque_peak());
  EXPECT_THROW(TorqueCurve({100.0, 100.0, 190.0}, {1.0, 1.0, 1.0}), std::logic_error);
  EXPECT_THROW(TorqueCurve({100.0, 190.0}, {1.0, 1.0}), std::logic_error);
  EXPECT_THROW(TorqueCurve({100.0, 150.0, 190.0}, {1.0, 1.0}), std::logic_error);
}

TEST(wood, the_saw_turns_where_its_torque_is_what_the_chain_asks_for) {
  const TorqueCurve curve = engine();
  const double force = chain_force(chain, curve.torque(160.0), 0.07);
  const Working now = working(curve, chain, force, 0.07);
  EXPECT_EQ(now.meets, Meets::holds);
  EXPECT_NEAR(now.speed, 160.0, 1e-6);
  EXPECT_NEAR(now.wood_power, force * now.chain_speed, 1e-6 * now.wood_power);
}

TEST(wood, too_much_bogs_it_and_too_little_lets_it_run_beyond_what_was_looked_at) {
  EXPECT_EQ(working(engine(), chain, 1e4, 0.07).meets, Meets::bogs);
  EXPECT_EQ(working(engine(), chain, 1e4, 0.07).wood_power, 0.0);
  const Working light = working(engine(), chain, 1.0, 0.07);
  EXPECT_EQ(light.meets, Meets::runs_away);
  EXPECT_NEAR(light.wood_power, light.chain_speed, 1e-9) << "one newton";
}

TEST(wood, a_smaller_sprocket_lets_the_engine_turn_faster_in_the_same_wood) {
  const TorqueCurve curve = engine();
  const double force = chain_force(chain, curve.torque(150.0), 0.07);
  const double seven = working(curve, chain, force, 0.07).speed;
  EXPECT_GT(working(curve, {chain.pitch, 6.0}, force, 0.07).speed, seven);
}

TEST(wood, the_best_sprocket_leaves_most_for_the_wood) {
  const TorqueCurve curve = engine();
  // Pulling as at the peak with seven teeth: seven keep the engine there.
  const double force = chain_force(chain, curve.torque(curve.power_peak()), 0.07);
  const auto best = best_sprocket(curve, chain, force, 0.07, 5, 10);
  ASSERT_TRUE(best);
  EXPECT_EQ(best->teeth, 7);
  // In wider wood a smaller one.
  const auto wide = best_sprocket(curve, chain, force_in(force, 0.3, 0.40, 0.8), 0.07, 5, 10);
  ASSERT_TRUE(wide);
  EXPECT_LT(wide->teeth, 7);
  EXPECT_FALSE(best_sprocket(curve, chain, 1e4, 0.07, 5, 10)) << "it bogs with each";
}

TEST(wood, time_goes_with_the_area_and_against_the_power) {
  EXPECT_NEAR(round_area(0.4), 0.1256637, 1e-7);
  EXPECT_NEAR(cutting_time(0.1256637, 72e4, 2500.0), 36.19, 0.01);
  EXPECT_NEAR(force_in(100.0, 0.3, 0.6, 1.0), 200.0, 1e-12);
}

}  // namespace
}  // namespace portwright::drive
