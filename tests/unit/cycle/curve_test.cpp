// Many speeds: order, stopping, scattered turns.
#include <gtest/gtest.h>

#include <time.h>

#include <algorithm>
#include <cmath>

#include "cycle/curve.hpp"
#include "unit/support/sample_engines.hpp"

namespace portwright::cycle {
namespace {

CurvePlan at_speeds(std::vector<double> speeds) {
  CurvePlan plan;
  plan.speeds = std::move(speeds);
  return plan;
}

TEST(run_curve, gives_every_speed_of_the_plan) {
  const Network net = bench::sample_network("alder-60");
  std::vector<double> told;
  const Curve curve = run_curve(net, at_speeds({120.0, 135.0, 150.0}), [&](double share) {
    told.push_back(share);
    return false;
  });
  EXPECT_FALSE(curve.stopped);
  ASSERT_EQ(curve.points.size(), 3u);
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_EQ(curve.points[i].speed, 120.0 + 15.0 * static_cast<double>(i));
    EXPECT_EQ(curve.points[i].label, Label::stable);
    EXPECT_GT(curve.points[i].power, 0.0);
  }
  for (std::size_t i = 1; i < told.size(); ++i) EXPECT_GE(told[i], told[i - 1]);
  EXPECT_LT(told.back(), 1.0);
}

TEST(run_curve, a_neighbour_s_state_does_not_change_the_answer) {
  const Network net = bench::sample_network("alder-60");
  CurvePlan plan = at_speeds({130.0, 150.0});
  plan.both_ways = false;
  const Curve swept = run_curve(net, plan);
  const Curve alone = run_curve(net, at_speeds({150.0}));
  EXPECT_NEAR(swept.points[1].imep / alone.points[0].imep, 1.0, 3e-4);
}

TEST(run_curve, stopped_keeps_what_is_ready) {
  const Network net = bench::sample_network("alder-60");
  const Curve curve = run_curve(net, at_speeds({120.0, 140.0, 160.0}), [](double share) { return share > 0.2; });
  EXPECT_TRUE(curve.stopped);
  EXPECT_GE(curve.points.size(), 1u);
  EXPECT_LE(curve.points.size(), 3u);
  EXPECT_EQ(curve.points[0].speed, 120.0);
}

/// What this thread has computed so far [ms]: other programs on the machine do not count.
double computed() {
  timespec now{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
  return 1e3 * static_cast<double>(now.tv_sec) + 1e-6 * static_cast<double>(now.tv_nsec);
}

/// Longest time from a request, however it falls, to the return [ms]: the longest between two askings and the time from
/// the last one, the `asks`-th, to the return.
double longest_return(const Network& net, const CurvePlan& plan, int asks) {
  double last = computed(), longest = 0.0;
  int asked = 0;
  const Curve curve = run_curve(net, plan, [&](double) {
    const double now = computed();
    longest = std::max(longest, now - last);
    last = now;
    return ++asked >= asks;
  });
  EXPECT_TRUE(curve.stopped);
  EXPECT_EQ(asked, asks) << "once told to stop it asks no more";
  return longest + computed() - last;
}

TEST(run_curve, returns_within_100_ms_of_the_request) {
  for (const char* name : {"alder-60", "larch-70"}) {
    const Network net = bench::sample_network(name);
    CurvePlan plan = at_speeds({1000.0 / 60.0, 75.0, 150.0});
    for (const int scattered : {0, 16})
      for (const int asks : {1, 7, 90}) {
        plan.scattered_turns = scattered;
        EXPECT_LT(longest_return(net, plan, asks), 100.0) << name << " " << scattered << " " << asks;
      }
    plan.speeds = {150.0};
    EXPECT_LT(longest_return(net, plan, 100), 100.0) << name;  // among the scattered turns or those of the proof
  }
}

TEST(run_curve, each_point_takes_no_more_turns_than_it_may) {
  const Network net = bench::sample_network("alder-60");
  CurvePlan plan = at_speeds({100.0, 200.0});
  plan.search.most_turns = 5;
  for (const Point& p : run_curve(net, plan).points) {
    EXPECT_LE(p.turns, 5 + 2 * plan.search.proof_turns);
    EXPECT_TRUE(std::isfinite(p.power));
  }
}

/// Points of a plain curve, 80 rpm apart, with a step of power between two of them.
std::vector<Point> with_step(double step, double apart = 80.0 / 60.0) {
  std::vector<Point> out(21);
  for (std::size_t i = 0; i < out.size(); ++i) {
    const double x = static_cast<double>(i) / 20.0 - 0.5;
    out[i].speed = 150.0 + apart * static_cast<double>(i);
    out[i].power = 2000.0 * (1.0 - 0.1 * x * x) * (i > 12 ? 1.0 - step : 1.0);
    out[i].label = Label::stable;
  }
  return out;
}

std::vector<std::size_t> steep_of(std::vector<Point> points) {
  label_steep(points);
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < points.size(); ++i)
    if (points[i].label == Label::steep) out.push_back(i);
  return out;
}

TEST(label_steep, finds_the_two_points_beside_a_step_and_none_on_a_plain_curve) {
  EXPECT_EQ(steep_of(with_step(0.0)), std::vector<std::size_t>());
  EXPECT_EQ(steep_of(with_step(0.008)), std::vector<std::size_t>());
  EXPECT_EQ(steep_of(with_step(0.02)), (std::vector<std::size_t>{12, 13}));
}

TEST(label_steep, says_nothing_of_points_that_stand_far_apart_or_have_a_label) {
  EXPECT_EQ(steep_of(with_step(0.02, 500.0 / 60.0)), std::vector<std::size_t>());
  std::vector<Point> labelled = with_step(0.02);
  labelled[12].label = Label::alternating;
  EXPECT_EQ(steep_of(labelled), (std::vector<std::size_t>{13}));
}

TEST(second_differences, are_of_the_greatest_power_and_know_uneven_steps) {
  std::vector<Point> line(5);
  for (std::size_t i = 0; i < line.size(); ++i) {
    line[i].speed = 100.0 + static_cast<double>(i * i);
    line[i].power = 10.0 * line[i].speed;
  }
  for (const double bend : second_differences(line)) EXPECT_NEAR(bend, 0.0, 1e-14);
  const std::vector<double> stepped = second_differences(with_step(0.02));
  EXPECT_NEAR(stepped[12], -0.02, 1e-3);
  EXPECT_NEAR(stepped[13], 0.02, 1e-3);
}

/// Net mean effective pressure of the first turn from a state [Pa].
double first_turn(const Network& net, State state) {
  March march(net, 120.0);
  Turn turn = march.empty_turn();
  march.turn(state, turn);
  return net_pressure(net, turn);
}

TEST(carried, to_cells_twice_as_short_gives_nearly_the_settled_turn_at_once) {
  const auto sample = bench::sample_engine("alder-60");
  const Network coarse = bench::network_of(sample, middle_assumptions(), bench::coarse);
  const Network finer = bench::network_of(sample, middle_assumptions(), {0.010, 0.0125, 0.0175});
  State state, cold;
  EXPECT_GT(reach(coarse, 120.0, {}, state).power, 0.0);
  const State there = carried(coarse, state, finer);
  ASSERT_EQ(there.ducts.size(), finer.ducts.size());
  double before = 0.0, after = 0.0;
  for (std::size_t d = 0; d < finer.ducts.size(); ++d) {
    EXPECT_EQ(there.ducts[d].mass.size(), finer.ducts[d].grid.volume.size());
    before += flow::totals(state.ducts[d]).mass;
    after += flow::totals(there.ducts[d]).mass;
  }
  EXPECT_NEAR(after / before, 1.0, 0.02);
  const double settled = reach(finer, 120.0, {}, cold).imep;
  EXPECT_NEAR(first_turn(finer, there) / settled, 1.0, 0.03);
  EXPECT_GT(std::abs(first_turn(finer, March(finer, 120.0).cold()) / settled - 1.0), 0.03) << "from cold it is not so";
  EXPECT_TRUE(carried(coarse, State{}, finer).rooms.empty());
}

TEST(reach, without_proof_finds_the_same_turn_in_fewer) {
  const Network net = bench::coarse_network("alder-60");
  CurvePlan proven, bare;
  bare.proven = false;
  bare.search.tolerance = 1e-4;
  State a, b;
  const Point with = reach(net, 150.0, proven, a), without = reach(net, 150.0, bare, b);
  EXPECT_NEAR(without.imep / with.imep, 1.0, 1e-3);
  EXPECT_LT(without.turns, with.turns);
}

TEST(run_traced, is_the_settled_turn_instant_by_instant) {
  const Network net = bench::sample_network("alder-60");
  const Traced traced = run_traced(net, 150.0, {});
  EXPECT_EQ(traced.point.label, Label::stable);
  double highest = 0.0;
  for (const Instant& now : traced.instants) highest = std::max(highest, now.cylinder);
  EXPECT_NEAR(highest / traced.point.peak_pressure, 1.0, 0.01);
}

TEST(common_draws, come_in_pairs_that_cancel) {
  for (const int turns : {2, 8, 16}) {
    const std::vector<Draw> draws = common_draws(turns);
    ASSERT_EQ(draws.size(), static_cast<std::size_t>(turns));
    Draw sum{0.0, 0.0, 0.0};
    for (std::size_t i = 0; i < draws.size(); i += 2) {
      EXPECT_NEAR(draws[i].burn_angle + draws[i + 1].burn_angle, 2.0, 1e-15);
      EXPECT_NEAR(draws[i].completeness + draws[i + 1].completeness, 2.0, 1e-15);
      EXPECT_NEAR(draws[i].speed + draws[i + 1].speed, 2.0, 1e-15);
    }
    for (const Draw& draw : draws) {
      sum.burn_angle += draw.burn_angle / turns;
      sum.completeness += draw.completeness / turns;
      sum.speed += draw.speed / turns;
    }
    EXPECT_NEAR(sum.burn_angle, 1.0, 1e-15);
    EXPECT_NEAR(sum.completeness, 1.0, 1e-15);
    EXPECT_NEAR(sum.speed, 1.0, 1e-15);
  }
}

TEST(common_draws, scatter_as_much_as_they_say) {
  double angle = 0.0, amount = 0.0, speed = 0.0;
  const std::vector<Draw> draws = common_draws(200);
  for (const Draw& d : draws) {
    angle += std::pow(d.burn_angle - 1.0, 2) / 200.0;
    amount += std::pow(d.completeness - 1.0, 2) / 200.0;
    speed += std::pow(d.speed - 1.0, 2) / 200.0;
  }
  EXPECT_NEAR(std::sqrt(angle), scatter.burn_angle, 0.1 * scatter.burn_angle);
  EXPECT_NEAR(std::sqrt(amount), scatter.completeness, 0.1 * scatter.completeness);
  EXPECT_NEAR(std::sqrt(speed), scatter.speed, 0.1 * scatter.speed);
}

TEST(common_draws, begin_alike_for_any_number) {
  const std::vector<Draw> few = common_draws(4), many = common_draws(16);
  for (std::size_t i = 0; i < few.size(); ++i) EXPECT_EQ(few[i].burn_angle, many[i].burn_angle);
}

TEST(scattered_turns, lie_near_the_repeating_one) {
  const Network net = bench::sample_network("alder-60");
  CurvePlan plan = at_speeds({150.0});
  const double repeating = run_curve(net, plan).points[0].power;
  plan.scattered_turns = 8;
  const Curve mean = run_curve(net, plan);
  EXPECT_NEAR(mean.points[0].power / repeating, 1.0, 0.03);
  EXPECT_NE(mean.points[0].power, repeating);
}

TEST(zero_torque_speed, lies_between_torque_and_none) {
  const Network net = bench::sample_network("alder-60");
  CurvePlan plan;
  plan.search.tolerance = 1e-3;
  plan.search.most_turns = 12;
  plan.search.proof_turns = 2;
  plan.both_ways = false;
  const double found = zero_torque_speed(net, 195.0, 330.0, plan);
  ASSERT_GT(found, 195.0);
  // Swept up as the search does: an engine on the edge of firing has two answers at a speed.
  for (double speed = 195.0; speed < found + 15.0; speed += 15.0) plan.speeds.push_back(speed);
  const Curve swept = run_curve(net, plan);
  EXPECT_LE(swept.points.back().torque, 0.0);
  EXPECT_GT(swept.points[swept.points.size() - 2].torque, 0.0);
  EXPECT_GT(found, swept.points[swept.points.size() - 2].speed);
  EXPECT_LE(found, swept.points.back().speed);
  EXPECT_EQ(zero_torque_speed(net, 100.0, 101.0, plan), 0.0) << "it still pulls there";
}

}  // namespace
}  // namespace portwright::cycle
