#include <gtest/gtest.h>

#include <boost/numeric/odeint.hpp>
#include <cmath>
#include <numbers>

#include "heat/fins.hpp"

// Fins and walls against the textbook and against an independent integration.
namespace {

using namespace portwright::heat;
using std::numbers::pi;

// Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, ex. 3.10: an aluminium cylinder H 0.15 m, outer radius 25
// mm, five annular fins 20 mm long and 6 mm thick, k 186 W/m K, h 50 W/m2 K, 500 K in air of 300 K. Published: 690 W
// with the chart's efficiency 0.95, 236 W bare; the exact efficiency by Bessel functions, 0.9786, gives 704.7 W.
constexpr double h = 50.0, k = 186.0, r1 = 0.025, height = 0.15, over = 200.0, length = 0.020, thick = 0.006;
constexpr int fins = 5;
constexpr double corrected = r1 + length + 0.5 * thick;

TEST(incropera, the_exact_efficiency_of_the_cylinders_fins) {
  EXPECT_NEAR(annular_efficiency(fin_parameter(h, k, thick), r1, corrected), 0.9786, 5e-5);
}

TEST(incropera, the_finned_cylinder_gives_704_7_W) {
  const FinRow row{length, height / fins, thick};
  const double bare = h * 2.0 * pi * r1 * height * over;
  EXPECT_NEAR(bare, 236.0, 0.5);
  EXPECT_NEAR(bare * finned_gain(row, r1, h, k), 704.7, 0.05);
}

TEST(incropera, with_the_charts_efficiency_it_gives_the_690_W_of_the_book) {
  const double area = 2.0 * pi * (corrected * corrected - r1 * r1);
  const double rest = 2.0 * pi * r1 * (height - fins * thick);
  EXPECT_NEAR(h * over * (fins * 0.95 * area + rest), 690.0, 1.5);
}

// ex. 3.9: long rods of 5 mm, 100 C in air of 25 C, h 100; k 398, 180, 14: 8.33, 5.60, 1.56 W in the book, which rounds
// on the way; exact 8.310, 5.588, 1.558.
TEST(incropera, long_rods) {
  EXPECT_NEAR(long_rod_heat(100.0, 398.0, 0.005, 75.0), 8.310, 5e-4);
  EXPECT_NEAR(long_rod_heat(100.0, 180.0, 0.005, 75.0), 5.588, 5e-4);
  EXPECT_NEAR(long_rod_heat(100.0, 14.0, 0.005, 75.0), 1.558, 5e-4);
  EXPECT_NEAR(long_rod_heat(100.0, 398.0, 0.005, 75.0) / 8.33, 1.0, 0.003);
}

// Gibson's correlation as Yoshida and others quote it, units from memory: 241.7 (0.0247 - 0.00148 20^0.8/8^0.4)
// 50^0.73, worked by hand: 20^0.8 = 10.986, 8^0.4 = 2.2974, bracket 0.017623, 50^0.73 = 17.389.
TEST(gibson, the_film_worked_by_hand) {
  const auto film = gibson_film({0.020, 0.008, 0.002}, 50.0 / 3.6);
  ASSERT_TRUE(film);
  EXPECT_NEAR(*film, 241.7 * 0.017623 * 17.389, 0.02);
}

TEST(gibson, fins_longer_and_closer_than_it_speaks_of_get_a_sentence) {
  const auto film = gibson_film({0.060, 0.0015, 0.001}, 14.0);
  ASSERT_FALSE(film);
  EXPECT_EQ(film.error().message,
            "Fins 60 mm long at a pitch of 1.5 mm are longer and closer than the correlation for their air speaks of.");
}

// Incropera ex. 7.4: a cylinder of 12.7 mm in air of 10 m/s, film temperature near 350 K: Churchill and Bernstein give
// Nu 40.6 and h 96 W/m2 K (properties at 335 K there; memory).
TEST(incropera, air_across_a_cylinder) { EXPECT_NEAR(crossed_film(0.0127, 10.0, 335.0), 96.0, 4.0); }

// The annulus fin as a differential equation, marched by Boost.Odeint inward from its edge: theta'' + theta'/r = m2
// theta.
double marched_efficiency(double m, double from, double to) {
  using State = std::array<double, 2>;
  State x{1.0, 0.0};  // at the edge: theta, no heat through it
  const auto law = [&](const State& at, State& change, double s) {
    const double r = to - s;  // inward
    change = {-at[1], -(m * m * at[0] - at[1] / r)};
  };
  namespace ode = boost::numeric::odeint;
  ode::integrate_adaptive(ode::make_controlled(1e-13, 1e-13, ode::runge_kutta_dopri5<State>()), law, x, 0.0, to - from,
                          1e-5);
  const double out = -x[1] / x[0] * 2.0 * pi * from;  // per k t theta of the root
  return out / (m * m * pi * (to * to - from * from));
}

TEST(annulus, the_closed_form_is_what_an_independent_integration_finds) {
  for (const double m : {3.0, 27.0, 90.0, 260.0})
    for (const double out : {0.031, 0.048, 0.075})
      EXPECT_NEAR(annular_efficiency(m, 0.030, out) / marched_efficiency(m, 0.030, out), 1.0, 1e-6) << m << ' ' << out;
}

TEST(annulus, a_short_fin_on_a_wide_cylinder_is_a_straight_one) {
  const double m = 27.0, long_ = 0.018, radius = 1e3 * long_;
  EXPECT_NEAR(annular_efficiency(0.02, radius, radius + long_), 1.0, 1e-6);
  EXPECT_NEAR(annular_efficiency(m, 10.0, 10.0 + long_) / straight_efficiency(m, long_), 1.0, 2e-3);
}

TEST(annulus, the_long_fins_end_joins_the_bessel_functions) {
  const double r2 = 0.1, r0 = 0.03;
  const double before = 299.999 / r2, after = 300.001 / r2;
  EXPECT_NEAR(annular_efficiency(before, r0, r2) * before / (annular_efficiency(after, r0, r2) * after), 1.0, 1e-6);
}

}  // namespace
