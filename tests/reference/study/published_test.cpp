// Published numbers behind figures of the study: losses, ring flutter, piston speeds, chain speed, units of time-area.
#include <gtest/gtest.h>

#include <numbers>

#include "geometry/passage.hpp"
#include "geometry/rings.hpp"
#include "study/figures.hpp"
#include "study/measure.hpp"
#include "study/rules_of_thumb.hpp"
#include "tables/limits.hpp"

namespace portwright {
namespace {

constexpr double degree = std::numbers::pi / 180.0, foot = 0.3048, inch = 0.0254;

// Mitre bend K (Blevins, quoted in a public library): exact at the rows, a table is copied, not fitted.
TEST(blevins, mitre_bends_have_their_published_loss) {
  const double rows[][2] = {{0, 0},   {10, .025}, {20, .055}, {30, .1},  {40, .2},  {50, .35},
                            {60, .5}, {70, .7},   {80, .9},   {90, 1.1}, {120, 1.5}};
  for (const auto& [deg, loss] : rows) EXPECT_NEAR(geometry::bend_loss(deg * degree), loss, 1e-12) << deg;
  EXPECT_NEAR(geometry::bend_loss(65 * degree), 0.6, 1e-12);
}

// Borda-Carnot K = (1 - A1/A2)^2 and sharp contraction .5 (1 - b^2), b the ratio of diameters (quoted in a public
// library).
TEST(borda_carnot, a_sudden_widening_to_twice_the_area_costs_a_quarter) {
  EXPECT_DOUBLE_EQ(geometry::widening_loss(1.0, 2.0), 0.25);
}

TEST(idelchik, a_sharp_narrowing_to_half_the_diameter) {
  EXPECT_DOUBLE_EQ(geometry::narrowing_loss(4.0, 1.0), 0.5 * (1.0 - 0.25));
}

// Jennings, Two-Stroke Tuner's Handbook (1973): acceleration a ring stands, by its thickness.
TEST(jennings, a_thinner_ring_stands_more_acceleration) {
  const double rows[][2] = {{.125, 40e3}, {.094, 53e3}, {.063, 80e3}, {.047, 106e3}, {.039, 138e3}};
  for (const auto& [height, limit] : rows)
    EXPECT_NEAR(geometry::flutter_acceleration(height * inch) / foot, limit, 1e-6) << height;
  EXPECT_NEAR(geometry::flutter_acceleration(0.055 * inch) / foot, 93e3, 1e-6);  // half way between two rows
}

// Jennings' specific time-areas are in s cm2/cm3; 1 s cm2/cm3 = 100 s/m. Low ends: piston-port intake 0.00014, transfer
// 0.00008, exhaust 0.00014.
TEST(jennings, specific_time_areas_are_held_in_seconds_per_metre) {
  EXPECT_NEAR(*tables::limit("exhaust_time_area")->note, 100.0 * 0.00014, 1e-12);
  EXPECT_NEAR(*tables::limit("transfer_time_area")->note, 100.0 * 0.00008, 1e-12);
  EXPECT_NEAR(*tables::limit("intake_time_area")->note, 100.0 * 0.00014, 1e-12);
}

// Jennings: exhaust chord 70 % of the bore is the limit; trapped ratio from about 6.5 wants a squish chamber.
TEST(jennings, the_exhaust_chord_and_the_trapped_ratio_have_their_published_limits) {
  EXPECT_EQ(*tables::limit("exhaust_width")->stop, 70.0);
  EXPECT_EQ(*tables::limit("trapped_ratio")->note, 6.5);
}

// Jennings 3,500 ft/min; Bell 4,500 ft/min at most. To 0.005 m/s, as the rows are rounded.
TEST(jennings, mean_piston_speeds_in_feet_a_minute) {
  EXPECT_NEAR(*tables::limit("mean_piston_speed")->note, 3500 * foot / 60, 0.005);
  EXPECT_NEAR(*tables::limit("mean_piston_speed_most")->note, 4500 * foot / 60, 0.005);
}

// Jennings: carburettor bore D[mm] = K sqrt(C[l] N[rpm]), K 0.65 to 0.9; one cylinder of 0.0075 l at 20,000 rpm with K
// 0.65 gives 7.96 mm. To half of the last digit printed.
TEST(jennings, the_carburettor_bore_of_a_small_racing_engine) {
  EXPECT_NEAR(1e3 * study::carburettor_bore(0.65, 0.0075e-3, 20000 / 60.0), 7.96, 0.005);
  EXPECT_NEAR(study::carburettor_factor(7.96e-3, 0.0075e-3, 20000 / 60.0), 0.65, 0.0005);
}

// Blair, The Basic Design of Two-Stroke Engines (1990): intake specific time-area [s/m] = (bmep[bar] + 1.528) / 774, as
// read from a fragment. At 3.5 bar, worked by hand: 5.028 / 774 = 0.0064961 s/m.
TEST(blair, the_intakes_specific_time_area_goes_with_the_mean_pressure) {
  EXPECT_NEAR(study::intake_time_area_for(3.5e5), 0.0064961, 5e-8);
  EXPECT_NEAR(study::mean_pressure_of_intake(0.0064961), 3.5e5, 5.0);
  EXPECT_EQ(study::mean_pressure_of_intake(0.0), 0.0);
}

// Both rules on an engine of 60.3 cm3 with a 17 mm venturi at 9,000 rpm, by hand: sqrt(0.0603 x 9000) = 23.296 and 17 /
// 23.296 = 0.7297.
TEST(jennings, the_factor_of_a_saws_venturi_is_a_figure) {
  geometry::Engine engine;
  engine.bore = 48e-3;
  engine.stroke = 33.323e-3;  // 60.3 cm3
  engine.venturi = 17e-3;
  study::Measures out;
  study::measure(engine, 150.0, {}, out);
  EXPECT_NEAR(*out.carburettor_factor, 0.7297, 2e-4);
  EXPECT_EQ(*out.venturi, 17e-3);
}

double chain_speed(double pitch, double teeth, double rpm) {
  geometry::Engine engine;
  engine.chain_pitch = pitch;
  engine.teeth = teeth;
  study::Measures out;
  study::measure(engine, rpm / 60.0, {}, out);
  return *out.chain_speed;
}

// Derived: two pitches a tooth. 3/8 in, 7 teeth, 10,000 rpm 22.2 m/s; .325 in 19.3 m/s; to a rounded tenth.
TEST(chain, two_pitches_pass_for_each_tooth) {
  EXPECT_NEAR(chain_speed(0.375 * inch, 7, 10000), 22.2, 0.05);
  EXPECT_NEAR(chain_speed(0.325 * inch, 7, 10000), 19.3, 0.05);
}

}  // namespace
}  // namespace portwright
