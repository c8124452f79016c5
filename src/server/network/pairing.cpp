#include "server/network/pairing.hpp"

#include <algorithm>
#include <charconv>

#include "server/entry.hpp"

namespace portwright::server {
namespace {

constexpr std::size_t digit_count = 8, word_length = 32;
constexpr std::uint64_t codes = 100'000'000;

// 64 random bits over 10⁸ codes: no code is likelier than another by more than 6 in 10¹².
std::string random_digits() {
  const std::string word = random_word();
  std::uint64_t number = 0;
  std::from_chars(word.data(), word.data() + 16, number, 16);
  const std::string digits = std::to_string(number % codes);
  return std::string(digit_count - digits.size(), '0') + digits;
}

std::string plain(std::string_view code) {
  std::string out;
  for (const char c : code)
    if (c != ' ' && c != '-' && c != '\t') out += c;
  return out;
}

}  // namespace

Invited Pairing::invite() {
  const std::lock_guard hold(guard_);
  digits_ = random_digits();
  word_ = random_word().substr(0, word_length);
  ends_ = clock_() + lasts;
  return {digits_, word_, lasts};
}

void Pairing::withdraw() {
  const std::lock_guard hold(guard_);
  ends_ = 0;
  digits_.clear();
  word_.clear();
}

std::optional<Invited> Pairing::standing() const {
  const std::lock_guard hold(guard_);
  const std::int64_t left = ends_ - clock_();
  if (word_.empty() || left <= 0) return std::nullopt;
  return Invited{digits_, word_, left};
}

Pairing::Verdict Pairing::take(std::string_view code, const std::string& from) {
  const std::string given = plain(code);
  const std::lock_guard hold(guard_);
  const bool stands = !word_.empty() && clock_() < ends_;
  const bool waits = wrong_now() >= most_wrong;
  const bool by_word = stands && same_secret(given, word_);
  if (waits && !by_word) return Verdict::wait;
  if (by_word || (stands && same_secret(given, digits_))) {
    digits_.clear();
    word_.clear();
    return Verdict::right;
  }
  wrong_.push_back(clock_());
  if (wrong_.size() > most_wrong) wrong_.pop_front();
  from_ = from;
  return Verdict::wrong;
}

std::size_t Pairing::wrong_now() const {
  const std::int64_t now = clock_();
  return static_cast<std::size_t>(
      std::count_if(wrong_.begin(), wrong_.end(), [&](std::int64_t at) { return now - at < minute; }));
}

std::pair<int, std::string> Pairing::wrong() const {
  const std::lock_guard hold(guard_);
  const auto count = static_cast<int>(wrong_now());
  return {count, count > 0 ? from_ : std::string()};
}

}  // namespace portwright::server
