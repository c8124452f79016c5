#include "geometry/crank_slider.hpp"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

namespace portwright::geometry {
namespace {

constexpr double pi = std::numbers::pi;

/// The law as it is written in books, in extended precision.
double drop_by_definition(const CrankSlider& crank, double angle) {
  const long double r = crank.radius(), l = crank.rod(), e = crank.pin_offset();
  const long double phi = angle - std::asin(e / (l + r));
  const long double side = r * std::sin(phi) + e;
  return static_cast<double>(std::sqrt((l + r) * (l + r) - e * e) -
                             (r * std::cos(phi) + std::sqrt(l * l - side * side)));
}

class CrankWithOffset : public testing::TestWithParam<double> {
 protected:
  CrankSlider crank_{0.036, 0.065, GetParam()};
};

INSTANTIATE_TEST_SUITE_P(Offsets, CrankWithOffset, testing::Values(0.0, 0.0005, -0.0005, 0.004, -0.004));

TEST_P(CrankWithOffset, drop_is_exact_at_both_dead_centres) {
  EXPECT_EQ(crank_.drop(0.0), 0.0);
  EXPECT_FALSE(std::signbit(crank_.drop(0.0)));
  EXPECT_EQ(crank_.drop(crank_.bdc()), 0.036);
}

TEST_P(CrankWithOffset, throw_gives_the_stroke_between_the_stretched_and_the_folded_place) {
  const double r = crank_.radius(), l = crank_.rod(), e = crank_.pin_offset();
  EXPECT_NEAR(std::sqrt((l + r) * (l + r) - e * e) - std::sqrt((l - r) * (l - r) - e * e), 0.036, 1e-16);
}

TEST_P(CrankWithOffset, drop_agrees_with_the_law_by_definition) {
  for (int k = 0; k <= 720; ++k)
    EXPECT_NEAR(crank_.drop(k * pi / 360), drop_by_definition(crank_, k * pi / 360), 1e-15 * 36);
}

TEST_P(CrankWithOffset, piston_stands_still_at_both_dead_centres) {
  EXPECT_NEAR(crank_.velocity(0.0), 0.0, 1e-17);
  EXPECT_NEAR(crank_.velocity(crank_.bdc()), 0.0, 1e-17);
}

TEST_P(CrankWithOffset, forward_and_inverse_agree_to_1e_12_of_the_stroke) {
  for (int k = 0; k <= 2000; ++k) {
    const double drop = 0.036 * k / 2000;
    EXPECT_NEAR(crank_.drop(crank_.angle_down(drop)), drop, 1e-12 * 0.036);
    EXPECT_NEAR(crank_.drop(crank_.angle_up(drop)), drop, 1e-12 * 0.036);
  }
}

TEST_P(CrankWithOffset, inverse_keeps_its_digits_close_to_the_dead_centres) {
  for (const double way : {1e-15, 1e-12, 1e-9, 1e-6}) {
    const double angle = crank_.angle_down(way);
    EXPECT_NEAR(crank_.drop(angle) / way, 1.0, 1e-9) << way;
    EXPECT_NEAR(0.5 * crank_.acceleration(0.0) * angle * angle / way, 1.0, 0.02) << way;
  }
}

TEST_P(CrankWithOffset, inverse_is_clamped_to_the_dead_centres) {
  EXPECT_EQ(crank_.angle_down(-0.001), 0.0);
  EXPECT_EQ(crank_.angle_down(0.040), crank_.bdc());
  EXPECT_EQ(crank_.angle_up(0.040), crank_.bdc());
  EXPECT_EQ(crank_.angle_up(-0.001), 2.0 * pi);
}

TEST_P(CrankWithOffset, velocity_and_acceleration_are_the_slopes) {
  const double h = 1e-4;
  for (int k = 0; k < 360; ++k) {
    const double at = k * pi / 180 + 0.003;
    EXPECT_NEAR(crank_.velocity(at), (crank_.drop(at + h) - crank_.drop(at - h)) / (2 * h), 1e-9);
    EXPECT_NEAR(crank_.acceleration(at), (crank_.velocity(at + h) - crank_.velocity(at - h)) / (2 * h), 1e-9);
  }
}

TEST_P(CrankWithOffset, a_turn_more_or_less_makes_no_difference) {
  for (const double angle : {0.3, 2.0, 4.0, 6.0}) {
    EXPECT_NEAR(crank_.drop(angle + 2 * pi), crank_.drop(angle), 1e-16 * 36);
    EXPECT_NEAR(crank_.drop(angle - 2 * pi), crank_.drop(angle), 1e-16 * 36);
  }
}

TEST(crank_slider, throw_is_half_the_stroke_without_offset) {
  const CrankSlider crank(0.036, 0.065);
  EXPECT_DOUBLE_EQ(crank.radius(), 0.018);
  EXPECT_DOUBLE_EQ(crank.bdc(), pi);
}

TEST(crank_slider, an_offset_toward_the_pressed_side_shortens_the_way_down) {
  EXPECT_LT(CrankSlider(0.036, 0.065, 0.001).bdc(), pi);
  EXPECT_GT(CrankSlider(0.036, 0.065, -0.001).bdc(), pi);
}

TEST(crank_slider, an_offset_leans_the_rod_more_on_the_power_stroke) {
  // The side force is the gas force times the tangent of the rod's lean, which is r cos φ tan ψ in the velocity; at the
  // same place of the piston the crank is then earlier on the way down than without offset.
  const CrankSlider plain(0.036, 0.065), offset(0.036, 0.065, 0.001);
  EXPECT_LT(offset.angle_down(0.018), plain.angle_down(0.018));
}

TEST(crank_slider, turning_the_other_way_mirrors_the_offset) {
  const CrankSlider a(0.036, 0.065, 0.002), b(0.036, 0.065, -0.002);
  for (int k = 0; k <= 36; ++k) EXPECT_NEAR(a.drop(k * pi / 18), b.drop(2 * pi - k * pi / 18), 1e-15);
  EXPECT_NEAR(a.angle_down(0.02), 2 * pi - b.angle_up(0.02), 1e-14);
}

TEST(crank_slider, a_very_long_rod_makes_a_sine) {
  const CrankSlider crank(0.036, 1e6);
  for (int k = 0; k <= 36; ++k) EXPECT_NEAR(crank.drop(k * pi / 18), 0.018 * (1 - std::cos(k * pi / 18)), 1e-9);
}

}  // namespace
}  // namespace portwright::geometry
