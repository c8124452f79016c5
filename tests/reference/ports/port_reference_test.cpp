// Published and worked cases of ports and time.

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "geometry/time_area.hpp"
#include "numerics/quadrature.hpp"

namespace portwright::geometry {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double deg = pi / 180;
constexpr double mm = 1e-3;

// J6: Jennings, Two-Stroke Tuner's Handbook (1973): T = 60/N x angle/360; 90 deg at 10,000 rpm last 0.0015 s; seen.
TEST(jennings_ports, a_quarter_turn_at_10000_rpm_lasts_1_5_ms) {
  EXPECT_NEAR(90 * deg / radians_per_second(10000.0 / 60), 0.0015, 1e-15);
  // and a window of constant area gives that time times its area: open from 45 deg before to 45 deg after BDC
  WindowShape shape{.roof = 1 * mm, .floor = 2 * mm, .width = 20 * mm};
  const Window window = Window::from_shape(shape, 50 * mm);
  const double time_area =
      angle_area(CrankSlider(36 * mm, 65 * mm), window, OpenedBy::crown, 0.0, 135 * deg, 225 * deg) /
      radians_per_second(10000.0 / 60);
  EXPECT_NEAR(time_area, 0.0015 * window.area(), 1e-12 * window.area());
}

// AA: a 40 mm wide window that opens 1 mm per degree for 30 deg: 18,000 mm2 deg, not the 36,000 of total area times
// total angle. Set-up seen, result own arithmetic.
class FortyByThirty : public testing::Test {
 protected:
  static constexpr double bore = 60.0;  // the row's unit is the millimetre
  static Window window(double scale) {
    WindowShape shape{.roof = 0.0, .floor = 30.0 * scale, .width = bore * std::sin(40.0 / bore)};
    return Window::from_shape(shape, bore);
  }
};

TEST_F(FortyByThirty, open_area_adds_up_to_18000_square_millimetre_degrees) {
  const Window whole = window(1.0);
  EXPECT_NEAR(numerics::integrate<4>([&](double degrees) { return whole.area_above(1.0 * degrees); }, 0.0, 30.0),
              18000.0, 1e-8);
  EXPECT_NEAR(whole.area() * 30.0, 36000.0, 1e-8);
}

TEST_F(FortyByThirty, a_crank_that_moves_evenly_gives_the_same_share) {
  // At a quarter turn a crank with a very long rod moves the crown evenly, r per radian: r = 180/π mm makes 1 mm per
  // degree. The window is taken a thousandth as high, so that the motion is even while it opens.
  const double r = 180 / pi, scale = 1e-3;
  const CrankSlider crank(2 * r, 1e7);
  const Window low = window(scale).moved_down(crank.drop(90 * deg));
  const double from = crank.angle_down(low.roof()), to = crank.angle_down(low.floor());
  EXPECT_NEAR((to - from) / deg, 30.0 * scale, 1e-6);
  const double got = angle_area(crank, low, OpenedBy::crown, 0.0, from, to) / deg;
  EXPECT_NEAR(got / (scale * scale), 18000.0, 1.0);
}

// What dropping the cylinder 0.5 mm does: own arithmetic, exact; agreed to 0.006 deg.
struct DropRow {
  double stroke, rod;                          ///< [mm]
  double exhaust, transfer, intake, blowdown;  ///< moves of edges at 104 and 122 deg after, 75 deg before TDC [deg]
};

class CylinderDroppedHalfMillimetre : public testing::TestWithParam<DropRow> {};

INSTANTIATE_TEST_SUITE_P(Saws, CylinderDroppedHalfMillimetre,
                         testing::Values(DropRow{30, 52, 2.146, 2.734, 1.835, 0.59},
                                         DropRow{34, 60, 1.888, 2.397, 1.621, 0.51},
                                         DropRow{36, 64, 1.781, 2.258, 1.532, 0.48},
                                         DropRow{40, 70, 1.603, 2.035, 1.377, 0.43}));

TEST_P(CylinderDroppedHalfMillimetre, moves_every_edge_by_its_degrees) {
  const DropRow row = GetParam();
  const CrankSlider crank(row.stroke * mm, row.rod * mm);
  const auto later = [&](double opens) { return crank.angle_down(crank.drop(opens * deg) + 0.5 * mm) / deg - opens; };
  const double intake = (360.0 - 75.0) - crank.angle_up(crank.drop((360.0 - 75.0) * deg) + 0.5 * mm) / deg;
  EXPECT_NEAR(later(104), row.exhaust, 0.006);
  EXPECT_NEAR(later(122), row.transfer, 0.006);
  EXPECT_NEAR(intake, row.intake, 0.006);
  EXPECT_NEAR(later(122) - later(104), row.blowdown, 0.006);
}

TEST_P(CylinderDroppedHalfMillimetre, moves_windows_by_the_same_degrees) {
  const DropRow row = GetParam();
  const CrankSlider crank(row.stroke * mm, row.rod * mm);
  WindowShape shape{.roof = crank.drop(104 * deg), .floor = row.stroke * mm, .width = 25 * mm};
  const Window before = Window::from_shape(shape, 50 * mm), after = before.moved_down(0.5 * mm);
  EXPECT_NEAR((crank.angle_down(after.roof()) - crank.angle_down(before.roof())) / deg, row.exhaust, 0.006);
  EXPECT_LT(angle_area(crank, after, OpenedBy::crown, 0.0), angle_area(crank, before, OpenedBy::crown, 0.0));
}

// The same cut on 36 mm stroke and 65 mm rod: 103 -> 104.76, 121 -> 123.21, 75 -> 76.53 deg; own arithmetic, exact to
// the printed place.
TEST(cylinder_dropped_half_millimetre, on_a_65_mm_rod) {
  const CrankSlider crank(36 * mm, 65 * mm);
  const auto opens = [&](double angle) { return crank.angle_down(crank.drop(angle * deg) + 0.5 * mm) / deg; };
  EXPECT_NEAR(opens(103), 104.76, 0.006);
  EXPECT_NEAR(opens(121), 123.21, 0.006);
  EXPECT_NEAR(360 - crank.angle_up(crank.drop(285 * deg) + 0.5 * mm) / deg, 76.53, 0.006);
}

}  // namespace
}  // namespace portwright::geometry
