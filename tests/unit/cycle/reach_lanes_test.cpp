// Points searched side by side against the same searches one at a time.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

#include "cycle/ensemble.hpp"
#include "cycle/lanes/reach_lanes.hpp"
#include "unit/support/sample_engines.hpp"

namespace portwright::cycle {
namespace {

/// As sets of assumptions are searched; petals with scattered turns.
CurvePlan quick_plan(const std::string& name) {
  CurvePlan plan;
  plan.search = {3e-4, 40, 4, 1};
  if (name == "spruce-92") plan.scattered_turns = 2;
  return plan;
}

/// Some sets of a sample on coarse cells, each at two speeds, from the middles' turn there.
struct Sets {
  std::vector<Network> networks;
  std::vector<LanePoint> points;
};

/// For what does not hang on where the search ends.
constexpr Search brief{1e-2, 8, 2, 1};

Sets sets_of(const std::string& name, int members, const Search& search) {
  const bench::SampleEngine sample = bench::sample_engine(name);
  CurvePlan plan = quick_plan(name);
  plan.search = search;
  Sets out;
  for (const Assumptions& member : ensemble_members(members))
    out.networks.push_back(bench::network_of(sample, member, bench::coarse));
  for (const double speed : {120.0, 150.0}) {
    State middles;
    const Point found = reach(out.networks[0], speed, plan, middles);
    EXPECT_GT(found.turns, 0);
    for (std::size_t k = 1; k < out.networks.size(); ++k) {
      LanePoint point;
      point.network = &out.networks[k];
      point.speed = speed;
      point.plan = plan;
      point.state = carried(out.networks[0], middles, out.networks[k]);
      out.points.push_back(std::move(point));
    }
  }
  return out;
}

std::size_t search_all(std::span<LanePoint> points, int threads, const StopCall& stop = {}) {
  std::atomic<std::size_t> done{0};
  reach_side_by_side(points, threads, stop, done);
  return done;
}

void expect_same_bits(const LanePoint& a, const LanePoint& b) {
  EXPECT_EQ(a.reached, b.reached);
  EXPECT_EQ(a.point.power, b.point.power);
  EXPECT_EQ(a.point.knock, b.point.knock);
  EXPECT_EQ(a.point.error, b.point.error);
  EXPECT_EQ(a.point.multiplier, b.point.multiplier);
  EXPECT_EQ(a.point.turns, b.point.turns);
  EXPECT_EQ(a.state.rooms[0].energy, b.state.rooms[0].energy);
}

TEST(course, that_waits_for_its_turns_takes_the_same_way) {
  const Network net = bench::coarse_network("alder-60");
  const CurvePlan plan = quick_plan("alder-60");
  State at_once, waited;
  const Point found = reach(net, 150.0, plan, at_once);
  Point point;
  Turner turner(true);
  Course course = reaching(turner, net, 150.0, plan, waited, {}, point);
  course.go();
  int turns = 0;
  for (; !course.done(); ++turns) {
    const LaneTurn& asked = turner.asked();
    asked.march->turn(*asked.state, *asked.sums, asked.draw);
    turner.go_on();
  }
  course.rethrow();
  EXPECT_EQ(turns, found.turns);
  EXPECT_EQ(point.power, found.power);
  EXPECT_EQ(point.error, found.error);
  EXPECT_EQ(waited.rooms[0].energy, at_once.rooms[0].energy);
}

Course throws_after(Turner& turner, March& march, State& state, Turn& sums) {
  co_await turner.turn(march, state, sums);
  throw std::runtime_error("told");
}

TEST(course, hands_on_what_is_thrown_in_it) {
  const Network net = bench::coarse_network("alder-60");
  March march(net, 150.0);
  State state = march.cold();
  Turn sums = march.empty_turn();
  Turner alone;
  EXPECT_THROW(throws_after(alone, march, state, sums).finish(), std::runtime_error);
}

TEST(points_side_by_side, are_those_of_the_same_search_one_at_a_time) {
  for (const std::string name : {"alder-60", "spruce-92"}) {
    SCOPED_TRACE(name);
    Sets sets = sets_of(name, 5, quick_plan(name).search);
    std::vector<LanePoint> one = sets.points;
    EXPECT_EQ(search_all(sets.points, 2), sets.points.size());
    int stable = 0;
    for (std::size_t n = 0; n < one.size(); ++n) {
      const Point& beside = sets.points[n].point;
      const Point alone = reach(*one[n].network, one[n].speed, one[n].plan, one[n].state);
      EXPECT_TRUE(sets.points[n].reached);
      EXPECT_EQ(beside.label, alone.label) << n;
      if (beside.label != Label::stable || alone.label != Label::stable) continue;
      ++stable;
      EXPECT_LE(std::abs(beside.imep / alone.imep - 1.0), std::max(beside.error, alone.error)) << n;
      EXPECT_NEAR(beside.power / alone.power, 1.0, 1e-3) << n;
    }
    EXPECT_GE(stable, 5);
  }
}

TEST(points_side_by_side, are_the_same_bits_for_any_threads_and_in_any_order) {
  Sets sets = sets_of("alder-60", 6, brief);
  std::vector<LanePoint> two = sets.points, turned = sets.points;
  std::reverse(turned.begin(), turned.end());
  search_all(sets.points, 1);
  search_all(two, 2);
  search_all(turned, 1);
  for (std::size_t n = 0; n < two.size(); ++n) {
    expect_same_bits(sets.points[n], two[n]);
    expect_same_bits(sets.points[n], turned[two.size() - 1 - n]);
  }
}

TEST(points_side_by_side, of_several_patterns_each_find_their_own) {
  Sets alder = sets_of("alder-60", 3, brief), spruce = sets_of("spruce-92", 2, brief);
  std::vector<LanePoint> all = alder.points;
  ASSERT_LT(spruce.points.size(), fewest_side_by_side);
  all.insert(all.begin() + 1, spruce.points.begin(), spruce.points.end());
  EXPECT_EQ(search_all(all, 1), all.size());
  search_all(alder.points, 1);
  expect_same_bits(all[0], alder.points[0]);
  expect_same_bits(all[5], alder.points[3]);
  // Two of a pattern go one at a time.
  LanePoint& alone = spruce.points[0];
  alone.point = reach(*alone.network, alone.speed, alone.plan, alone.state);
  alone.reached = true;
  expect_same_bits(all[1], alone);
}

TEST(points_side_by_side, stop_when_told_and_keep_what_is_there) {
  Sets sets = sets_of("alder-60", 6, brief);
  std::vector<LanePoint> at_once = sets.points;
  EXPECT_EQ(search_all(at_once, 2, {[](void*) { return true; }, nullptr}), 0u);
  for (const LanePoint& point : at_once) EXPECT_FALSE(point.reached);

  std::atomic<std::size_t> done{0};
  reach_side_by_side(sets.points, 1,
                     {[](void* self) { return *static_cast<std::atomic<std::size_t>*>(self) >= 2; }, &done}, done);
  const auto reached =
      std::count_if(sets.points.begin(), sets.points.end(), [](const LanePoint& p) { return p.reached; });
  EXPECT_GE(reached, 1);
  EXPECT_LT(reached, static_cast<std::ptrdiff_t>(sets.points.size()));
}

}  // namespace
}  // namespace portwright::cycle
