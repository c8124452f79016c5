#include "heat/cooling.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "unit/heat/warm.hpp"

namespace portwright::heat {
namespace {

std::string told(const Cooling& cooling) {
  const auto checked = check(cooling);
  return checked ? "" : checked.error().front().message;
}

TEST(cooling, without_fins_it_says_what_it_needs_them_for) {
  EXPECT_EQ(told({}), "No fins were read: where they stand round the bore decides where the cylinder runs hot.");
}

TEST(cooling, sectors_that_overlap_get_a_sentence) {
  Cooling c;
  c.sectors = {{0.0, 200 * rad, usual_fins}, {180 * rad, 300 * rad, usual_fins}};
  EXPECT_EQ(told(c),
            "Fins from 0 to 200 deg and from 180 to 300 deg overlap by 20 deg: one place has one row of fins.");
  c.sectors = {{-30 * rad, 30 * rad, usual_fins}, {350 * rad, 380 * rad, usual_fins}};
  EXPECT_THAT(told(c), testing::HasSubstr("overlap by 30 deg"));
}

TEST(cooling, sectors_that_meet_are_sound_and_so_is_a_whole_turn) {
  Cooling c;
  c.sectors = {{0.0, 180 * rad, usual_fins}, {180 * rad, 360 * rad, usual_fins}};
  EXPECT_EQ(told(c), "");
  c.sectors = {{0.0, 360 * rad, usual_fins}};
  EXPECT_EQ(told(c), "");
}

TEST(cooling, fins_without_room_for_air_get_a_sentence) {
  Cooling c;
  c.sectors = {{0.0, 180 * rad, {0.018, 0.003, 0.003}}};
  EXPECT_EQ(told(c), "Fins from 0 to 180 deg are as thick as their pitch, which leaves no room for air.");
}

TEST(cooling, covered_counts_round_the_turn) {
  EXPECT_DOUBLE_EQ(covered(0.0, 10 * rad, 60 * rad, 300 * rad), 0.0);
  EXPECT_DOUBLE_EQ(covered(100 * rad, 110 * rad, 60 * rad, 300 * rad), 1.0);
  EXPECT_NEAR(covered(355 * rad, 360 * rad, -5 * rad, 5 * rad), 1.0, 1e-12);
  EXPECT_NEAR(covered(55 * rad, 65 * rad, 60 * rad, 300 * rad), 0.5, 1e-12);
}

TEST(cooling, a_finned_side_gives_off_several_times_what_a_bare_one_does) {
  const Cooling c = fins_but(-30, 30);
  const Assumptions take = middle_assumptions();
  GasSide gas;
  gas.speed = 150.0;
  gas.day = 293.0;
  const AirSide air(c, take, gas, 0.047, 0.0564);
  const double bare = air.film(-10 * rad, 10 * rad, 1.0), finned = air.film(90 * rad, 100 * rad, 1.0);
  EXPECT_GT(finned, 4.0 * bare);
  EXPECT_DOUBLE_EQ(air.film(90 * rad, 100 * rad, 0.0), bare);
  EXPECT_DOUBLE_EQ(air.finned_film(), finned);
}

TEST(shell, what_windows_take_of_the_wall_is_their_area) {
  const Shell& shell = alder().body.shell;
  double metal = 0.0, windows = 0.0;
  for (const double share : shell.metal) metal += share;
  const double whole = 2.0 * std::numbers::pi * shell.radius * shell.height;
  for (const geometry::Port& port : alder().engine.engine.ports) windows += port.window.area() * port.count;
  EXPECT_NEAR((1.0 - metal / shell.cells()) * whole / windows, 1.0, 2e-3);
}

TEST(shell, each_rim_is_shared_out_whole_and_lies_by_its_window) {
  ASSERT_GE(alder().body.shell.rims.size(), 4u);
  for (const Rim& rim : alder().body.shell.rims) {
    double sum = 0.0;
    for (const RimCell& one : rim.cells) sum += one.share;
    EXPECT_NEAR(sum, 1.0, 1e-12);
  }
}

TEST(assumptions, members_lie_in_their_rows_ranges_and_the_first_is_the_middle) {
  const auto members = ensemble_members(32);
  ASSERT_EQ(members.size(), 32u);
  for (const AssumptionRange& range : assumption_ranges()) {
    EXPECT_EQ(members[0].assumptions.*range.member, range.row->value);
    double low = 1e300, high = -1e300;
    for (const Member& m : members) {
      low = std::min(low, m.assumptions.*range.member);
      high = std::max(high, m.assumptions.*range.member);
    }
    EXPECT_GE(low, range.row->low);
    EXPECT_LE(high, range.row->high);
    EXPECT_GT(high - low, 0.5 * (range.row->high - range.row->low)) << range.row->name;
  }
}

}  // namespace
}  // namespace portwright::heat
