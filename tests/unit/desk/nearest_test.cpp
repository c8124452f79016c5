#include "desk/nearest.hpp"

#include <gtest/gtest.h>

namespace {

using namespace portwright::desk;

TEST(nearest, one_step_is_a_letter_in_out_or_changed_or_two_swapped) {
  EXPECT_EQ(typing_distance("study", "study"), 0);
  EXPECT_EQ(typing_distance("stduy", "study"), 1);
  EXPECT_EQ(typing_distance("stdy", "study"), 1);
  EXPECT_EQ(typing_distance("studyy", "study"), 1);
  EXPECT_EQ(typing_distance("stuby", "study"), 1);
  EXPECT_EQ(typing_distance("", "study"), 5);
}

TEST(nearest, case_does_not_count) { EXPECT_EQ(typing_distance("Exhaust", "exhaust"), 0); }

TEST(nearest, the_nearest_word_is_offered_and_a_far_one_is_not) {
  const std::vector<std::string> ports = {"exhaust", "primary", "intake"};
  EXPECT_EQ(nearest("exaust", ports), "exhaust");
  EXPECT_EQ(nearest("boost", ports), "");
  EXPECT_EQ(did_you_mean("intkae", ports), "Did you mean intake?");
  EXPECT_EQ(did_you_mean("xyz", ports), "");
}

}  // namespace
