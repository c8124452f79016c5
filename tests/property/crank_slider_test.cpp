#include <cmath>
#include <numbers>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "geometry/crank_slider.hpp"

namespace portwright::geometry {
namespace {

constexpr double pi = std::numbers::pi;

/// A number between two bounds, in a million steps.
double between(double low, double high) { return low + (high - low) * *rc::gen::inRange(0, 1000001) * 1e-6; }

CrankSlider any_crank() {
  const double stroke = between(0.024, 0.045);
  return {stroke, stroke * between(1.5, 2.1), between(-0.003, 0.003)};
}

TEST(any_crank, forward_and_inverse_agree) {
  EXPECT_TRUE(rc::check([] {
    const CrankSlider crank = any_crank();
    const double drop = between(0.0, crank.stroke());
    RC_ASSERT(std::abs(crank.drop(crank.angle_down(drop)) - drop) <= 1e-12 * crank.stroke());
    RC_ASSERT(std::abs(crank.drop(crank.angle_up(drop)) - drop) <= 1e-12 * crank.stroke());
  }));
}

TEST(any_crank, goes_down_to_bdc_and_up_again) {
  EXPECT_TRUE(rc::check([] {
    const CrankSlider crank = any_crank();
    const double a = between(1e-3, crank.bdc() - 1e-3), b = between(crank.bdc() + 1e-3, 2 * pi - 1e-3);
    RC_ASSERT(crank.velocity(a) > 0.0);
    RC_ASSERT(crank.velocity(b) < 0.0);
    RC_ASSERT(crank.drop(a) > 0.0 && crank.drop(a) < crank.stroke());
  }));
}

TEST(any_crank, passes_a_lower_place_later_on_the_way_down_and_sooner_on_the_way_up) {
  EXPECT_TRUE(rc::check([] {
    const CrankSlider crank = any_crank();
    const double high = between(0.0, crank.stroke() - 1e-5), low = between(high + 1e-6, crank.stroke());
    RC_ASSERT(crank.angle_down(high) < crank.angle_down(low));
    RC_ASSERT(crank.angle_up(low) < crank.angle_up(high));
    RC_ASSERT(crank.angle_down(low) <= crank.bdc() && crank.bdc() <= crank.angle_up(low));
  }));
}

TEST(any_crank, scales_with_its_lengths) {
  EXPECT_TRUE(rc::check([] {
    const CrankSlider crank = any_crank();
    const double k = between(0.1, 10.0), angle = between(0.0, 2 * pi);
    const CrankSlider scaled(k * crank.stroke(), k * crank.rod(), k * crank.pin_offset());
    RC_ASSERT(std::abs(scaled.drop(angle) - k * crank.drop(angle)) <= 1e-13 * scaled.stroke());
    RC_ASSERT(std::abs(scaled.bdc() - crank.bdc()) <= 1e-13);
  }));
}

}  // namespace
}  // namespace portwright::geometry
