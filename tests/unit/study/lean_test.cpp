// Ranges of what was chosen among several.
#include "study/lean.hpp"

#include <gtest/gtest.h>

#include "../../property/chosen.hpp"
#include "larch.hpp"

namespace portwright::study {
namespace {

TEST(lean, one_alone_has_plain_tails) {
  for (const bool read_low : {true, false}) {
    const numerics::Tails tails = chosen_tails(1.0, read_low);
    EXPECT_DOUBLE_EQ(tails.low, 0.025);
    EXPECT_DOUBLE_EQ(tails.high, 0.025);
  }
}

TEST(lean, tails_of_both_ends_hold_five_percent_among_all_that_could_have_been_chosen) {
  for (const double m : {1.0, 1.5, 2.0, 3.0, 10.0}) {
    const numerics::Tails low = chosen_tails(m, true), high = chosen_tails(m, false);
    EXPECT_NEAR(m * low.high + low.low, 0.05, 1e-15);
    EXPECT_EQ(low.high, high.low);
    EXPECT_EQ(low.low, high.high);
  }
}

TEST(lean, errors_that_are_shared_make_no_rival) {
  EXPECT_EQ(rival_weight(0.0, 0.0, 1.0), 0.0);
  EXPECT_LT(rival_weight(0.0, 0.1, 1.0), 0.08);
}

TEST(lean, one_alike_is_a_rival_and_one_far_off_is_none) {
  const double gap_sigma = std::sqrt(2.0);
  EXPECT_DOUBLE_EQ(rival_weight(0.0, gap_sigma, 1.0), 1.0);
  EXPECT_DOUBLE_EQ(rival_weight(-1.9 * gap_sigma, gap_sigma, 1.0), 1.0);
  EXPECT_LT(rival_weight(4.0 * gap_sigma, gap_sigma, 1.0), 0.002);
}

TEST(lean, range_of_the_least_of_three_alike_holds_the_truth_in_95_of_100) {
  std::mt19937_64 random(11);
  EXPECT_NEAR(chosen_coverage({{0.0, 0.0, 0.0}, {1.0, 1.0, 1.0}, 0.0}, 40000, random), 0.95, 0.01);
}

TEST(lean, range_of_the_least_of_three_far_apart_is_the_plain_one) {
  const numerics::Range range = chosen_range({{0.0, 9.0, 20.0}, {1.0, 1.0, 1.0}, 0.0}, {0.0, 9.0, 20.0}, 0);
  EXPECT_NEAR(range.low, -1.96, 0.001);
  EXPECT_NEAR(range.high, 1.96, 0.001);
}

std::string saw_of(const std::vector<double>& transfers) {
  std::string text = "name = \"Wheel\"\n[[port]]\nname = \"exhaust\"\nkind = \"exhaust\"\nopens = \"100 deg\"\n";
  for (std::size_t i = 0; i < transfers.size(); ++i)
    text += "[[port]]\nname = \"t" + std::to_string(i) + "\"\nkind = \"transfer\"\nopens = \"" +
            std::to_string(transfers[i]) + " deg\"\n";
  return text;
}

double width(const Study& study, const std::string& id) { return *figure(study, id).high - *figure(study, id).low; }

TEST(lean, first_of_three_openings_is_plain_far_apart_and_wider_when_they_are_alike) {
  const Study apart = study_of(saw_of({118.0, 128.0, 138.0})), alike = study_of(saw_of({120.0, 120.3, 120.6}));
  EXPECT_NEAR(width(apart, "group.transfer.first_opens"), width(apart, "port.t0.opens"), 1e-6);
  EXPECT_GT(width(alike, "group.transfer.first_opens"), 1.05 * width(alike, "port.t0.opens"));
  EXPECT_GT(width(alike, "timing.blowdown"), 1.05 * width(apart, "timing.blowdown"));
}

TEST(lean, leaves_the_value_as_read) {
  const Study alike = study_of(saw_of({120.0, 120.3, 120.6}));
  EXPECT_NEAR(*figure(alike, "group.transfer.first_opens").value, 120.0, 1e-9);
  EXPECT_NEAR(*figure(alike, "timing.blowdown").value, 20.0, 1e-9);
}

}  // namespace
}  // namespace portwright::study
