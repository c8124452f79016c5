// Volumes: plug hole, dome caps, the chamber built from parts, ratios.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "geometry/engine.hpp"
#include "geometry/volumes.hpp"

namespace portwright::geometry {
namespace {

using std::numbers::pi;

TEST(volumes, a_plug_hole_is_a_cylinder) {
  // Common practice, no source: the hole of a 14 mm plug holds 1.5 to 2.9 cm3 (9.5 and 19 mm reach).
  EXPECT_NEAR(*plug_hole(14e-3, 9.5e-3) * 1e6, 1.46, 0.005);
  EXPECT_NEAR(*plug_hole(14e-3, 19e-3) * 1e6, 2.92, 0.005);
}

TEST(volumes, a_cap_over_the_whole_base_is_the_dome) {
  EXPECT_NEAR(cap_height(0.025, 0.025, 0.002), 0.002, 1e-15);
  EXPECT_NEAR(cap_height(0.025, 0.025, -0.002), -0.002, 1e-15);
  EXPECT_EQ(cap_height(0.025, 0.02, 0.0), 0.0);
}

TEST(volumes, half_a_ball_is_two_thirds_pi_r_cubed) {
  EXPECT_NEAR(cap_volume(0.01, 0.01), 2.0 / 3.0 * pi * 1e-6, 1e-18);
}

TEST(volumes, a_cap_is_the_integral_of_its_discs) {
  const double outer = 0.025, inner = 0.019, dome = 0.003;
  const double radius = (outer * outer + dome * dome) / (2.0 * dome);
  const double height = cap_height(outer, inner, dome);
  double sum = 0.0;
  const int slices = 200000;
  for (int k = 0; k < slices; ++k) {
    const double z = (k + 0.5) / slices * height;  // below the pole
    sum += pi * (2.0 * radius * z - z * z) * height / slices;
  }
  EXPECT_NEAR(cap_volume(inner, height) / sum, 1.0, 1e-9);
}

TEST(volumes, a_flat_chamber_is_disc_and_bowl) {
  const Known built = built_chamber(0.05, 0.001, 0.006, 5e-6, 0.0, 0.3e-6);
  EXPECT_NEAR(*built, 0.25 * pi * 0.0025 * 0.001 + 5.3e-6, 1e-15);
}

TEST(volumes, a_chamber_names_every_part_it_waits_for) {
  const Known built = built_chamber(0.05, Known::waits_for(3), 0.006, Known::waits_for(7), 0.002, 0.0);
  EXPECT_TRUE(built.needs().has(3));
  EXPECT_TRUE(built.needs().has(7));
}

TEST(volumes, the_case_loses_the_swept_volume_on_the_way_down) {
  Engine engine;
  engine.bore = 0.05;
  engine.stroke = 0.036;
  engine.case_at_tdc = 250e-6;
  const double swept = 0.25 * pi * 0.0025 * 0.036;
  EXPECT_NEAR(*case_ratio(engine), 250e-6 / (250e-6 - swept), 1e-12);
}

}  // namespace
}  // namespace portwright::geometry
