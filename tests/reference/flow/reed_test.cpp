// Petals as beams: frequencies and bending from the text-books. The first frequencies are own arithmetic on the
// published wave number 1.8751 (cantilever); moduli and densities are makers' sheets (laminate) and memory (spring
// steel).
#include "flow/reed.hpp"

#include <cmath>

#include <gtest/gtest.h>

namespace portwright::flow {
namespace {

ReedShape petal(double length, double thickness, double modulus, double density) {
  ReedShape s;
  s.petals = 1;
  s.length = length;
  s.width = 0.02;
  s.thickness = thickness;
  s.modulus = modulus;
  s.density = density;
  s.window_length = length;
  s.window_width = 0.02;
  s.stop_lift = 10.0;
  s.loss_ratio = 0.0;
  return s;
}

TEST(reed_frequency, steel_and_laminate_petals_ring_as_cantilevers) {
  EXPECT_NEAR(frequency(make_reed(petal(0.025, 0.15e-3, 207e9, 7800.0)), 0), 199.7, 0.1);
  EXPECT_NEAR(frequency(make_reed(petal(0.030, 0.40e-3, 18.6e9, 1820.0)), 0), 229.5, 0.1);
}

TEST(reed_frequency, overtones_stand_as_the_squares_of_the_wave_numbers) {
  const Reed reed = make_reed(petal(0.030, 0.40e-3, 18.6e9, 1820.0));
  EXPECT_NEAR(frequency(reed, 1) / frequency(reed, 0), std::pow(4.6941 / 1.8751, 2), 1e-3);
  EXPECT_NEAR(frequency(reed, 2) / frequency(reed, 0), std::pow(7.8548 / 1.8751, 2), 1e-3);
}

TEST(reed_frequency, the_stepped_motion_has_the_same_frequency) {
  const Reed reed = make_reed(petal(0.025, 0.15e-3, 207e9, 7800.0));
  ReedState state;
  const double push = 500.0, held = push * reed.sweep[0] / reed.stiffness[0];
  for (std::size_t k = 0; k < reed_modes; ++k) state.q[k] = push * reed.sweep[k] / reed.stiffness[k];
  state.q[0] = held * 1.2;
  double last = state.q[0] - held, t = 0.0, first = 0.0;
  int crossings = 0;
  const double dt = 1e-6;
  while (crossings < 21) {
    step(reed, state, push, dt);
    t += dt;
    const double now = state.q[0] - held;
    if (last * now < 0.0 && crossings++ == 0) first = t;
    last = now;
  }
  EXPECT_NEAR(10.0 / (t - first), 199.7, 0.4);
}

TEST(reed_bending, an_even_pressure_bends_the_tip_by_the_beam_formula) {
  // q L^4 / 8 E I; three modes hold all of it but 0.1 %.
  const ReedShape s = petal(0.030, 0.40e-3, 18.6e9, 1820.0);
  const Reed reed = make_reed(s);
  const double push = 2000.0, inertia = s.width * std::pow(s.thickness, 3) / 12.0;
  double tip = 0.0;
  for (std::size_t k = 0; k < reed_modes; ++k) tip += reed.tip[k] * push * reed.sweep[k] / reed.stiffness[k];
  const double formula = push * s.width * std::pow(s.length, 4) / (8.0 * s.modulus * inertia);
  EXPECT_NEAR(tip, formula, 1e-3 * formula);
}

}  // namespace
}  // namespace portwright::flow
