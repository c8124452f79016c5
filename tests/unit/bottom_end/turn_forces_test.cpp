// Forces over a turn: they close, whatever the pin's offset and the way the crank turns.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "bottom_end/turn_forces.hpp"

namespace portwright::bottom_end {
namespace {

constexpr double pi = std::numbers::pi;
constexpr int count = 720;
const Masses masses{0.112, 0.035, 0.060, 0.0735};
constexpr double area = 0.25 * pi * 0.05 * 0.05;

/// A pressure that no engine has, but of every order.
GasTrace some_gas() {
  GasTrace out;
  for (int k = 0; k < count; ++k) {
    const double a = 2.0 * pi * k / count;
    out.cylinder.push_back(2e5 + 25e5 * std::exp(-8.0 * std::pow(std::sin(0.5 * (a - 0.2)), 2)));
    out.crankcase.push_back(1.1e5 + 0.3e5 * std::cos(a - 2.8));
  }
  return out;
}

TEST(turn_forces, the_grid_closes_on_crank_rod_and_drop_with_any_offset) {
  for (const double offset : {-0.003, 0.0, 0.0015}) {
    const geometry::CrankSlider slider(0.036, 0.065, offset);
    const TurnGrid grid(slider, count);
    const double top = std::sqrt(std::pow(slider.rod() + slider.radius(), 2) - offset * offset);
    for (const TurnGrid::Node& at : grid.nodes)
      EXPECT_NEAR(top - slider.radius() * at.throw_cos - slider.rod() * at.rod_cos, at.drop, 1e-14);
  }
}

TEST(turn_forces, inertia_adds_up_to_nothing_over_a_turn) {
  for (const double offset : {-0.002, 0.0, 0.002}) {
    const TurnGrid grid(geometry::CrankSlider(0.036, 0.065, offset), count);
    double along = 0.0, aside = 0.0, torque = 0.0, size = 0.0, twist = 0.0;
    for (const NodeForces& at : turn_forces(grid, masses, area, {}, 200.0)) {
      along += at.shake.along;
      aside += at.shake.aside;
      torque += at.torque;
      size = std::max(size, at.shake.size());
      twist = std::max(twist, std::abs(at.torque));
    }
    EXPECT_LT(std::abs(along) / count, 1e-10 * size);
    EXPECT_LT(std::abs(aside) / count, 1e-10 * size);
    EXPECT_LT(std::abs(torque) / count, 1e-10 * twist);
  }
}

TEST(turn_forces, the_work_of_the_gas_is_the_work_at_the_crank) {
  const GasTrace gas = some_gas();
  for (const double offset : {-0.002, 0.0, 0.002}) {
    const TurnGrid grid(geometry::CrankSlider(0.036, 0.065, offset), count);
    const auto forces = turn_forces(grid, masses, area, gas, 150.0);
    double by_gas = 0.0, by_crank = 0.0;
    for (std::size_t i = 0; i < forces.size(); ++i) {
      by_gas += area * (gas.cylinder[i] - gas.crankcase[i]) * grid.nodes[i].velocity * grid.step();
      by_crank += forces[i].torque * grid.step();
    }
    EXPECT_GT(by_gas, 10.0) << "the turn gives work";
    EXPECT_NEAR(by_crank, by_gas, 1e-10 * by_gas);
  }
}

TEST(turn_forces, head_wall_and_mains_together_shake_the_saw_as_its_moving_parts_do) {
  const GasTrace gas = some_gas();
  const TurnGrid grid(geometry::CrankSlider(0.036, 0.065, 0.001), count);
  for (const NodeForces& at : turn_forces(grid, masses, area, gas, 150.0)) {
    // The gas lifts the head; the piston leans on the wall, toward the pressed side.
    EXPECT_NEAR(at.gas + at.main.along, at.shake.along, 1e-10 * (std::abs(at.gas) + at.main.size()));
    EXPECT_NEAR(at.main.aside - at.thrust, at.shake.aside, 1e-10 * (std::abs(at.thrust) + at.main.size()));
  }
}

/// The same crank set up by its places in space: `sense` +1 turns toward +x after TDC, the pin runs on x = `line`.
double thrust_in_space(double sense, double line, double angle, double gas, double speed) {
  constexpr double r = 0.018, l = 0.065, h = 1e-4;
  const double phase = std::asin(sense * line / (l + r));
  const auto pin_x = [&](double a) { return sense * r * std::sin(a + phase); };
  const auto pin_y = [&](double a) {
    return r * std::cos(a + phase) + std::sqrt(l * l - std::pow(line - pin_x(a), 2));
  };
  const double omega = 2.0 * pi * speed;
  const double up = (pin_y(angle + h) - 2.0 * pin_y(angle) + pin_y(angle - h)) / (h * h) * omega * omega;
  const double along = gas + masses.reciprocating() * up;
  const double rod_up = pin_y(angle) - r * std::cos(angle + phase), rod_x = line - pin_x(angle);
  // The rod holds the piston up and pushes it sideways; the side pressed on the power stroke is -sense.
  return along * rod_x / rod_up * -sense;
}

TEST(turn_forces, thrust_is_right_for_either_rotation_and_either_offset) {
  constexpr double speed = 150.0, gas = 3000.0;
  for (const double sense : {1.0, -1.0}) {
    for (const double line : {-0.002, 0.0, 0.002}) {
      const double offset = -sense * line;  // toward the pressed side
      geometry::CrankSlider slider(0.036, 0.065, offset);
      // The throw of 18 mm is the drawing's; the stroke that it gives differs by the offset.
      const double stroke =
          std::sqrt(std::pow(0.083, 2) - offset * offset) - std::sqrt(std::pow(0.047, 2) - offset * offset);
      slider = geometry::CrankSlider(stroke, 0.065, offset);
      ASSERT_NEAR(slider.radius(), 0.018, 1e-12);
      const TurnGrid grid(slider, 36);
      const GasTrace flat{std::vector<double>(36, 1e5 + gas / area), std::vector<double>(36, 1e5)};
      const auto forces = turn_forces(grid, masses, area, flat, speed);
      for (std::size_t i = 0; i < forces.size(); ++i)
        EXPECT_NEAR(forces[i].thrust, thrust_in_space(sense, line, grid.nodes[i].angle, gas, speed), 0.05)
            << sense << ' ' << line << ' ' << i;
    }
  }
}

TEST(turn_forces, the_power_stroke_presses_its_own_side) {
  const TurnGrid grid(geometry::CrankSlider(0.036, 0.065), 36);
  const GasTrace gas{std::vector<double>(36, 20e5), std::vector<double>(36, 1e5)};
  const auto slow = turn_forces(grid, masses, area, gas, 5.0);
  EXPECT_GT(slow[5].thrust, 100.0);
  EXPECT_LT(slow[31].thrust, -100.0) << "the compression stroke presses the other";
}

TEST(turn_forces, bearings_turn_once_for_each_turn_and_the_small_end_only_swings) {
  const geometry::CrankSlider slider(0.036, 0.065);
  const TurnGrid grid(slider, count);
  double big = 0.0, small = 0.0;
  for (const TurnGrid::Node& at : grid.nodes) big += at.big_end_turn / count, small += at.small_end_turn / count;
  EXPECT_NEAR(big, 1.0, 1e-12);
  EXPECT_NEAR(small, 4.0 * std::asin(0.018 / 0.065) / (2.0 * pi), 1e-4);
}

TEST(turn_forces, an_uneven_trace_is_met_at_even_angles_across_the_turn_s_start) {
  std::vector<double> angles, cylinder, crankcase;
  for (int i = 0; i < 97; ++i) {
    const double a = 1.7 + 2.0 * pi * (i + 0.3 * std::sin(i)) / 97.0;
    angles.push_back(a);
    cylinder.push_back(3e5 + 1e5 * std::cos(a));
    crankcase.push_back(1e5 + 2e4 * std::sin(a));
  }
  const GasTrace even = even_trace(angles, cylinder, crankcase, 360);
  for (int k = 0; k < 360; ++k) {
    EXPECT_NEAR(even.cylinder[k], 3e5 + 1e5 * std::cos(2.0 * pi * k / 360.0), 250.0);
    EXPECT_NEAR(even.crankcase[k], 1e5 + 2e4 * std::sin(2.0 * pi * k / 360.0), 50.0);
  }
  EXPECT_THROW((void)even_trace(std::vector<double>{0.0}, std::vector<double>{1.0}, std::vector<double>{1.0}, 360),
               std::logic_error);
}

}  // namespace
}  // namespace portwright::bottom_end
