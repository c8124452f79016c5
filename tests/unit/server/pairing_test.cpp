#include "server/network/pairing.hpp"

#include <gtest/gtest.h>

#include <set>

namespace {

using namespace portwright::server;
using Verdict = Pairing::Verdict;

struct Bench {
  std::int64_t now = 5000;
  Pairing pairing{[this] { return now; }};
  Verdict take(const std::string& code, const std::string& from = "192.168.1.23") { return pairing.take(code, from); }
  /// Digits that are not those of the invitation.
  std::string other() {
    const std::string digits = pairing.standing() ? pairing.standing()->digits : "00000000";
    return digits == "11111111" ? "22222222" : "11111111";
  }
};

TEST(pairing, takes_the_digits_or_the_word_of_an_invitation_once) {
  Bench bench;
  const Invited by_hand = bench.pairing.invite();
  EXPECT_EQ(bench.take(by_hand.digits), Verdict::right);
  EXPECT_EQ(bench.take(by_hand.digits), Verdict::wrong);
  EXPECT_EQ(bench.take(by_hand.word), Verdict::wrong) << "the other form is used up with it";
  const Invited by_camera = bench.pairing.invite();
  EXPECT_EQ(bench.take(by_camera.word), Verdict::right);
  EXPECT_EQ(bench.take(by_camera.digits), Verdict::wrong);
}

TEST(pairing, reads_digits_with_blanks_and_hyphens) {
  Bench bench;
  const std::string digits = bench.pairing.invite().digits;
  EXPECT_EQ(bench.take(' ' + digits.substr(0, 4) + ' ' + digits.substr(4, 2) + '-' + digits.substr(6)), Verdict::right);
}

TEST(pairing, lets_nobody_in_without_an_invitation) {
  Bench bench;
  for (const char* code : {"", "00000000", " ", "-"}) EXPECT_EQ(bench.take(code), Verdict::wrong) << code;
  bench.now += 60;
  const std::string digits = bench.pairing.invite().digits;
  bench.pairing.withdraw();
  EXPECT_FALSE(bench.pairing.standing());
  EXPECT_EQ(bench.take(digits), Verdict::wrong);
  EXPECT_EQ(bench.take(""), Verdict::wrong);
}

TEST(pairing, forgets_an_invitation_in_five_minutes_and_with_the_next) {
  Bench bench;
  const Invited first = bench.pairing.invite(), second = bench.pairing.invite();
  EXPECT_EQ(bench.take(first.digits), Verdict::wrong);
  bench.now += Pairing::lasts - 1;
  ASSERT_TRUE(bench.pairing.standing());
  EXPECT_EQ(bench.pairing.standing()->seconds_left, 1);
  bench.now += 1;
  EXPECT_FALSE(bench.pairing.standing());
  EXPECT_EQ(bench.take(second.digits), Verdict::wrong);
  EXPECT_EQ(bench.take(second.word), Verdict::wrong);
}

TEST(pairing, has_everybody_wait_after_five_wrong_codes_in_a_minute) {
  Bench bench;
  const std::string digits = bench.pairing.invite().digits;
  for (int i = 0; i < 5; ++i)
    EXPECT_EQ(bench.take(bench.other(), "192.168.1." + std::to_string(30 + i)), Verdict::wrong);
  EXPECT_EQ(bench.pairing.wrong(), std::pair(5, std::string("192.168.1.34")));
  EXPECT_EQ(bench.take(digits), Verdict::wait) << "the right one, too: else the wait would tell nothing";
  bench.now += 59;
  EXPECT_EQ(bench.take(digits, "192.168.1.99"), Verdict::wait) << "another address does not help";
  bench.now += 1;
  EXPECT_EQ(bench.take(digits), Verdict::right);
  EXPECT_EQ(bench.pairing.wrong().first, 0);
}

TEST(pairing, cannot_be_kept_waiting_for_the_word_of_the_camera) {
  Bench bench;
  const Invited invited = bench.pairing.invite();
  for (int i = 0; i < 9; ++i) (void)bench.take(bench.other());
  EXPECT_EQ(bench.take(invited.digits), Verdict::wait);
  EXPECT_EQ(bench.take(invited.word.substr(1)), Verdict::wait);
  EXPECT_EQ(bench.take(invited.word), Verdict::right);
}

TEST(pairing, allows_no_more_than_twenty_five_guesses_in_the_life_of_a_code) {
  Bench bench;
  (void)bench.pairing.invite();
  const std::string wrong = bench.other();
  int tried = 0;
  for (std::int64_t second = 0; second < Pairing::lasts; ++second, ++bench.now)
    for (int i = 0; i < 20; ++i) tried += bench.take(wrong) == Verdict::wrong;
  EXPECT_EQ(tried, 25);
}

TEST(pairing, makes_other_codes_each_time) {
  Bench bench;
  std::set<std::string> digits, words;
  for (int i = 0; i < 200; ++i) {
    const Invited one = bench.pairing.invite();
    EXPECT_EQ(one.digits.size(), 8u);
    EXPECT_EQ(one.digits.find_first_not_of("0123456789"), std::string::npos);
    EXPECT_EQ(one.word.size(), 32u);
    digits.insert(one.digits);
    words.insert(one.word);
  }
  EXPECT_GE(digits.size(), 199u);
  EXPECT_EQ(words.size(), 200u);
}

}  // namespace
