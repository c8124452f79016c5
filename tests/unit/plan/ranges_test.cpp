#include "plan/ranges.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "numerics/statistics.hpp"
#include "study/drawn.hpp"
#include "unit/plan/plan_saws.hpp"

namespace portwright::plan {
namespace {

constexpr int drawn = 24;

Settings few_samples() {
  Settings settings;
  settings.study.samples = drawn;
  settings.chance = 0.49;  // limits out of the way: what is asked here is the wishes' own
  return settings;
}

/// A cut without its amount.
std::string place(const cuts::Cut& cut) { return std::to_string(static_cast<int>(cut.act)) + cut.port + cut.side; }

std::string places(const cuts::CutList& list) {
  std::string out;
  for (const cuts::Cut& cut : list) out += place(cut) + " ";
  return out;
}

/// Ranges of a way's amounts by planning anew on every sampled saw and taking the way with the same cuts.
std::map<std::string, double> by_planning_anew(const geometry::Survey& survey, const std::string& wishes,
                                               const Way& way, const Settings& settings, std::size_t& planned) {
  std::map<std::string, std::vector<double>> amounts;
  planned = 0;
  for (const std::vector<double>& values : study::drawn_values(survey, drawn)) {
    geometry::Survey other = survey;
    for (std::size_t i = 0; i < values.size(); ++i) other.inputs[i].value = values[i];
    const auto plan = bench::planned(other, wishes, settings);
    if (!plan) continue;
    for (const Way& one : plan->ways)
      if (places(one.exact) == places(way.exact)) {
        ++planned;
        for (const cuts::Cut& cut : one.exact) amounts[place(cut)].push_back(cut.amount);
      }
  }
  std::map<std::string, double> out;
  if (planned < 16) return out;
  for (auto& [at, all] : amounts) {
    const auto range = numerics::RangeEstimator(static_cast<int>(all.size())).central95(all);
    out[at] = 0.5 * (range.high - range.low);
  }
  return out;
}

void expect_as_planned_anew(const char* saw, const char* wishes, std::size_t way_number = 0) {
  const geometry::Survey survey = bench::sample_survey(saw);
  const Settings settings = few_samples();
  const auto plan = bench::planned(survey, wishes, settings);
  ASSERT_TRUE(plan) << plan.error().front().message;
  const Way& way = plan->ways.at(way_number);
  ASSERT_EQ(way.within.size(), way.exact.size());
  std::size_t planned = 0;
  const auto anew = by_planning_anew(survey, wishes, way, settings, planned);
  ASSERT_EQ(planned, static_cast<std::size_t>(drawn)) << wishes << ": every sample has this way";
  for (std::size_t k = 0; k < way.exact.size(); ++k) {
    if (way.exact[k].act == cuts::Act::gasket_out) {
      EXPECT_FALSE(way.within[k].has_value());
      continue;
    }
    ASSERT_TRUE(way.within[k].has_value()) << cuts::cut_text(way.exact[k]);
    EXPECT_GT(*way.within[k], 0.001e-3) << cuts::cut_text(way.exact[k]);
    // The slopes are those of the saw as read, walked to the end: the same numbers to a few nanometres.
    EXPECT_NEAR(*way.within[k], anew.at(place(way.exact[k])), 1e-7) << saw << ": " << cuts::cut_text(way.exact[k]);
  }
}

TEST(ranges, of_roofs_base_and_chord_are_those_of_planning_anew) {
  expect_as_planned_anew("alder-60", "exhaust at 96 deg; squish 0.6 mm; exhaust width 61 %", 2);
}

TEST(ranges, of_an_edge_that_is_to_be_as_stock_know_each_saw_s_own_stock) {
  expect_as_planned_anew("alder-60", "exhaust at 96 deg; primary opens as stock; squish 0.6 mm", 2);
}

TEST(ranges, of_curved_wishes_are_walked_to_the_end) {
  expect_as_planned_anew("larch-70", "blowdown 26 deg; squish as stock", 0);
}

TEST(ranges, are_none_of_what_is_done_and_of_gaskets) {
  const geometry::Survey survey = bench::sample_survey("alder-60");
  Settings settings = few_samples();
  settings.done = *cuts::parse_cuts("base -0.2 mm");
  const auto plan = bench::planned(survey, "exhaust at 99 deg; squish 0.7 mm", settings);
  ASSERT_TRUE(plan);
  for (const Way& way : plan->ways) {
    ASSERT_EQ(way.exact.front(), settings.done.front());
    EXPECT_FALSE(way.within.front().has_value());
    EXPECT_TRUE(way.within.back().has_value());
  }
}

TEST(ranges, narrow_with_a_surer_reading) {
  geometry::Survey survey = bench::sample_survey("alder-60");
  const auto half = [&] {
    const auto plan = bench::planned(survey, "exhaust at 96 deg; squish 0.6 mm", few_samples());
    EXPECT_TRUE(plan);
    const Way& way = plan->ways.front();
    return plan ? *way.within.back() : 0.0;
  };
  const double before = half();
  for (auto& source : survey.sources) source.sigma *= 0.5;
  EXPECT_NEAR(half(), 0.5 * before, 0.05 * before);
}

}  // namespace
}  // namespace portwright::plan
