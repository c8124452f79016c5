// The bottom end against books: source, inputs, published value and tolerance beside each row.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "bottom_end/balance.hpp"
#include "bottom_end/ladder.hpp"

namespace portwright::bottom_end {
namespace {

constexpr double inch = 0.0254, foot = 0.3048;

Machine bare(double stroke, double ratio) {
  Machine out;
  out.bore = 0.05;
  out.stroke = stroke;
  out.slider = geometry::CrankSlider(stroke, ratio * stroke);
  out.parts = parts_of({}, 0.05, 0.036).value();
  return out;
}

// Jennings, Two-Stroke Tuner's Handbook (1973), crank trains: 11,000 rpm, stroke 1.969 in (memory), rod/stroke 2.0 to
// 2.1: "no less than 135,000 ft/s2". A slide rule's 1 %.
TEST(jennings, greatest_acceleration_of_the_piston) {
  const Bench bench(bare(1.969 * inch, 2.05), 360);
  const Question question{1.0, 11000.0 / 60.0, usual_duty()};
  const Numbers now = bench.numbers(question, Draws::middle(bench.machine().parts, nullptr));
  EXPECT_NEAR(now.free.acceleration / foot, 135000.0, 0.01 * 135000.0);
  // His formula, from memory: N² L / 2189 (1 + 1 / (2 A)), L in inches.
  const double formula = 11000.0 * 11000.0 * 1.969 / 2189.0 * (1.0 + 1.0 / 4.1);
  EXPECT_NEAR(now.free.acceleration / foot, formula, 0.001 * formula);
}

// The same book, rings: acceleration that a ring stands before it flutters, by its thickness; straight between the
// rows. 1 % of a slide rule.
TEST(jennings, acceleration_at_which_rings_flutter) {
  const Bench bench(bare(0.036, 1.8), 360);
  const auto stands = [&](double inches) {
    const Question question{1.0, bench.speed_at_flutter(inches * inch), usual_duty()};
    return bench.numbers(question, Draws::middle(bench.machine().parts, nullptr)).free.acceleration / foot;
  };
  const double rows[][2] = {{0.125, 40e3}, {0.094, 53e3}, {0.063, 80e3}, {0.047, 106e3}, {0.039, 138e3}};
  for (const auto& row : rows) EXPECT_NEAR(stands(row[0]), row[1], 0.01 * row[1]) << row[0];
  EXPECT_NEAR(stands(0.0785), 66500.0, 0.01 * 66500.0);
  EXPECT_NEAR(stands(0.055), 93000.0, 0.01 * 93000.0);
}

// Mean piston speed: Jennings 3,500 ft/min; Bell 3,800 to start with, 4,500 at most (quoted).
TEST(mean_piston_speed, published_limits_in_feet_a_minute) {
  EXPECT_NEAR(speed_to_last, 3500.0 * foot / 60.0, 1e-3);
  EXPECT_NEAR(speed_to_start, 3800.0 * foot / 60.0, 1e-3);
  EXPECT_NEAR(speed_at_most, 4500.0 * foot / 60.0, 1e-3);
  const Bench bench(bare(0.036, 1.8), 72);
  EXPECT_NEAR(60.0 * bench.speed_at_piston_speed(speed_at_most), 19050.0, 1.0);  // by hand: 22.86 / .072 · 60
}

// Bevan, Theory of Machines, ex. 5 p. 500: rotating 180 lb, reciprocating 150 lb, half of it balanced, crank 7.5 in,
// 300 rpm, balance at 6 in: 318.8 lb, and 1436 lb unbalanced (g 32.2 ft/s2; his rounding, 0.1 %).
TEST(bevan, balance_mass_and_unbalanced_force) {
  const Rotor rotor{180.0, 150.0, 0.5};
  EXPECT_NEAR(balance_mass(rotor, 7.5, 6.0), 318.8, 0.06);
  for (const double angle : {0.0, 0.7, 2.0}) {
    const double poundals = primary_shaking(rotor, 7.5 / 12.0, 5.0, angle);
    EXPECT_NEAR(poundals / 32.2, 1436.0, 1.5) << "half balanced, the force turns without changing size";
  }
}

// The primary force of the turn's own arithmetic with a long rod is Bevan's.
TEST(bevan, a_turn_with_a_long_rod_shakes_as_the_primary_force_says) {
  const Masses masses{0.110, 0.040, 0.060, 0.060};
  const TurnGrid grid(geometry::CrankSlider(0.036, 36.0), 72);
  const auto forces = turn_forces(grid, masses, 0.002, {}, 150.0);
  const Rotor rotor{0.060, 0.150, 0.4};
  for (std::size_t i = 0; i < forces.size(); ++i)
    EXPECT_NEAR(forces[i].shake.size(), primary_shaking(rotor, 0.018, 150.0, grid.nodes[i].angle), 2.5) << i;
}

// ISO 281 (memory, sure): L10 = (C/P)^(10/3) million turns for rollers, (C/P)^3 for balls. By hand: C/P = 4 gives
// 4^3 = 64 and 4^(10/3) = 2^(20/3) = 101.594; at 9,000 rpm 64 million turns last 64e6 / 9000 / 60 = 118.519 h.
TEST(iso281, basic_rating_life_by_hand) {
  EXPECT_NEAR(basic_life(14e3, 3.5e3, Rolling::ball), 64.0, 1e-9);
  EXPECT_NEAR(basic_life(14e3, 3.5e3, Rolling::needle), 101.594, 1e-3);
  EXPECT_NEAR(basic_life(14e3, 3.5e3, Rolling::roller), 101.594, 1e-3);
  const std::vector<double> load(8, 3.5e3), turns(8, 1.0);
  const DutyPart steady[] = {{load, turns, 150.0, 1.0}};
  EXPECT_NEAR(life_hours(14e3, Rolling::ball, steady), 118.519, 1e-3);
}

// A duty by hand, balls, C 10 kN: half the time 2 kN at 100 rev/s, half 4 kN at 50 rev/s. Wear a second, of a million
// turns: (100 · 0.2^3 + 50 · 0.4^3) / 2 = 2.0; so 1e6 / 2.0 s = 138.889 h.
TEST(iso281, a_duty_of_two_parts_by_hand) {
  const std::vector<double> light(4, 2e3), heavy(4, 4e3), turns(4, 1.0);
  const DutyPart duty[] = {{light, turns, 100.0, 0.5}, {heavy, turns, 50.0, 0.5}};
  EXPECT_NEAR(life_hours(10e3, Rolling::ball, duty), 138.889, 1e-3);
  // Over one turn half at 2, half at 4 kN: ((8 + 64) / 2)^(1/3) = 3.30193 kN.
  EXPECT_NEAR(equivalent_load(std::vector<double>{2e3, 4e3}, std::vector<double>{1.0, 1.0}, Rolling::ball), 3301.93,
              0.01);
}

}  // namespace
}  // namespace portwright::bottom_end
