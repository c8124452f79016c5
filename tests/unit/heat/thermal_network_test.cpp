#include "heat/thermal_network.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "heat/fins.hpp"
#include "heat/shell.hpp"

namespace portwright::heat {
namespace {

using std::numbers::pi;

TEST(thermal_network, a_slab_between_two_films_has_the_textbooks_heat) {
  // 1/h1 + L/k + 1/h2, own arithmetic; 20 cells.
  const double h1 = 900.0, h2 = 60.0, k = 140.0, length = 0.02, hot = 1200.0, cold = 300.0;
  ThermalNetwork net;
  constexpr int cells = 20;
  const double half = 2.0 * k * cells / length;
  for (int i = 0; i < cells; ++i) net.add();
  for (int i = 0; i + 1 < cells; ++i) net.couple(i, i + 1, 0.5 * half);
  const int warm = net.to_bath(0, 1.0 / (1.0 / h1 + 1.0 / half), hot);
  net.to_bath(cells - 1, 1.0 / (1.0 / h2 + 1.0 / half), cold);
  const auto T = net.steady();
  ASSERT_TRUE(T);
  const double exact = (hot - cold) / (1.0 / h1 + length / k + 1.0 / h2);
  EXPECT_NEAR(-net.to_bath_heat(warm, *T) / exact, 1.0, 1e-6);
  EXPECT_LT(std::abs(net.balance(*T).residual()), 1e-10);
}

TEST(thermal_network, a_round_wall_is_two_halves_in_a_row) {
  const double whole = round_wall(140.0, 0.025, 0.031);
  const double halves = 1.0 / (1.0 / round_wall(140.0, 0.025, 0.028) + 1.0 / round_wall(140.0, 0.028, 0.031));
  EXPECT_NEAR(halves / whole, 1.0, 1e-12);
  EXPECT_NEAR(whole, 140.0 / std::log(0.031 / 0.025), 1e-9);
}

TEST(thermal_network, a_rod_in_air_cools_as_the_textbooks_fin) {
  // theta = cosh m(L - x) / cosh mL with an insulated end, @source{incropera_dewitt}, eq. 3.75; 2,000 cells, second
  // order.
  const double k = 180.0, h = 100.0, d = 0.005, length = 0.06;
  const double area = 0.25 * pi * d * d, perimeter = pi * d;
  constexpr int cells = 2000;
  const double dx = length / cells;
  ThermalNetwork net;
  for (int i = 0; i < cells; ++i) {
    net.add();
    net.to_bath(i, h * perimeter * dx, 298.0);
  }
  for (int i = 0; i + 1 < cells; ++i) net.couple(i, i + 1, k * area / dx);
  const int root = net.to_bath(0, 2.0 * k * area / dx, 373.0);
  const auto T = net.steady();
  ASSERT_TRUE(T);
  const double m = std::sqrt(h * perimeter / (k * area));
  const double exact = std::sqrt(h * perimeter * k * area) * 75.0 * std::tanh(m * length);
  EXPECT_NEAR(-net.to_bath_heat(root, *T) / exact, 1.0, 1e-6);
}

TEST(thermal_network, a_part_that_nothing_holds_is_a_fault_in_words) {
  ThermalNetwork net;
  net.add();
  const int loose = net.add();
  net.to_bath(0, 1.0, 300.0);
  net.source(loose, 1.0);
  const auto T = net.steady();
  ASSERT_FALSE(T);
  EXPECT_EQ(T.error().message, "A part of the cylinder has nowhere to give its heat to.");
}

TEST(thermal_network, a_lump_cools_by_its_exponential) {
  // exp(-t G/C), halved steps halve the error of the implicit march: first order.
  const double exact = std::exp(-1.0);
  double error[2];
  for (int i = 0; i < 2; ++i) {
    ThermalNetwork net;
    net.add(100.0);
    net.to_bath(0, 1.0, 0.0);
    std::vector<double> T{1.0};
    const int steps = 200 << i;
    const ThermalNetwork::March march(net, 100.0 / steps);
    for (int k = 0; k < steps; ++k) march.step(T);
    error[i] = std::abs(T[0] - exact);
  }
  EXPECT_NEAR(error[0] / error[1], 2.0, 0.02);
}

/// Greatest error of a wall with T = 400 + 30 cos(2 a) cos(pi y / H) heated by what that field asks for.
double manufactured_error(int around, int rows) {
  const double radius = 0.025, height = 0.06;
  const WallMetal metal{140.0, 0.005, 0.0};
  const double middle = radius + 0.5 * metal.thickness, film = 400.0, air = 320.0;
  const Shell shell = plain_shell(radius, height, around, rows);
  ThermalNetwork net;
  const std::vector<int> node = lay(net, shell, metal);
  const double area = middle * shell.column_angle() * shell.row_height();
  const auto field = [&](int row, int column) {
    return 400.0 + 30.0 * std::cos(2.0 * shell.angle(column)) * std::cos(pi * shell.drop(row) / height);
  };
  const double bend = 4.0 / (middle * middle) + pi * pi / (height * height);
  for (int row = 0; row < rows; ++row)
    for (int column = 0; column < around; ++column) {
      const int i = node[static_cast<std::size_t>(shell.cell(row, column))];
      const double T = field(row, column);
      net.to_bath(i, film * area, air);
      net.source(i, area * (metal.conductivity * metal.thickness * bend * (T - 400.0) + film * (T - air)));
    }
  const auto T = net.steady();
  EXPECT_TRUE(T);
  double worst = 0.0;
  for (int row = 0; row < rows; ++row)
    for (int column = 0; column < around; ++column) {
      const int i = node[static_cast<std::size_t>(shell.cell(row, column))];
      worst = std::max(worst, std::abs((*T)[static_cast<std::size_t>(i)] - field(row, column)));
    }
  return worst;
}

TEST(shell, a_manufactured_field_is_met_at_second_order) {
  const double coarse = manufactured_error(18, 7), middle = manufactured_error(36, 14),
               fine = manufactured_error(72, 28);
  EXPECT_GT(std::log2(coarse / middle), 1.9);
  EXPECT_GT(std::log2(middle / fine), 1.9);
  EXPECT_LT(fine, 0.1);  // of the 30 K that the field bends by
}

}  // namespace
}  // namespace portwright::heat
