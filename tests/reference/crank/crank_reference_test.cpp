// Published cases of the crank train. Two-term series in the sources are told apart from the exact motion.

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "geometry/crank_slider.hpp"
#include "geometry/time_area.hpp"

namespace portwright::geometry {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double deg = pi / 180;
constexpr double inch = 0.0254, foot = 0.3048;

struct Motion {
  double velocity, acceleration;
};

Motion exact_motion(double r, double l, double rpm, double angle) {
  const CrankSlider crank(2 * r, l);
  const double w = radians_per_second(rpm / 60);
  return {w * crank.velocity(angle), w * w * crank.acceleration(angle)};
}

/// The two-term series that the book prints.
Motion series_motion(double r, double l, double rpm, double angle) {
  const double w = radians_per_second(rpm / 60), n = l / r;
  return {w * r * (std::sin(angle) + std::sin(2 * angle) / (2 * n)),
          w * w * r * (std::cos(angle) + std::cos(2 * angle) / n)};
}

double angle_without_acceleration(double r, double l) {
  const CrankSlider crank(2 * r, l);
  double low = 60 * deg, high = 90 * deg;
  for (int k = 0; k < 60; ++k) (crank.acceleration(0.5 * (low + high)) > 0 ? low : high) = 0.5 * (low + high);
  return low / deg;
}

// K2: Khurmi & Gupta, Theory of Machines, ex. 15.4: r 0.3 m, l 1.5 m, 180 rpm, 40 deg; seen. Book 4.19 m/s, 85.36 m/s2,
// zero at 79.27 deg by the two-term series. Exact values from own arithmetic, to their printed digits.
TEST(khurmi_gupta_15_4, exact_motion) {
  const Motion exact = exact_motion(0.3, 1.5, 180, 40 * deg);
  EXPECT_NEAR(exact.velocity, 4.196, 0.0005);
  EXPECT_NEAR(exact.acceleration, 85.60, 0.005);
  EXPECT_NEAR(angle_without_acceleration(0.3, 1.5), 79.10, 0.005);
}

TEST(khurmi_gupta_15_4, printed_values_are_the_series_near_the_exact_motion) {
  const Motion series = series_motion(0.3, 1.5, 180, 40 * deg), exact = exact_motion(0.3, 1.5, 180, 40 * deg);
  EXPECT_NEAR(series.velocity, 4.19, 0.006);      // printed to two places, cut off
  EXPECT_NEAR(series.acceleration, 85.36, 0.06);  // worked with 18.85 rad/s
  EXPECT_NEAR(exact.velocity, 4.19, 0.002 * 4.19);
  EXPECT_NEAR(exact.acceleration, 85.36, 0.004 * 85.36);
}

// K3: same, ex. 15.5: r 0.15 m, l 0.6 m, 450 rpm, 60 deg; seen. Book 6.9 m/s, 124.91 m/s2 (series); exact 6.905, 124.95
// (own arithmetic).
TEST(khurmi_gupta_15_5, exact_motion) {
  const Motion exact = exact_motion(0.15, 0.6, 450, 60 * deg);
  EXPECT_NEAR(exact.velocity, 6.905, 0.0005);
  EXPECT_NEAR(exact.acceleration, 124.95, 0.005);
}

TEST(khurmi_gupta_15_5, printed_values_are_close_to_the_exact_motion) {
  const Motion exact = exact_motion(0.15, 0.6, 450, 60 * deg);
  EXPECT_NEAR(exact.velocity, 6.9, 0.05);
  EXPECT_NEAR(exact.acceleration, 124.91, 0.05);
}

// J1: Jennings, Two-Stroke Tuner's Handbook (1973), crank trains: "no less than 135,000 ft/s2" at 11,000 rpm (seen;
// slide rule, 1 %). Stroke 1.969 in and rod/stroke 2.0-2.1 from memory.
TEST(jennings_crank_trains, greatest_piston_acceleration) {
  for (const double ratio : {2.0, 2.05, 2.1}) {
    const CrankSlider crank(1.969 * inch, ratio * 1.969 * inch);
    const double w = radians_per_second(11000.0 / 60);
    EXPECT_NEAR(w * w * crank.acceleration(0.0) / foot, 135000.0, 0.01 * 135000.0) << ratio;
  }
}

// J1, formula from memory: Gmax [ft/s2] = N² L / 2189 (1 + 1 / (2 A)), L stroke in inches, A rod/stroke. At TDC it is
// exact but for its constant, 2188.5 by own arithmetic.
TEST(jennings_crank_trains, formula_is_the_exact_acceleration_at_tdc) {
  for (const double rpm : {6000.0, 9000.0, 13000.0}) {
    const double formula = rpm * rpm * 1.969 / 2189 * (1 + 1 / (2 * 2.0));
    const double w = radians_per_second(rpm / 60);
    EXPECT_NEAR(w * w * CrankSlider(1.969 * inch, 2 * 1.969 * inch).acceleration(0.0) / foot / formula, 2189 / 2188.5,
                2e-5);
  }
}

}  // namespace
}  // namespace portwright::geometry
