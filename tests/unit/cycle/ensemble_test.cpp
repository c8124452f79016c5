// The same engine under many sets of assumptions.
#include <gtest/gtest.h>

#include <cstring>
#include <numeric>

#include "cycle/ensemble.hpp"
#include "unit/support/sample_engines.hpp"

namespace portwright::cycle {
namespace {

EnsemblePlan small_plan(int threads) {
  EnsemblePlan plan;
  plan.members = 4;
  plan.speeds = {150.0};
  plan.run.search.most_turns = 6;  // members need not settle to be the same
  plan.run.search.proof_turns = 2;
  plan.threads = threads;
  plan.fineness = bench::coarse;
  return plan;
}

Ensemble small(int threads) {
  static const bench::SampleEngine sample = bench::sample_engine("alder-60");
  return run_ensemble(sample.engine, sample.survey.needs, small_plan(threads));
}

TEST(ensemble_members, lie_in_the_ranges_half_under_either_law) {
  const std::vector<Assumptions> members = ensemble_members(64);
  ASSERT_EQ(members.size(), 64u);
  int second = 0;
  for (const Assumptions& member : members) {
    for (const AssumptionRange& range : assumption_ranges()) {
      EXPECT_GE(member.*range.member, range.row->low) << range.row->name;
      EXPECT_LE(member.*range.member, range.row->high) << range.row->name;
    }
    second += member.second_law == 1.0 ? 1 : 0;
    EXPECT_TRUE(member.second_law == 0.0 || member.second_law == 1.0);
  }
  EXPECT_EQ(second, 32);
  const Assumptions middle = middle_assumptions();
  EXPECT_EQ(std::memcmp(&members[0], &middle, sizeof middle), 0);
}

TEST(ensemble_members, spread_about_the_middles) {
  const std::vector<Assumptions> members = ensemble_members(64);
  for (const AssumptionRange& range : assumption_ranges()) {
    if (range.member == &Assumptions::second_law) continue;
    double mean = 0.0, low = 1e300, high = -1e300;
    for (const Assumptions& member : members) {
      mean += member.*range.member / 64.0;
      low = std::min(low, member.*range.member);
      high = std::max(high, member.*range.member);
    }
    const double width = range.row->high - range.row->low;
    // Mean of a triangle: the third of its three corners.
    EXPECT_NEAR(mean, (range.row->low + range.row->value + range.row->high) / 3.0, 0.06 * width) << range.row->name;
    EXPECT_GT(high - low, 0.6 * width) << range.row->name;
  }
}

TEST(run_ensemble, gives_the_same_bits_for_one_and_two_threads) {
  const Ensemble one = small(1), two = small(2);
  ASSERT_EQ(one.points.size(), 4u);
  ASSERT_EQ(two.points.size(), 4u);
  for (std::size_t k = 0; k < 4; ++k) {
    ASSERT_EQ(one.points[k].size(), 1u);
    ASSERT_EQ(two.points[k].size(), 1u);
    EXPECT_EQ(one.points[k][0].power, two.points[k][0].power);
    EXPECT_EQ(one.points[k][0].knock, two.points[k][0].knock);
    EXPECT_EQ(one.points[k][0].turns, two.points[k][0].turns);
  }
  EXPECT_NEAR(std::accumulate(one.weight.begin(), one.weight.end(), 0.0), 1.0, 1e-15);
  EXPECT_FALSE(one.stopped);
}

TEST(run_ensembles, find_no_difference_between_an_engine_and_itself) {
  const bench::SampleEngine sample = bench::sample_engine("alder-60");
  EnsemblePlan plan = small_plan(2);
  plan.run.search = {3e-4, 40, 4, 1};
  const geometry::Engine* twice[] = {&sample.engine, &sample.engine};
  const std::vector<Ensemble> both = run_ensembles(twice, sample.survey.needs, plan);
  ASSERT_EQ(both.size(), 2u);
  for (std::size_t k = 0; k < 4; ++k) {
    ASSERT_EQ(both[1].points[k].size(), 1u);
    EXPECT_NEAR(both[1].points[k][0].imep / both[0].points[k][0].imep, 1.0, 3e-4) << k;
  }
}

TEST(run_ensembles, a_set_gives_what_it_gives_alone_and_proven) {
  const bench::SampleEngine sample = bench::sample_engine("alder-60");
  EnsemblePlan plan = small_plan(1);
  plan.run.search = {3e-4, 40, 4, 1};
  const Ensemble found = run_ensemble(sample.engine, sample.survey.needs, plan);
  const Assumptions member = ensemble_members(plan.members)[3];
  const Network net = bench::network_of(sample, member, bench::coarse);
  State cold;
  const Point alone = reach(net, 150.0, {}, cold);
  ASSERT_EQ(found.points[3].size(), 1u);
  EXPECT_NEAR(found.points[3][0].imep / alone.imep, 1.0, 1e-3);
}

TEST(run_ensemble, stops_when_told) {
  const bench::SampleEngine sample = bench::sample_engine("alder-60");
  int asked = 0;
  const Ensemble e =
      run_ensemble(sample.engine, sample.survey.needs, small_plan(1), [&](double) { return ++asked > 8; });
  EXPECT_TRUE(e.stopped);
  EXPECT_EQ(e.points.size(), 4u);
  EXPECT_TRUE(e.points.back().empty());
}

/// An ensemble made by hand: power 3, 4, 5, 6 kW at the second of two speeds.
Ensemble by_hand() {
  Ensemble e;
  for (const double kw : {3.0, 4.0, 5.0, 6.0}) {
    Point a, b;
    a.power = 1000.0;
    b.power = 1000.0 * kw;
    e.points.push_back({a, b});
  }
  e.weight.assign(4, 0.25);
  return e;
}

TEST(weigh_by_power, moves_the_mean_toward_the_reading) {
  EnsemblePlan plan;
  plan.speeds = {100.0, 150.0};
  Ensemble e = by_hand();
  const double before = band(e, &Point::power, 1).mean;
  EXPECT_DOUBLE_EQ(before, 4500.0);
  weigh_by_power(e, plan, 5500.0, 148.0, 0.1);
  EXPECT_NEAR(std::accumulate(e.weight.begin(), e.weight.end(), 0.0), 1.0, 1e-15);
  const double after = band(e, &Point::power, 1).mean;
  EXPECT_GT(after, before);
  EXPECT_NEAR(after, 5500.0, 300.0);
  for (const double w : e.weight) EXPECT_GE(w, 0.0);
}

TEST(weigh_by_power, leaves_the_weights_where_none_comes_near) {
  EnsemblePlan plan;
  plan.speeds = {100.0, 150.0};
  Ensemble e = by_hand();
  weigh_by_power(e, plan, 50000.0, 150.0);
  for (const double w : e.weight) EXPECT_EQ(w, 0.25);
}

TEST(weigh_by_power, gives_a_member_without_an_answer_no_weight) {
  EnsemblePlan plan;
  plan.speeds = {100.0, 150.0};
  Ensemble e = by_hand();
  e.points[2].clear();
  weigh_by_power(e, plan, 5500.0, 150.0, 0.2);
  EXPECT_EQ(e.weight[2], 0.0);
  EXPECT_NEAR(std::accumulate(e.weight.begin(), e.weight.end(), 0.0), 1.0, 1e-15);
}

TEST(change_band, of_an_engine_against_itself_is_nothing) {
  const Ensemble e = by_hand();
  const Band band = change_band(e, e, &Point::power, 1);
  EXPECT_EQ(band.mean, 0.0);
  EXPECT_EQ(band.low, 0.0);
  EXPECT_EQ(band.high, 0.0);
}

TEST(band_of, holds_the_mean_and_counts_weights) {
  const std::vector<double> values{1.0, 2.0, 3.0, 4.0, 100.0};
  const Band even = band_of(values, {0.25, 0.25, 0.25, 0.25, 0.0});
  EXPECT_DOUBLE_EQ(even.mean, 2.5);
  EXPECT_EQ(even.low, 1.0);
  EXPECT_EQ(even.high, 4.0);
  const Band heavy = band_of(values, {0.0, 1.0, 0.0, 0.0, 0.0});
  EXPECT_EQ(heavy.mean, 2.0);
  EXPECT_EQ(heavy.low, 2.0);
  EXPECT_EQ(heavy.high, 2.0);
}

}  // namespace
}  // namespace portwright::cycle
