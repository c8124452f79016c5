// The use case of a search: what it tells on its way, what it refuses, how it goes on.
#include <filesystem>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "desk/seek.hpp"
#include "desk/seek_memory.hpp"

namespace portwright::desk {
namespace {

using ::testing::HasSubstr;

SeekRequest request_of(const char* saw, const char* wish, const char* free) {
  SeekRequest out;
  out.file = std::string(PORTWRIGHT_SOURCE_DIR "/data/samples/") + saw + ".saw.toml";
  out.wishes = wish;
  out.free = free;
  return out;
}

TEST(seek, tells_the_best_so_far_stops_and_goes_on) {
  SeekRequest request = request_of("oak-110", "most power", "widen exhaust; base");
  bool told_best = false;
  const auto first = seek(request, [&](const wire::SeekAnswer& answer) {
    told_best = told_best || (answer.best && answer.best->holds && !answer.best_cuts.empty());
    return answer.tried.size() >= 3;
  });
  ASSERT_TRUE(first) << first.error().front().message;
  EXPECT_TRUE(told_best);
  EXPECT_TRUE(first->stopped);
  ASSERT_EQ(first->answers.size(), 1u);
  EXPECT_THAT(first->answers[0].cuts, HasSubstr("mm"));
  EXPECT_EQ(first->answers[0].aim.range_text, "");
  ASSERT_EQ(first->warnings.size(), 1u);
  EXPECT_FALSE(first->memory.empty());

  request.memory = first->memory;
  request.lists = static_cast<int>(first->tried.size()) + 1;
  request.members = 1;
  const auto more = seek(request);
  ASSERT_TRUE(more) << more.error().front().message;
  EXPECT_EQ(more->tried.size(), first->tried.size() + 1);
  EXPECT_EQ(more->tried[1].power, first->tried[1].power);
  EXPECT_FALSE(more->stopped);

  request.wishes = "most pull";
  const auto other = seek(request);
  ASSERT_FALSE(other);
  EXPECT_THAT(other.error().front().message, HasSubstr("another search"));
}

TEST(seek, a_memory_is_read_back_to_the_last_digit_and_nothing_else_is) {
  std::vector<seek::Tried> tried(2);
  tried[0] = {{0.0, 0.1234567890123}, {true, {0.01, -0.02, 1e-17, 0.3}, {0.5, -0.25}}};
  tried[1] = {{1.0, 1.0}, {false, {0.0, 0.0, 0.0, 0.0}, {0.0, 0.0}}};
  const std::string text = memory_text("this saw", tried);
  const auto back = memory_of(text, "this saw", 2);
  ASSERT_TRUE(back);
  ASSERT_EQ(back->size(), 2u);
  EXPECT_EQ((*back)[0].design, tried[0].design);
  EXPECT_EQ((*back)[0].judged.gains, tried[0].judged.gains);
  EXPECT_EQ((*back)[0].judged.holds, tried[0].judged.holds);
  EXPECT_FALSE((*back)[1].judged.possible);
  EXPECT_FALSE(memory_of(text, "another saw", 2));
  EXPECT_FALSE(memory_of(text, "this saw", 3));
  EXPECT_FALSE(memory_of(text + "\n1 0.5", "this saw", 2));
  EXPECT_FALSE(memory_of(text + "\n1 0.5 2 0 0 0 0 0 0", "this saw", 2));  // a share beyond 1
  EXPECT_FALSE(memory_of(text + "\n1 nan 0 0 0 0 0 0 0", "this saw", 2));
  EXPECT_FALSE(memory_of(text + "\n1 0 0 0 0 0 0 0", "this saw", 2));  // a condition less than the others
  EXPECT_FALSE(memory_of("# a saw file", "this saw", 2));
  EXPECT_TRUE(memory_of("", "this saw", 2)->empty());
}

TEST(seek, refuses_in_words) {
  const auto error = [](const SeekRequest& request) {
    const auto answer = seek(request);
    EXPECT_FALSE(answer);
    return answer ? base::Error{} : answer.error().front();
  };
  EXPECT_THAT(error(request_of("alder-60", "", "")).message, HasSubstr("wanted most"));
  EXPECT_THAT(error(request_of("birch-50", "most power", "")).message, HasSubstr("air-head"));
  EXPECT_THAT(error(request_of("willow-64", "most power", "")).message, HasSubstr("needs"));
  EXPECT_THAT(error(request_of("alder-60", "most power for a 28 in bar", "")).message,
              HasSubstr("bogs in a bar of 28 in (71 cm)"));
  const auto both = seek(request_of("alder-60", "most speed", "nonsense"));
  ASSERT_FALSE(both);
  EXPECT_EQ(both.error().size(), 2u);
  SeekRequest kept = request_of("alder-60", "most power", "");
  kept.keep = kept.file;  // a saw file is no memory, and is not written over
  EXPECT_THAT(error(kept).message, HasSubstr("nothing that a search left"));
}

}  // namespace
}  // namespace portwright::desk
