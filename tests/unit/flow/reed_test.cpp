#include "flow/reed.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

#include <gtest/gtest.h>

namespace portwright::flow {
namespace {

ReedShape glass() {
  ReedShape s;
  s.petals = 4;
  s.length = 0.030;
  s.width = 0.020;
  s.thickness = 0.40e-3;
  s.modulus = 18.6e9;
  s.density = 1820.0;
  s.window_length = 0.024;
  s.window_width = 0.017;
  s.stop_lift = 0.008;
  s.block_angle = 0.61;
  return s;
}

TEST(reed, rest_on_the_seat_stays_rest) {
  const Reed reed = make_reed(glass());
  ReedState state;
  for (int i = 0; i < 20000; ++i) step(reed, state, 0.0, 5e-6);
  for (const double q : state.q) EXPECT_EQ(q, 0.0);
  EXPECT_EQ(area(reed, state), 0.0);
  EXPECT_EQ(swept_volume(reed, state), 0.0);
}

TEST(reed, a_pressed_petal_seals) {
  const Reed reed = make_reed(glass());
  ReedState state;
  for (int i = 0; i < 20000; ++i) step(reed, state, -20e3, 5e-6);
  EXPECT_EQ(area(reed, state), 0.0);
  EXPECT_GT(tip_lift(reed, state), -3.0 * reed_contact_depth);
}

TEST(reed, free_motion_dies_out_by_its_loss_ratio) {
  // Away from seat and stop: amplitude falls by exp(-eta omega t / 2).
  ReedShape shape = glass();
  shape.stop_lift = 1.0;
  const Reed reed = make_reed(shape);
  ReedState state;
  state.q[0] = 0.4e-3;
  const double push = 30e3, held = push * reed.sweep[0] / reed.stiffness[0];
  for (std::size_t k = 0; k < reed_modes; ++k) state.q[k] = push * reed.sweep[k] / reed.stiffness[k];
  state.q[0] = held + 0.4e-3;
  const double period = 1.0 / frequency(reed, 0);
  double first = 0.0, fifth = 0.0;
  const double dt = 2e-6;
  for (double t = 0.0; t < 5.2 * period; t += dt) {
    step(reed, state, push, dt);
    const double off = state.q[0] - held;
    if (t < 0.6 * period) first = std::max(first, t > 0.4 * period ? -off : 0.0);
    if (t > 4.4 * period && t < 4.6 * period) fifth = std::max(fifth, -off);
  }
  EXPECT_NEAR(std::log(first / fifth), 4.0 * std::numbers::pi * shape.loss_ratio,
              0.03 * 4.0 * std::numbers::pi * shape.loss_ratio);
}

TEST(reed, the_stop_holds_it_at_half_a_bar) {
  const Reed reed = make_reed(glass());
  ReedState state;
  double highest = 0.0;
  for (int i = 0; i < 20000; ++i) {
    step(reed, state, 50e3, 5e-6);
    highest = std::max(highest, tip_lift(reed, state));
  }
  EXPECT_LT(highest, 1.35 * glass().stop_lift);  // the tip whips over the stop's end for a moment
  EXPECT_LT(tip_lift(reed, state), 1.05 * glass().stop_lift);
  EXPECT_GT(tip_lift(reed, state), 0.80 * glass().stop_lift);
}

TEST(reed, contact_makes_no_energy) {
  const Reed reed = make_reed(glass());
  std::mt19937 random(7);
  std::uniform_real_distribution<double> speed(-4.0, 4.0);
  for (int trial = 0; trial < 200; ++trial) {
    ReedState state;
    for (double& v : state.v) v = speed(random);
    const double begun = energy(reed, state);
    for (int i = 0; i < 400; ++i) step(reed, state, 0.0, 5e-6);
    EXPECT_LE(energy(reed, state), begun * (1.0 + 1e-9));
  }
}

TEST(reed, the_gap_grows_with_lift_and_is_capped_by_the_windows) {
  const Reed reed = make_reed(glass());
  double last = 0.0;
  for (double q = 0.0; q < 0.02; q += 1e-4) {
    ReedState state;
    state.q[0] = q;
    const double now = area(reed, state);
    EXPECT_GE(now, last);
    EXPECT_LT(now, 4.0 * 0.024 * 0.017);
    last = now;
  }
  EXPECT_GT(last, 0.9 * 4.0 * reed.window);
}

TEST(reed, swept_rate_is_the_rate_of_the_swept_volume) {
  const Reed reed = make_reed(glass());
  ReedState state;
  for (int i = 0; i < 100; ++i) step(reed, state, 5e3, 5e-6);
  const double before = swept_volume(reed, state), rate = swept_rate(reed, state), dt = 1e-8;
  step(reed, state, 5e3, dt);
  EXPECT_NEAR((swept_volume(reed, state) - before) / dt, rate, 1e-3 * std::abs(rate));
}

TEST(reed, finer_steps_come_to_the_same_motion) {
  const Reed reed = make_reed(glass());
  const auto mean_area = [&](double dt) {
    ReedState state;
    double sum = 0.0;
    const int n = static_cast<int>(0.02 / dt);
    for (int i = 0; i < n; ++i) {
      step(reed, state, 6e3 * std::sin(2.0 * std::numbers::pi * 150.0 * i * dt), dt);
      sum += area(reed, state);
    }
    return sum / n;
  };
  // Contact begins within a step, so the gain is first order there: a fifth of the step, a fifth of the error or less.
  const double fine = mean_area(0.25e-6);
  const double coarse = std::abs(mean_area(5e-6) - fine), finer = std::abs(mean_area(1e-6) - fine);
  EXPECT_LT(coarse, 0.005 * fine);
  EXPECT_LT(finer, 0.3 * coarse);
}

TEST(reed, any_petal_in_any_step_stays_a_number) {
  std::mt19937 random(3);
  const auto between = [&](double a, double b) { return std::uniform_real_distribution<double>(a, b)(random); };
  for (int trial = 0; trial < 1000; ++trial) {
    ReedShape s = glass();
    s.length = between(0.015, 0.05);
    s.width = between(0.008, 0.03);
    s.thickness = between(0.1e-3, 0.8e-3);
    s.modulus = between(10e9, 210e9);
    s.density = between(1400.0, 7900.0);
    s.window_length = s.length * between(0.5, 1.0);
    s.window_width = s.width * between(0.5, 1.0);
    s.stop_lift = between(0.001, 0.012);
    s.loss_ratio = between(0.01, 0.3);
    const Reed reed = make_reed(s);
    ReedState state;
    for (int i = 0; i < 200; ++i) step(reed, state, between(-40e3, 40e3), between(1e-6, 100e-6));
    EXPECT_TRUE(std::isfinite(area(reed, state)) && std::isfinite(energy(reed, state))) << trial;
    EXPECT_LT(std::abs(tip_lift(reed, state)), 2.0 * s.length) << trial;
  }
}

}  // namespace
}  // namespace portwright::flow
