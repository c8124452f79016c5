// Chain speeds against published rows.
#include <gtest/gtest.h>

#include "drive/wood.hpp"

namespace portwright::drive {
namespace {

constexpr double inch = 0.0254, rpm = 1.0 / 60.0;

// Own arithmetic on the saw chain's pitch: 2 · pitch · teeth · rpm / 60. To the digit given.
TEST(chain_speed, rows_by_hand) {
  EXPECT_NEAR(chain_speed({0.375 * inch, 7.0}, 10000.0 * rpm), 22.2, 0.05);
  EXPECT_NEAR(chain_speed({0.325 * inch, 7.0}, 10000.0 * rpm), 19.3, 0.05);
}

// A maker's sheet: 66.8 cm3, 4.0 kW, 3/8 in, 7 teeth, 21.7 m/s at peak power and 28.9 m/s at most. The speeds of the
// crank that belong to it, 9,763 and 13,002 rpm, are own arithmetic; to the digit given.
TEST(chain_speed, a_maker_s_sheet) {
  const Chain chain{0.375 * inch, 7.0};
  EXPECT_NEAR(chain_speed(chain, 9763.0 * rpm), 21.7, 0.05);
  EXPECT_NEAR(chain_speed(chain, 13002.0 * rpm), 28.9, 0.05);
  // Peak power and chain speed give the pull: 4,000 W / 21.7 m/s = 184 N before the chain's drag.
  const double torque = 4000.0 / (2.0 * 3.141592653589793 * 9763.0 * rpm);
  EXPECT_NEAR(chain_force(chain, torque, 0.0), 184.3, 0.5);
}

// An abstract on a bench saw: 27.9 cm2/s at 77.8 J/cm2 of kerf on electrical input, chain drag 7 % of input. By hand
// the input is 2,171 W and 72.4 J/cm2 reach the chain; a square centimetre then takes 1 / 27.9 s.
TEST(wood, a_bench_saw_s_rate) {
  const double input = 27.9 * 77.8, energy = 77.8e4 * 0.93;
  EXPECT_NEAR(input, 2171.0, 1.0);
  EXPECT_NEAR(cutting_time(1e-4, energy, 0.93 * input), 1.0 / 27.9, 1e-6);
}

}  // namespace
}  // namespace portwright::drive
