#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "gas/discharge.hpp"
#include "gas/isentropic.hpp"
#include "gas/opening.hpp"

namespace portwright::gas {
namespace {

constexpr double R = 287.05;

double exact_flow_number(double r, double gamma) {
  const double at = std::max(r, choking_ratio(gamma));
  return std::sqrt(2.0 * gamma / (gamma - 1.0) * (std::pow(at, 2.0 / gamma) - std::pow(at, (gamma + 1.0) / gamma)));
}

TEST(opening, follows_the_nozzle_of_the_books_outside_the_soft_end) {
  for (double gamma : {1.2, 1.3, 1.4, 1.66})
    for (double r = 0.0; r <= 1.0 - soft_pressure_share; r += 0.0099)
      EXPECT_NEAR(flow_number(r, gamma), exact_flow_number(r, gamma), 1e-13) << r;
}

TEST(opening, flow_rises_with_the_drop_and_stays_when_choked) {
  for (double gamma : {1.2, 1.3, 1.4}) {
    double before = 0.0;
    for (double drop = 1e-9; drop < 1.0 - choking_ratio(gamma); drop *= 1.1) {
      const double now = flow_number(1.0 - drop, gamma);
      EXPECT_GT(now, before) << drop;
      before = now;
    }
    const double choked = flow_number(choking_ratio(gamma), gamma);
    EXPECT_NEAR(flow_number(0.2, gamma), choked, 1e-14);
    EXPECT_EQ(flow_number(0.0, gamma), flow_number(0.2, gamma));
  }
}

double slope(double r, double gamma, double h) {
  return (flow_number(r - h, gamma) - flow_number(r + h, gamma)) / (2.0 * h);
}

TEST(opening, value_and_slope_go_on_through_choking) {
  const double at = choking_ratio(1.35);
  EXPECT_NEAR(flow_number(at - 1e-9, 1.35), flow_number(at + 1e-9, 1.35), 1e-12);
  EXPECT_NEAR(slope(at + 1e-4, 1.35, 1e-5), 0.0, 1e-3);
  EXPECT_EQ(slope(at - 1e-4, 1.35, 1e-5), 0.0);
}

TEST(opening, value_and_slope_go_on_where_the_soft_end_begins) {
  const double at = 1.0 - soft_pressure_share;
  EXPECT_NEAR(flow_number(at - 1e-10, 1.35), flow_number(at + 1e-10, 1.35), 1e-7);
  EXPECT_NEAR(slope(at - 2e-6, 1.35, 1e-6) / slope(at + 2e-6, 1.35, 1e-6), 1.0, 0.01);
}

TEST(opening, is_straight_at_rest_with_a_bounded_slope) {
  const double steepest = 1.25 * std::sqrt(2.0 / soft_pressure_share);
  for (double drop : {1e-10, 1e-8, 1e-6, 1e-5})
    EXPECT_NEAR(flow_number(1.0 - drop, 1.4) / drop, steepest, 0.002 * steepest) << drop;
  EXPECT_EQ(flow_number(1.0, 1.4), 0.0);
  EXPECT_EQ(opening_flow(1e5, 300.0, R, 1.4, 1e-4, 1.2e5), 0.0);
}

TEST(opening, goes_by_area_and_by_the_upstream_gas) {
  const double one = opening_flow(1.5e5, 400.0, R, 1.35, 1e-4, 1e5);
  EXPECT_NEAR(opening_flow(1.5e5, 400.0, R, 1.35, 3e-4, 1e5), 3.0 * one, 1e-15);
  EXPECT_NEAR(opening_flow(1.5e5, 1600.0, R, 1.35, 1e-4, 1e5), 0.5 * one, 1e-15);
  EXPECT_NEAR(opening_flow(3.0e5, 400.0, R, 1.35, 1e-4, 2e5), 2.0 * one, 1e-15);
}

TEST(opening, both_ways_are_one_law_through_zero) {
  const Side hot{1.4e5, 900.0, 290.0, 1.3}, cold{1.0e5, 320.0, R, 1.4};
  EXPECT_EQ(opening_flow_between(hot, cold, 2e-4), opening_flow(1.4e5, 900.0, 290.0, 1.3, 2e-4, 1e5));
  EXPECT_EQ(opening_flow_between(cold, hot, 2e-4), -opening_flow_between(hot, cold, 2e-4));
  Side one = cold, other = cold;
  double before = -1.0;
  for (int step = -50; step <= 50; ++step) {
    one.p = 1e5 + 4.0 * step;
    const double now = opening_flow_between(one, other, 1e-4);
    EXPECT_GT(now, before);
    before = now;
    EXPECT_EQ(now == 0.0, step == 0);
  }
}

TEST(jet_contraction, begins_at_the_incompressible_value_and_rises_to_choking_and_beyond) {
  for (double c : {0.52, 0.6, 0.65, 0.75}) {
    EXPECT_NEAR(jet_contraction(1.0, 1.4, c), c, 1e-5);
    double before = 0.0;
    for (double r = 1.0; r >= 0.0; r -= 0.01) {
      const double now = jet_contraction(r, 1.4, c);
      EXPECT_GT(now, before);
      EXPECT_LT(now, 1.0);
      before = now;
    }
  }
}

TEST(jet_contraction, has_no_kink_at_choking) {
  const double at = choking_ratio(1.4), h = 1e-4;
  const auto c = [](double r) { return jet_contraction(r, 1.4, 0.6); };
  EXPECT_NEAR((c(at + h) - c(at)) / h, (c(at) - c(at - h)) / h, 0.002);
}

TEST(isentropic, mach_number_and_pressure_are_each_others_way_back) {
  for (double gamma : {1.2, 1.4})
    for (double mach = 0.05; mach < 4.0; mach *= 1.3)
      EXPECT_NEAR(mach_of_pressure(isentropic(mach, gamma).pressure, gamma) / mach, 1.0, 1e-12);
}

TEST(normal_shock, keeps_mass_momentum_and_energy) {
  for (double gamma : {1.25, 1.4})
    for (double mach : {1.0, 1.3, 2.2, 5.0}) {
      const NormalShock s = normal_shock(mach, gamma);
      // with rho = p = 1 before: u = mach sqrt(gamma), mass rho u, momentum p + rho u², energy h + u²/2
      const double u0 = mach * std::sqrt(gamma), u1 = s.mach * std::sqrt(gamma * s.temperature);
      EXPECT_NEAR(s.density * u1 / u0, 1.0, 1e-12);
      EXPECT_NEAR((s.pressure + s.density * u1 * u1) / (1.0 + u0 * u0), 1.0, 1e-12);
      const double h = gamma / (gamma - 1.0);
      EXPECT_NEAR((h * s.temperature + 0.5 * u1 * u1) / (h + 0.5 * u0 * u0), 1.0, 1e-12);
    }
}

}  // namespace
}  // namespace portwright::gas
