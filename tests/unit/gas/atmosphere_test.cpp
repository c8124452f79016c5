#include <cmath>

#include <gtest/gtest.h>

#include "gas/atmosphere.hpp"
#include "gas/mixture.hpp"

namespace portwright::gas {
namespace {

TEST(atmosphere, pressure_falls_as_the_weight_of_the_air_says) {
  for (double h : {0.0, 700.0, 3000.0}) {
    const double fall = (standard_atmosphere(h - 0.5).pressure - standard_atmosphere(h + 0.5).pressure);
    EXPECT_NEAR(fall / (standard_atmosphere(h).density * 9.80665), 1.0, 0.002);
  }
}

TEST(atmosphere, dry_air_of_the_mixture_weighs_what_the_standard_says) {
  EXPECT_NEAR(101325.0 / (gas_constant(moist_air(0.0)) * 288.15), standard_atmosphere(0.0).density, 1e-4);
}

TEST(humidity, is_nothing_in_dry_air_and_small_on_a_usual_day) {
  EXPECT_EQ(humidity_ratio(0.0, 293.15, 101325.0), 0.0);
  // 20 deg C, one half: about 7.3 g/kg on any psychrometric chart; memory
  EXPECT_NEAR(humidity_ratio(0.5, 293.15, 101325.0), 7.3e-3, 0.1e-3);
  EXPECT_LT(humidity_ratio(1.0, 400.0, 101325.0), 0.1);
}

// Water boils at 100 deg C and has 2.34 kPa at 20 deg C; memory.
TEST(humidity, saturation_is_that_of_water) {
  EXPECT_NEAR(saturation_pressure(293.15), 2339.0, 10.0);
  EXPECT_NEAR(saturation_pressure(273.16), 611.7, 1.0);
  EXPECT_NEAR(saturation_pressure(373.15) / 101325.0, 1.0, 0.03);
}

TEST(humidity, moist_air_is_lighter_by_its_vapour) {
  const double w = humidity_ratio(0.8, 303.15, 1e5);
  const Mixture air = moist_air(w);
  EXPECT_NEAR(mass(air) / mass(moist_air(0.0)), 1.0 + w, 1e-12);
  double moles = 0.0;
  for (double one : air.moles) moles += one;
  EXPECT_NEAR(air[Kind::H2O] / moles, 0.8 * saturation_pressure(303.15) / 1e5, 1e-4);
  EXPECT_NEAR(dry_pressure(0.8, 303.15, 1e5), 1e5 - 0.8 * saturation_pressure(303.15), 1e-9);
}

TEST(correction, thin_and_hot_air_is_made_good) {
  for (const auto factor : {correction_j1349, correction_iso1585}) {
    EXPECT_NEAR(factor(99000.0, 298.0), 1.0, 1e-12);
    EXPECT_GT(factor(90000.0, 298.0), 1.05);
    EXPECT_GT(factor(99000.0, 313.0), 1.01);
    EXPECT_LT(factor(101325.0, 288.0), 1.0);
  }
}

}  // namespace
}  // namespace portwright::gas
