#include <cmath>
#include <numbers>
#include <numeric>

#include <gtest/gtest.h>

#include "flow/losses.hpp"
#include "flow/profile.hpp"

namespace portwright::flow {
namespace {

double sum(const std::vector<double>& v) { return std::accumulate(v.begin(), v.end(), 0.0); }
double disc(double bore) { return 0.25 * std::numbers::pi * bore * bore; }

// A cone's volume and mantle by the school formulas.
TEST(make_grid, volume_and_wall_of_a_cone_are_exact_on_any_cells) {
  const double from = 0.020, to = 0.034, length = 0.090;
  const double volume = std::numbers::pi / 12.0 * length * (from * from + from * to + to * to);
  const double wall = 0.5 * std::numbers::pi * (from + to) * std::hypot(length, 0.5 * (to - from));
  for (const double cell : {0.2, 0.03, 0.007, 0.001}) {
    const Station stations[] = {{0.0, disc(from)}, {length, disc(to)}};
    const Grid grid = make_grid(stations, cell);
    EXPECT_NEAR(sum(grid.volume), volume, 1e-13 * volume);
    EXPECT_NEAR(sum(grid.wall), wall, 1e-12 * wall);
    EXPECT_NEAR(sum(grid.length), length, 1e-15);
    EXPECT_EQ(grid.area.size(), grid.length.size() + 1);
    EXPECT_DOUBLE_EQ(grid.area.front(), disc(from));
    EXPECT_DOUBLE_EQ(grid.area.back(), disc(to));
  }
}

TEST(make_grid, every_face_of_a_cone_has_the_cones_own_area) {
  const Station stations[] = {{0.0, disc(0.020)}, {0.1, disc(0.030)}};
  const Grid grid = make_grid(stations, 0.01);
  ASSERT_EQ(grid.cells(), 10);
  for (std::size_t i = 0; i <= 10; ++i) EXPECT_NEAR(grid.area[i], disc(0.020 + 0.001 * static_cast<double>(i)), 1e-15);
}

TEST(make_grid, a_throat_is_a_face_of_exactly_its_area) {
  const double throat = disc(0.0137);
  const Station stations[] = {{0.0, disc(0.022)}, {0.0213, throat}, {0.0291, throat}, {0.071, disc(0.020)}};
  for (const double cell : {0.011, 0.005, 0.0023}) {
    const Grid grid = make_grid(stations, cell);
    double place = 0.0;
    int found = 0;
    for (std::size_t i = 0; i < grid.area.size(); ++i) {
      if (std::abs(place - 0.0213) < 1e-12 || std::abs(place - 0.0291) < 1e-12) {
        EXPECT_EQ(grid.area[i], throat);
        ++found;
      }
      EXPECT_GE(grid.area[i], throat * (1.0 - 1e-14));
      if (i < grid.length.size()) place += grid.length[i];
    }
    EXPECT_EQ(found, 2);
  }
}

TEST(make_grid, cells_are_near_the_length_asked_for_and_a_stretch_has_at_least_one) {
  const Station stations[] = {{0.0, 1e-4}, {0.001, 2e-4}, {0.051, 2e-4}};
  const Grid grid = make_grid(stations, 0.005);
  ASSERT_EQ(grid.cells(), 11);
  EXPECT_DOUBLE_EQ(grid.length[0], 0.001);
  for (std::size_t i = 1; i < 11; ++i) EXPECT_NEAR(grid.length[i], 0.005, 1e-15);
}

TEST(make_grid, a_step_has_the_narrower_face_and_both_full_volumes) {
  const Station out[] = {{0.0, 1e-4}, {0.05, 1e-4}, {0.05, 3e-4}, {0.10, 3e-4}};
  const Station in[] = {{0.0, 3e-4}, {0.05, 3e-4}, {0.05, 1e-4}, {0.10, 1e-4}};
  for (const auto& stations : {out, in}) {
    const Grid grid = make_grid(std::span(stations, 4), 0.01);
    ASSERT_EQ(grid.cells(), 10);
    EXPECT_DOUBLE_EQ(grid.area[5], 1e-4);
    EXPECT_NEAR(sum(grid.volume), 0.05 * 4e-4, 1e-18);
  }
}

TEST(make_grid, equal_ducts_side_by_side_count_in_areas_and_not_in_bore) {
  const Station stations[] = {{0.0, 1e-4}, {0.05, 2e-4}};
  const Grid one = make_grid(stations, 0.01), two = make_grid(stations, 0.01, 2.0);
  for (std::size_t i = 0; i < 5; ++i) {
    EXPECT_DOUBLE_EQ(two.volume[i], 2.0 * one.volume[i]);
    EXPECT_DOUBLE_EQ(two.wall[i], 2.0 * one.wall[i]);
    EXPECT_DOUBLE_EQ(two.bore[i], one.bore[i]);
    EXPECT_DOUBLE_EQ(two.kinetic[i], one.kinetic[i]);
  }
  EXPECT_DOUBLE_EQ(two.area[3], 2.0 * one.area[3]);
}

// Of one mass flow m through a cone of one density: the integral of 1/2 m^2 / (rho A) over that of its mean speed.
TEST(make_grid, kinetic_share_is_the_integral_over_the_cone) {
  const Station stations[] = {{0.0, 1e-4}, {0.03, 2.5e-4}};
  const Grid grid = make_grid(stations, 1.0);
  const int n = 20000;
  double inverse = 0.0, area = 0.0;
  for (int i = 0; i < n; ++i) {
    const double side = 0.01 + (std::sqrt(2.5e-4) - 0.01) * (i + 0.5) / n;
    inverse += 1.0 / (side * side) / n;
    area += side * side / n;
  }
  EXPECT_NEAR(grid.kinetic[0], inverse * area, 1e-7);
  EXPECT_GT(grid.kinetic[0], 1.05);
}

TEST(make_grid, broken_stations_are_refused) {
  const Station back[] = {{0.0, 1e-4}, {-0.05, 2e-4}}, shut[] = {{0.0, 1e-4}, {0.05, 0.0}},
                point[] = {{0.0, 1e-4}, {0.0, 2e-4}};
  EXPECT_THROW((void)make_grid(back, 0.01), std::logic_error);
  EXPECT_THROW((void)make_grid(shut, 0.01), std::logic_error);
  EXPECT_THROW((void)make_grid(point, 0.01), std::logic_error);
  EXPECT_THROW((void)make_grid(std::span(back, 1), 0.01), std::logic_error);
}

TEST(cell_at, is_the_cell_that_holds_the_place) {
  const Station stations[] = {{0.0, 1e-4}, {0.05, 2e-4}};
  const Grid grid = make_grid(stations, 0.01);
  EXPECT_EQ(cell_at(grid, -1.0), 0);
  EXPECT_EQ(cell_at(grid, 0.025), 2);
  EXPECT_EQ(cell_at(grid, 1.0), 4);
}

// Rounded entrance by Idelchik, as quoted in a public library; seen.
TEST(loss_entrance, rows_of_the_handbook) {
  const double at[] = {0, .01, .02, .03, .04, .05, .06, .08, .12, .16, .20};
  const double K[] = {.5, .44, .37, .31, .26, .22, .20, .15, .09, .06, .03};
  for (int i = 0; i < 11; ++i) EXPECT_DOUBLE_EQ(loss_entrance(at[i]), K[i]);
  EXPECT_NEAR(loss_entrance(0.10), 0.12, 1e-12);
  EXPECT_DOUBLE_EQ(loss_entrance(1.0), 0.03);
  EXPECT_DOUBLE_EQ(loss_entrance(-1.0), 0.5);
}

// Borda-Carnot K = (1 - A1/A2)^2 on the narrow stream's speed; seen. On the wide one's it is (A2/A1 - 1)^2.
TEST(loss_mouth, is_borda_carnot_from_the_contracted_stream) {
  for (const double open : {0.3, 0.5, 0.8, 1.0})
    for (const double discharge : {0.6, 0.8, 1.0}) {
      const double narrow = discharge * open, borda = std::pow(1.0 - narrow, 2.0);
      EXPECT_NEAR(loss_mouth(1.0, open, discharge), borda / (narrow * narrow), 1e-12);
    }
  EXPECT_EQ(loss_mouth(1.0, 1.0, 1.0), 0.0);
  EXPECT_EQ(loss_mouth(1.0, 2.0, 1.0), 0.0);
}

}  // namespace
}  // namespace portwright::flow
