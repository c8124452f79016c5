#include "seek/surrogate.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "seek/spread.hpp"

namespace {

using portwright::seek::Design;
using portwright::seek::Surrogate;
using portwright::seek::Walk;

std::vector<Design> points(std::size_t amounts, std::size_t count) {
  Walk walk(amounts, 7);
  std::vector<Design> out;
  while (out.size() < count) out.push_back(walk.next());
  return out;
}

template <class F>
std::vector<double> judged(const std::vector<Design>& at, F&& figure) {
  std::vector<double> out;
  for (const Design& x : at) out.push_back(figure(x));
  return out;
}

double plane(const Design& x) {
  double out = 0.3;
  for (std::size_t j = 0; j < x.size(); ++j) out += (0.5 - 0.2 * static_cast<double>(j)) * x[j];
  return out;
}
double bent(const Design& x) { return std::sin(2.0 * x[0]) + x[1] * x[1] * x[2] - 0.3 * std::exp(x[2]); }

double value(const Surrogate& guess, const Design& x, std::size_t figure = 0) {
  std::vector<double> values(guess.figures());
  guess.at(x, values);
  return values[figure];
}

TEST(surrogate, a_plane_is_followed_exactly_within_and_beyond_the_points) {
  const auto at = points(4, 30);
  for (const double noise : {0.0, 1e-3}) {
    const Surrogate guess(at, {judged(at, plane)}, std::vector{noise});
    for (const Design& x : {Design{0.1, 0.9, 0.4, 0.2}, Design{1.5, -0.5, 2.0, 0.0}})
      EXPECT_NEAR(value(guess, x), plane(x), 1e-10);
  }
}

TEST(surrogate, without_noise_every_point_is_met_of_every_figure) {
  const auto at = points(3, 60);
  const Surrogate guess(at, {judged(at, bent), judged(at, plane)}, std::vector{0.0, 0.0});
  for (const Design& x : at) {
    EXPECT_NEAR(value(guess, x, 0), bent(x), 1e-8);
    EXPECT_NEAR(value(guess, x, 1), plane(x), 1e-8);
  }
}

TEST(surrogate, between_many_points_a_smooth_figure_is_met_closely) {
  const auto at = points(3, 200);
  const Surrogate guess(at, {judged(at, bent)}, std::vector{0.0});
  double worst = 0.0;
  Walk other(3, 99);
  for (int i = 0; i < 200; ++i) {
    Design x = other.next();
    for (double& one : x) one = 0.1 + 0.8 * one;  // edges are extrapolated
    worst = std::max(worst, std::abs(value(guess, x) - bent(x)));
  }
  EXPECT_LT(worst, 0.01);  // of a spread of about 1.5
}

TEST(surrogate, noise_is_passed_within_and_not_followed) {
  const auto at = points(3, 150);
  std::vector<double> figures = judged(at, bent);
  const double noise = 0.05;
  for (std::size_t i = 0; i < figures.size(); ++i) figures[i] += i % 2 == 0 ? noise : -noise;
  const Surrogate calm(at, {figures}, std::vector{noise}), nervous(at, {figures}, std::vector{0.0});
  double off = 0.0, calm_off = 0.0, nervous_off = 0.0;
  Walk other(3, 99);
  for (std::size_t i = 0; i < at.size(); ++i) {
    off += std::pow(value(calm, at[i]) - figures[i], 2);
    Design x = other.next();
    for (double& one : x) one = 0.1 + 0.8 * one;
    calm_off += std::pow(value(calm, x) - bent(x), 2);
    nervous_off += std::pow(value(nervous, x) - bent(x), 2);
  }
  const auto count = static_cast<double>(at.size());
  EXPECT_NEAR(std::sqrt(off / count), noise, 1e-3 * noise);  // as far as allowed, no farther
  EXPECT_LT(calm_off, 0.3 * nervous_off);
  EXPECT_LT(std::sqrt(calm_off / count), 0.5 * noise);
}

TEST(surrogate, slopes_agree_with_differences) {
  const auto at = points(3, 40);
  const Surrogate guess(at, {judged(at, bent), judged(at, plane)}, std::vector{1e-3, 0.0});
  const Design x{0.31, 0.62, 0.47};
  std::vector<double> values(2), slopes(6);
  guess.at(x, values, slopes);
  for (std::size_t k = 0; k < 2; ++k) {
    EXPECT_EQ(values[k], value(guess, x, k));
    for (std::size_t j = 0; j < 3; ++j) {
      Design up = x, down = x;
      up[j] += 1e-5;
      down[j] -= 1e-5;
      EXPECT_NEAR(slopes[k * 3 + j], (value(guess, up, k) - value(guess, down, k)) / 2e-5, 1e-7);
    }
  }
}

TEST(surrogate, points_that_lie_in_a_plane_tell_nothing_off_it) {
  std::vector<Design> at = points(2, 20);
  for (Design& x : at) x.push_back(1.0 - x[0]);
  const Surrogate guess(at, {judged(at, plane)}, std::vector{0.0});
  const Design inside{0.3, 0.4, 0.7}, off{0.3 + 0.1, 0.4, 0.7 + 0.1};
  EXPECT_NEAR(value(guess, inside), plane(inside), 1e-9);
  EXPECT_NEAR(value(guess, off), plane(inside), 1e-9);
}

TEST(surrogate, points_nearly_in_a_plane_do_not_take_rounding_for_a_slope) {
  std::vector<Design> at = points(2, 20);
  for (Design& x : at) x.push_back(0.5 + 1e-7 * std::sin(50.0 * x[0]));
  std::vector<double> figures = judged(at, plane);
  for (std::size_t i = 0; i < figures.size(); ++i) figures[i] += i % 3 == 0 ? 1e-4 : -5e-5;
  const Surrogate guess(at, {figures}, std::vector{1e-4});
  EXPECT_NEAR(value(guess, {0.4, 0.4, 0.6}), plane({0.4, 0.4, 0.5}), 0.01);
}

TEST(surrogate, few_or_coinciding_points_give_finite_guesses) {
  const Surrogate one(std::vector<Design>{{0.5, 0.5}}, {{2.0}}, std::vector{0.0});
  EXPECT_NEAR(value(one, {0.1, 0.9}), 2.0, 1e-12);
  std::vector<Design> at = points(2, 12);
  std::vector<double> figures = judged(at, plane);
  at.push_back(at.front());
  figures.push_back(figures.front() + 0.2);  // two answers at one place
  const Surrogate twice(at, {figures}, std::vector{0.0});
  EXPECT_NEAR(value(twice, at.front()), plane(at.front()) + 0.1, 0.02);
}

}  // namespace
