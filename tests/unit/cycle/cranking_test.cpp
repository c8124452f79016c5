// The compression gauge.
#include <gtest/gtest.h>

#include <cmath>

#include "cycle/cranking.hpp"
#include "unit/support/sample_engines.hpp"

namespace portwright::cycle {
namespace {

TEST(crank, the_gauge_only_rises_and_ends_where_the_trapped_ratio_says) {
  const Network net = bench::coarse_network("alder-60");
  const CrankPlan plan;
  const Cranked cranked = crank(net, plan);
  ASSERT_GE(cranked.gauge.size(), 4u);
  for (std::size_t i = 1; i < cranked.gauge.size(); ++i) EXPECT_GE(cranked.gauge[i], cranked.gauge[i - 1]);
  EXPECT_GT(cranked.gauge[0], 0.2 * cranked.reading);
  EXPECT_LT(cranked.gauge[0], cranked.gauge[1]);
  EXPECT_EQ(cranked.reading, cranked.gauge.back());
  // Shut in at the day's pressure: no more than isentropic, no less than a cold and leaking 1.05 (own bounds).
  const double small = net.chamber + plan.gauge_volume;
  const double ratio = (small + net.piston_area * net.slider.drop(net.start)) / small;
  EXPECT_LT(cranked.reading + net.day.p, net.day.p * std::pow(ratio, 1.41));
  EXPECT_GT(cranked.reading + net.day.p, net.day.p * std::pow(ratio, 1.05));
  EXPECT_GE(cranked.peak * 1.001, cranked.reading + net.day.p);
}

TEST(crank, a_larger_leak_reads_less) {
  Network net = bench::coarse_network("alder-60");
  CrankPlan plan;
  plan.strokes = 5;
  double last = 1e9;
  for (const double area : {0.0, 1.5e-6}) {
    net.assumptions.leak_area = area;
    const double reading = crank(net, plan).reading;
    EXPECT_LT(reading, last) << area;
    last = reading;
  }
}

TEST(crank, a_larger_gauge_reads_less) {
  const Network net = bench::coarse_network("alder-60");
  CrankPlan plan;
  plan.strokes = 5;
  double last = 1e9;
  for (const double volume : {1e-6, 5e-6}) {
    plan.gauge_volume = volume;
    const double reading = crank(net, plan).reading;
    EXPECT_LT(reading, 0.97 * last) << volume;
    last = reading;
  }
}

TEST(crank, stops_when_told_and_keeps_its_strokes) {
  const Network net = bench::coarse_network("alder-60");
  int asked = 0;
  const Cranked cranked = crank(net, {}, [&](double) { return ++asked > 20; });
  EXPECT_LT(cranked.gauge.size(), 3u);
  EXPECT_LE(asked, 21) << "once told to stop it asks no more";
}

TEST(with_gauge, is_cold_and_does_not_fire) {
  const Network net = bench::coarse_network("alder-60");
  const Network cold = with_gauge(net, {});
  EXPECT_FALSE(cold.fires);
  EXPECT_EQ(cold.rooms.size(), net.rooms.size() + 1);
  for (const Room& room : cold.rooms)
    if (room.film > 0.0) {
      EXPECT_EQ(room.wall_temperature, net.day.T);
    }
  for (const flow::Duct& duct : cold.ducts) EXPECT_EQ(duct.wall_temperature, net.day.T);
  EXPECT_TRUE(net.fires) << "the engine itself is not touched";
}

}  // namespace
}  // namespace portwright::cycle
