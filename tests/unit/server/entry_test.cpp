#include <gtest/gtest.h>

#include <set>

#include "server/entry.hpp"

namespace {

using namespace portwright::server;

TEST(entry, gives_a_cookie_for_the_token_and_knows_it_again) {
  Entry entry;
  const auto cookie = entry.enter(entry.token());
  ASSERT_TRUE(cookie);
  EXPECT_TRUE(entry.is_known(*cookie));
  EXPECT_NE(*cookie, entry.token());
}

TEST(entry, takes_the_token_once) {
  Entry entry;
  ASSERT_TRUE(entry.enter(entry.token()));
  EXPECT_FALSE(entry.enter(entry.token()));
}

TEST(entry, gives_nothing_for_another_word_and_still_takes_the_right_one) {
  Entry entry;
  EXPECT_FALSE(entry.enter(""));
  EXPECT_FALSE(entry.enter(std::string(64, '0')));
  EXPECT_FALSE(entry.enter(entry.token().substr(1)));
  EXPECT_FALSE(entry.enter(entry.token() + '0'));
  EXPECT_TRUE(entry.enter(entry.token()));
}

TEST(entry, knows_no_cookie_before_anybody_entered) {
  const Entry entry;
  EXPECT_FALSE(entry.is_known(""));
  EXPECT_FALSE(entry.is_known(entry.token()));
}

TEST(entry, has_another_token_at_each_start) {
  std::set<std::string> tokens;
  for (int i = 0; i < 100; ++i) tokens.insert(Entry().token());
  EXPECT_EQ(tokens.size(), 100u);
  for (const std::string& token : tokens) {
    EXPECT_EQ(token.size(), 64u);
    EXPECT_EQ(token.find_first_not_of("0123456789abcdef"), std::string::npos);
  }
}

TEST(entry, a_cookie_of_one_start_opens_no_other) {
  Entry first, second;
  const auto cookie = first.enter(first.token());
  ASSERT_TRUE(second.enter(second.token()));
  EXPECT_FALSE(second.is_known(*cookie));
}

TEST(entry, lets_one_more_browser_in_by_one_more_token_once) {
  Entry entry;
  const auto first = entry.enter(entry.token());
  const std::string token = entry.another();
  const auto second = entry.enter(token);
  ASSERT_TRUE(second);
  EXPECT_NE(*first, *second);
  EXPECT_TRUE(entry.is_known(*first));
  EXPECT_TRUE(entry.is_known(*second));
  EXPECT_FALSE(entry.enter(token));
}

TEST(entry, forgets_a_further_token_in_ten_minutes_and_keeps_the_first) {
  std::int64_t now = 1000;
  Entry entry([&] { return now; });
  const std::string early = entry.another();
  now += Entry::lasts - 1;
  const std::string late = entry.another();
  now += 1;
  EXPECT_FALSE(entry.enter(early));
  EXPECT_TRUE(entry.enter(late));
  now += 1'000'000;
  EXPECT_TRUE(entry.enter(entry.token()));
}

TEST(entry, holds_eight_tokens_and_sixteen_cookies) {
  Entry entry;
  const std::string oldest = entry.another();
  for (std::size_t i = 0; i < Entry::most_tokens; ++i) (void)entry.another();
  EXPECT_FALSE(entry.enter(oldest));
  const auto cookie = entry.enter(entry.another());
  for (std::size_t i = 0; i < Entry::most_cookies; ++i) ASSERT_TRUE(entry.enter(entry.another()));
  EXPECT_FALSE(entry.is_known(*cookie));
}

TEST(same_secret, tells_same_from_different) {
  EXPECT_TRUE(same_secret("", ""));
  EXPECT_TRUE(same_secret("abc", "abc"));
  EXPECT_FALSE(same_secret("abc", "abd"));
  EXPECT_FALSE(same_secret("abc", "abcabc"));
  EXPECT_FALSE(same_secret("abcabc", "abc"));
  EXPECT_FALSE(same_secret("abc", ""));
  EXPECT_FALSE(same_secret("", "abc"));
}

}  // namespace
