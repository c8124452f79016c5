// Ring springs against numerical bending, and passage losses put together.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "geometry/passage.hpp"
#include "geometry/rings.hpp"

namespace portwright::geometry {
namespace {

using std::numbers::pi;

TEST(rings, tension_opens_the_ring_by_its_free_gap) {
  // The gap that an even pressure p closes, summed over the bar by Castigliano: M = p h R r (1 + cos), per unit height.
  const RingSpring ring{0.05, 0.0019, 0.00675, 110e9};
  const double p = ring_tension(ring), outer = 0.025, mean = outer - 0.00095, inertia = std::pow(0.0019, 3) / 12.0;
  double gap = 0.0;
  const int steps = 20000;
  for (int k = 0; k < steps; ++k) {
    const double lever = 1.0 + std::cos((k + 0.5) / steps * 2.0 * pi - pi);
    gap += p * outer * mean * lever * mean * lever * mean / (ring.modulus * inertia) * 2.0 * pi / steps;
  }
  EXPECT_NEAR(gap, ring.closing, 1e-9);
}

TEST(rings, tension_agrees_with_the_usual_form) {
  // p = E m / (7.07 d (d / a - 1)^3): from memory, hence the band.
  const double p = ring_tension({0.05, 0.0019, 0.00675, 110e9});
  EXPECT_NEAR(p / (110e9 * 0.00675 / (7.07 * 0.05 * std::pow(0.05 / 0.0019 - 1.0, 3))), 1.0, 0.01);
}

TEST(rings, bow_grows_with_the_fourth_power_of_the_span) {
  EXPECT_NEAR(ring_bow(0.02, 6e5, 110e9, 0.0019) / ring_bow(0.01, 6e5, 110e9, 0.0019), 16.0, 1e-9);
}

TEST(rings, bow_is_that_of_a_clamped_beam) {
  // w = q s^4 / (384 E I), q = p h, I = h a^3 / 12, for a ring 1.5 mm high.
  const double q = 6e5 * 0.0015, inertia = 0.0015 * std::pow(0.0019, 3) / 12.0;
  EXPECT_NEAR(ring_bow(0.03, 6e5, 110e9, 0.0019), q * std::pow(0.03, 4) / (384.0 * 110e9 * inertia), 1e-15);
}

TEST(passage, an_even_passage_costs_its_sharp_entry_alone) {
  EXPECT_NEAR(passage_loss({1e-4, 1e-4, 1e-4, 1e-4}, 0.0), 0.5, 1e-15);
}

TEST(passage, half_the_mouth_costs_four_entries_and_a_widening) {
  EXPECT_NEAR(passage_loss({1e-4, 2e-4, 2e-4, 2e-4}, 0.0), 0.5 * 4.0 + 0.25 * 4.0, 1e-12);
}

TEST(passage, opening_the_mouth_never_costs) {
  double before = 1e9;
  for (double mouth = 0.5e-4; mouth < 2.01e-4; mouth += 0.1e-4) {
    const double loss = passage_loss({mouth, 2e-4, 2e-4, 1.5e-4}, 1.2);
    EXPECT_LT(loss, before);
    before = loss;
  }
}

}  // namespace
}  // namespace portwright::geometry
