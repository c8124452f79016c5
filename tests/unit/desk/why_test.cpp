// Where a figure comes from, also one that only a turning engine has.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "desk/desk.hpp"
#include "unit/desk/turning_samples.hpp"

namespace {

using namespace portwright;
using namespace turning_samples;
using ::testing::HasSubstr;

desk::WhyRequest asked(const std::string& figure) {
  desk::WhyRequest out;
  out.of.file = sample("larch-70");
  out.figure = figure;
  return out;
}

TEST(why, figures_of_a_turning_engine_have_their_reason_too) {
  for (const char* id : {"heat.groove", "bottom_end.big_end_load", "run.power", "crank.gauge"}) {
    const auto answer = desk::why(asked(id));
    ASSERT_TRUE(answer) << id << ' ' << answer.error().front().message;
    EXPECT_EQ(answer->figure.id, id);
    EXPECT_TRUE(answer->figure.value) << id;
    EXPECT_FALSE(answer->figure.formula.empty()) << id;
    EXPECT_FALSE(answer->figure.why.empty()) << id;
    EXPECT_FALSE(answer->figure.source.empty()) << id;
    EXPECT_FALSE(answer->figure.label.empty()) << id;
  }
}

TEST(why, what_hangs_on_speed_names_it) {
  for (const char* id : {"heat.groove", "run.power"}) {
    const auto answer = desk::why(asked(id));
    ASSERT_TRUE(answer);
    EXPECT_THAT(answer->figure.label, HasSubstr("rpm")) << id;
  }
}

TEST(why, a_slip_of_the_pen_is_met_with_the_nearest_figure) {
  const auto answer = desk::why(asked("heat.grove"));
  ASSERT_FALSE(answer);
  EXPECT_EQ(answer.error().front().code, base::ErrorCode::not_found);
  EXPECT_THAT(answer.error().front().hint, HasSubstr("heat.groove"));
  const auto nowhere = desk::why(asked("cheese"));
  ASSERT_FALSE(nowhere);
  EXPECT_EQ(nowhere.error().front().code, base::ErrorCode::not_found);
}

}  // namespace
