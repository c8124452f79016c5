// Walls between windows, beside pegs and pins, and on the pressed sides, on engines made by hand.
#include <gtest/gtest.h>

#include <memory>
#include <numbers>

#include "geometry/walls.hpp"

namespace portwright::geometry {
namespace {

using std::numbers::pi;
constexpr double bore = 0.05, degree = pi / 180.0, radius = 0.5 * bore;

Port window(PortKind kind, double centre_deg, double roof, double floor, double arc, double corner = 0.0,
            int count = 1) {
  Port port;
  port.kind = kind;
  port.centre = centre_deg * degree;
  port.roof = roof;
  port.floor = floor;
  port.width = chord_of_arc(arc, bore);
  port.corner_roof = port.corner_floor = corner;
  port.count = count;
  rebuild_window(port, bore);
  return port;
}

std::unique_ptr<Engine> engine_with(std::initializer_list<Port> ports) {
  auto engine = std::make_unique<Engine>();
  engine->bore = bore;
  for (const Port& port : ports) engine->ports.add(port);
  return engine;
}

TEST(walls, chord_and_arc_are_inverses) {
  EXPECT_NEAR(chord_of_arc(arc_of_chord(0.028, bore), bore), 0.028, 1e-15);
  EXPECT_GT(arc_of_chord(0.028, bore), 0.028);
}

TEST(walls, the_wall_between_two_upright_windows_is_their_arc_apart) {
  const auto e = engine_with({window(PortKind::exhaust, 0, 0.02, 0.035, 0.020, 0.004),
                              window(PortKind::transfer, 60, 0.028, 0.036, 0.010, 0.002)});
  const Wall wall = least_wall(map_windows(*e));
  EXPECT_NEAR(wall.width, 60 * degree * radius - 0.010 - 0.005, 1e-12);
  EXPECT_EQ(wall.entry + wall.other, 1);
}

TEST(walls, a_mirrored_window_comes_near_from_the_other_side) {
  const auto e = engine_with({window(PortKind::transfer, 150, 0.028, 0.036, 0.010, 0.0, 2)});
  EXPECT_NEAR(least_wall(map_windows(*e)).width, 60 * degree * radius - 0.010, 1e-12);
}

TEST(walls, windows_without_a_common_height_have_no_wall) {
  const auto e =
      engine_with({window(PortKind::exhaust, 0, 0.02, 0.03, 0.020), window(PortKind::intake, 40, 0.04, 0.05, 0.020)});
  EXPECT_EQ(least_wall(map_windows(*e)).entry, -1);
}

TEST(walls, corners_beside_each_other_leave_more_wall_than_the_widest_places) {
  // Common heights are a corner of the upper window and a corner of the lower one.
  const auto e = engine_with({window(PortKind::exhaust, 0, 0.020, 0.030, 0.020, 0.005),
                              window(PortKind::transfer, 60, 0.0295, 0.0395, 0.010, 0.005)});
  EXPECT_GT(least_wall(map_windows(*e)).width, 60 * degree * radius - 0.015 + 0.001);
}

TEST(walls, overlapping_windows_have_a_negative_wall) {
  const auto e = engine_with(
      {window(PortKind::exhaust, 0, 0.02, 0.035, 0.020), window(PortKind::transfer, 30, 0.028, 0.036, 0.010)});
  EXPECT_NEAR(least_wall(map_windows(*e)).width, 30 * degree * radius - 0.015, 1e-12);
}

TEST(walls, a_wall_that_is_held_stays_the_same_wall_when_another_becomes_less) {
  const auto alike = [](double left, double right) {
    return engine_with({window(PortKind::exhaust, 0, 0.02, 0.035, 0.020),
                        window(PortKind::transfer, left, 0.028, 0.036, 0.010),
                        window(PortKind::boost, right, 0.028, 0.036, 0.010)});
  };
  const auto read = alike(60, -61), possible = alike(60.5, -60);
  const Wall held = least_wall(map_windows(*read));
  const WindowMap map = map_windows(*possible);
  EXPECT_NEAR(held.width, 60 * degree * radius - 0.015, 1e-12);
  EXPECT_NEAR(wall_between(map, held).width, 60.5 * degree * radius - 0.015, 1e-12);
  EXPECT_NEAR(least_wall(map).width, 60 * degree * radius - 0.015, 1e-12);
  EXPECT_EQ(wall_between(map, {0.0, 0.0, 0, 0, 7, 0}).entry, -1);
}

TEST(walls, a_wall_that_is_held_is_there_when_the_windows_have_no_common_height) {
  const auto e = engine_with(
      {window(PortKind::exhaust, 0, 0.02, 0.028, 0.020), window(PortKind::transfer, 60, 0.0281, 0.036, 0.010)});
  EXPECT_NEAR(wall_between(map_windows(*e), {0.0, 0.0, 0, 0, 1, 0}).width, 60 * degree * radius - 0.015, 1e-12);
}

TEST(walls, a_strip_that_is_held_to_a_window_counts_it_even_just_beside_its_way) {
  const auto e = engine_with({window(PortKind::exhaust, 0, 0.02, 0.035, 0.020)});
  const WindowMap map = map_windows(*e);
  const Wall held{0.0, 0.0, 0, 0, -1, 0};
  EXPECT_NEAR(strip_wall_to(map, held, 0.018, 0.001, 0.003, 0.04).width, 0.007, 1e-12);
  EXPECT_NEAR(strip_wall_to(map, held, 0.018, 0.001, 0.003, 0.019).width, 0.007, 1e-12);
  EXPECT_NEAR(widest_gap_of(map, held, 0.003, 0.019).width, 0.020, 1e-12);
  EXPECT_EQ(strip_wall_to(map, {0.0, 0.0, 3, 0, -1, 0}, 0.018, 0.001, 0.003, 0.04).entry, -1);
  EXPECT_EQ(widest_gap_of(map, {0.0, 0.0, 0, 1, -1, 0}, 0.003, 0.04).entry, -1);
}

TEST(walls, the_map_waits_for_what_a_port_lacks) {
  auto e = engine_with({window(PortKind::exhaust, 0, 0.02, 0.035, 0.020)});
  e->ports[0].centre = Known::waits_for(5);
  EXPECT_TRUE(map_windows(*e).known.needs().has(5));
}

TEST(walls, a_strip_is_as_far_as_its_nearer_side) {
  const auto e = engine_with({window(PortKind::exhaust, 0, 0.02, 0.035, 0.020)});
  const WindowMap map = map_windows(*e);
  EXPECT_NEAR(strip_wall(map, 0.018, 0.001, 0.003, 0.04).width, 0.007, 1e-12);
  EXPECT_NEAR(strip_wall(map, -0.018, 0.001, 0.003, 0.04).width, 0.007, 1e-12);
  EXPECT_NEAR(strip_wall(map, 0.0, 0.001, 0.003, 0.04).width, -0.011, 1e-12);  // over the window's middle
  EXPECT_EQ(strip_wall(map, 0.018, 0.001, 0.003, 0.019).entry, -1);            // never so low
}

TEST(walls, a_strip_across_the_seam_counts_the_shorter_way) {
  const auto e = engine_with({window(PortKind::intake, 180, 0.02, 0.035, 0.020)});
  const double near = 170 * degree * radius, behind = -170 * degree * radius;
  const WindowMap map = map_windows(*e);
  EXPECT_NEAR(strip_wall(map, near, 0.0, 0.0, 0.04).width, strip_wall(map, behind, 0.0, 0.0, 0.04).width, 1e-12);
}

TEST(walls, a_window_over_the_pressed_side_takes_its_arc_of_a_quarter_turn) {
  const auto e = engine_with({window(PortKind::transfer, 90, 0.028, 0.036, 0.010)});
  const double quarter = 0.25 * pi * bore;
  EXPECT_NEAR(pressed_share(map_windows(*e), 0.5 * pi, 0.0, 0.06).width, 1.0 - 0.010 / quarter, 1e-12);
  EXPECT_NEAR(pressed_share(map_windows(*e), -0.5 * pi, 0.0, 0.06).width, 1.0, 1e-12);
  EXPECT_NEAR(pressed_share_at(map_windows(*e), 0.5 * pi, 0.032), 1.0 - 0.010 / quarter, 1e-12);
  EXPECT_NEAR(pressed_share_at(map_windows(*e), 0.5 * pi, 0.040), 1.0, 1e-12);  // below the floor
}

TEST(walls, half_a_window_in_the_sector_counts_half) {
  const auto e = engine_with({window(PortKind::transfer, 45, 0.028, 0.036, 0.010)});
  const double quarter = 0.25 * pi * bore;
  EXPECT_NEAR(pressed_share(map_windows(*e), 0.0, 0.0, 0.06).width, 1.0 - 0.005 / quarter, 1e-12);
}

TEST(walls, a_bridge_splits_the_gap_under_a_ring) {
  Port port = window(PortKind::exhaust, 0, 0.02, 0.035, 0.030);
  port.bridge = chord_of_arc(0.004, bore);
  port.bridge_at = 0.0;
  rebuild_window(port, bore);
  const auto e = engine_with({port});
  EXPECT_NEAR(widest_gap(map_windows(*e), 0.0, 0.06).width, 0.013, 1e-12);
  EXPECT_NEAR(
      widest_gap(map_windows(*engine_with({window(PortKind::exhaust, 0, 0.02, 0.035, 0.030)})), 0.0, 0.06).width, 0.030,
      1e-12);
}

}  // namespace
}  // namespace portwright::geometry
