// Squish gas by conservation of mass, held against the same balance taken numerically.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "geometry/squish.hpp"

namespace portwright::geometry {
namespace {

using std::numbers::pi;

const CrankSlider crank(0.036, 0.065);
const SquishGap gap{0.05, 0.006, 0.0009, 8.9e-6};

TEST(squish, the_band_is_a_ring_of_the_bore) {
  EXPECT_NEAR(band_share(0.05, 0.006), 1.0 - 38.0 * 38.0 / 2500.0, 1e-15);
}

TEST(squish, velocity_is_the_mass_that_leaves_the_band) {
  // Mass in the band at density m / V; its loss goes through the inner cylinder.
  const double omega = 800.0, angle = 2.0 * pi - 0.3, step = 1e-6;
  const double area = 0.25 * pi * 0.0025, band = area * band_share(0.05, 0.006);
  const auto share = [&](double a) {
    return band * (gap.clearance + crank.drop(a)) / (gap.chamber + area * crank.drop(a));
  };
  const double lost =
      -(share(angle + step) - share(angle - step)) / (2.0 * step) * omega;  // of the whole mass a second
  const double volume = gap.chamber + area * crank.drop(angle);
  const double through = pi * 0.038 * (gap.clearance + crank.drop(angle));
  EXPECT_NEAR(squish_velocity(crank, gap, angle, omega), lost * volume / through, 1e-6);
}

TEST(squish, the_peak_is_the_greatest_of_a_fine_search) {
  double most = 0.0, at = 0.0;
  for (double before = 0.0; before < 1.5; before += 1e-5) {
    const double v = squish_velocity(crank, gap, 2.0 * pi - before, 900.0);
    if (v > most) most = v, at = before;
  }
  const SquishPeak peak = squish_peak(crank, gap, 900.0);
  EXPECT_NEAR(peak.velocity, most, 1e-7 * most);
  EXPECT_NEAR(peak.angle, at, 2e-5);
}

TEST(squish, tighter_is_faster_and_nearer_to_tdc) {
  SquishGap tight = gap;
  tight.clearance = 0.0005;
  EXPECT_GT(squish_peak(crank, tight, 900.0).velocity, squish_peak(crank, gap, 900.0).velocity);
  EXPECT_LT(squish_peak(crank, tight, 900.0).angle, squish_peak(crank, gap, 900.0).angle);
}

TEST(squish, twice_the_speed_is_twice_the_velocity) {
  EXPECT_NEAR(squish_peak(crank, gap, 1800.0).velocity / squish_peak(crank, gap, 900.0).velocity, 2.0, 1e-9);
}

}  // namespace
}  // namespace portwright::geometry
