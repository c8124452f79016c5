#include "book/identity.hpp"

#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <ctime>
#include <mutex>

#include "base/chance.hpp"
#include "book/book.hpp"

namespace portwright::book {
namespace {

constexpr std::int64_t first_second = 1577836800;  // 2020-01-01; 30 bits of seconds reach to 2054
constexpr std::uint64_t chance_bits = 20;

/// Seconds in the high bits, chance in the low ones; within a process always one more than before, so that many ids of
/// one second do not meet. Another process (a fork, too) draws its own chance.
std::uint64_t next_stamp() {
  static std::mutex mutex;
  static std::uint64_t last = 0;
  static pid_t owner = 0;
  const std::lock_guard guard(mutex);
  const auto second = static_cast<std::uint64_t>(std::max<std::int64_t>(std::time(nullptr) - first_second, 0));
  const std::uint64_t earliest = (second & ((1ULL << 30U) - 1)) << chance_bits;
  if (last < earliest || owner != getpid()) {
    last = earliest | (std::stoul(base::random_word(4), nullptr, 16) & ((1ULL << chance_bits) - 1));
    owner = getpid();
    return last;
  }
  return ++last;
}

bool all_of(std::string_view word, std::string_view more) {
  if (word.empty() || word.size() > 40) return false;
  return std::all_of(word.begin(), word.end(), [&](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || more.find(c) != std::string_view::npos;
  });
}

}  // namespace

std::string moment_text(std::int64_t seconds) {
  const std::time_t time = seconds;
  std::tm parts{};
  if (gmtime_r(&time, &parts) == nullptr) return "1970-01-01T00:00:00Z";
  std::array<char, 40> text{};
  const std::size_t n = std::strftime(text.data(), text.size(), "%Y-%m-%dT%H:%M:%SZ", &parts);
  return {text.data(), n};
}

bool is_id(std::string_view id) { return all_of(id, "ABCDEFGHIJKLMNOPQRSTUVWXYZ_-"); }

bool is_kind(std::string_view kind) { return all_of(kind, "_"); }

std::string new_token() { return base::random_word(16); }

std::string new_id() {
  static constexpr char digits[] = "0123456789abcdefghjkmnpqrstvwxyz";
  std::uint64_t stamp = next_stamp();
  std::string out(10, '0');
  for (std::size_t i = out.size(); i-- > 0; stamp >>= 5U) out[i] = digits[stamp & 31U];
  return out;
}

}  // namespace portwright::book
