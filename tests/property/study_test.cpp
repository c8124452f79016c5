// Laws of the study: ranges hold the truth as often as they say, and cuts undo.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "../unit/study/larch.hpp"
#include "coverage.hpp"
#include "saw/file.hpp"

namespace portwright::study {
namespace {

/// How far the share of `trials` may stray from a true share by chance: three sigmas of the binomial law.
double stray(double share, int trials) { return 3.0 * std::sqrt(share * (1.0 - share) / trials); }

/// bench_coverage holds 93 to 97 % with 10,000 trials and 512 samples; fewer trials stray further from the same band.
/// With fewer than 256 samples the ends of a range hang on single ones.
/// Sanitizers look at memory, not at shares: fewer trials there, their bounds wider by the same law.
#ifdef PORTWRIGHT_SANITIZED
constexpr int coverage_trials = 100;
#else
constexpr int coverage_trials = 700;
#endif

void ranges_hold_the_truth(const std::string& sample) {
  const auto file = saw::read_saw_file(PORTWRIGHT_SOURCE_DIR "/data/samples/" + sample + ".saw.toml");
  int judged = 0;
  for (const Coverage& one : cover(geometry::survey(file.value().readings), coverage_trials, 256)) {
    if (one.ranges == 0) continue;
    if (one.one_sided) {  // bounded by its nature: it may hold the truth more often, never less
      EXPECT_GT(one.share(), 0.93 - stray(0.93, one.ranges)) << sample << " " << one.id;
      continue;
    }
    ++judged;
    EXPECT_GT(one.share(), 0.93 - stray(0.93, one.ranges)) << sample << " " << one.id;
    EXPECT_LT(one.share(), 0.97 + stray(0.97, one.ranges)) << sample << " " << one.id;
  }
  EXPECT_GT(judged, 80) << sample;
}

TEST(coverage, ranges_hold_the_truth_in_93_to_97_of_100_small_saws) { ranges_hold_the_truth("alder-60"); }
TEST(coverage, ranges_hold_the_truth_in_93_to_97_of_100_saws_with_a_boost) { ranges_hold_the_truth("spruce-92"); }
TEST(coverage, ranges_hold_the_truth_in_93_to_97_of_100_saws_with_a_bridge) { ranges_hold_the_truth("oak-110"); }

TEST(study, more_error_in_a_reading_never_narrows_a_figure_made_from_it) {
  std::string rough = larch_text;
  rough.replace(rough.find("chamber = \"8.9 cc\""), 18, "chamber = \"8.9 cc +- 0.3\"");
  const Study fine = study_of(larch_text), coarse = study_of(rough);
  for (const char* id : {"chamber.volume", "chamber.full_ratio", "chamber.trapped_ratio"}) {
    const Figure &a = figure(fine, id), &b = figure(coarse, id);
    EXPECT_LT(*a.high - *a.low, *b.high - *b.low) << id;
  }
  const Figure &a = figure(fine, "port.exhaust.opens"), &b = figure(coarse, "port.exhaust.opens");
  EXPECT_NEAR((*a.high - *a.low) / (*b.high - *b.low), 1.0, 0.05);
}

TEST(study, a_cut_and_its_inverse_change_nothing) {
  for (const char* cuts :
       {"base -0.5 mm; base +0.5 mm", "roof exhaust +0.7 mm; roof exhaust -0.7 mm", "band -0.4 mm; band +0.4 mm"}) {
    const Study study = study_of(larch_text, cuts);
    for (const Figure& one : study.figures) {
      if (one.change) {
        EXPECT_NEAR(one.change->value, 0.0, 1e-9 * std::max(1.0, std::abs(*one.value))) << cuts << " " << one.id;
      }
    }
  }
}

TEST(study, a_wider_exhaust_never_has_less_time_area) {
  double before = 0.0;
  for (const char* cuts :
       {"widen exhaust +0 mm", "widen exhaust +0.5 mm", "widen exhaust +1 mm", "widen exhaust +2 mm"}) {
    const double now = *figure(study_of(larch_text, cuts), "group.exhaust.time_area").value;
    EXPECT_GT(now, before) << cuts;
    before = now;
  }
}

}  // namespace
}  // namespace portwright::study
