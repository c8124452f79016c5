#pragma once
// The code that the machine shows and a device brings back: short digits for a hand, a long word for a camera; good for
// a while, once. Safe to use from several threads.

#include <cstdint>
#include <deque>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "server/network/clock.hpp"

namespace portwright::server {

struct Invited {
  std::string digits;  ///< eight of them
  std::string word;    ///< 128 bits as 32 hexadecimal digits
  std::int64_t seconds_left = 0;
};

class Pairing {
 public:
  static constexpr std::int64_t lasts = 300;    ///< an invitation [s]
  static constexpr std::int64_t minute = 60;    ///< [s]
  static constexpr std::size_t most_wrong = 5;  ///< codes a minute, from everybody together
  enum class Verdict { right, wrong, wait };

  explicit Pairing(Clock clock) : clock_(std::move(clock)) {}

  /// A new invitation; the one before is void.
  Invited invite();
  void withdraw();
  /// The one that stands.
  [[nodiscard]] std::optional<Invited> standing() const;
  /// Whether a code lets its bearer in; right uses it up. Blanks and hyphens in it do not count. After five wrong ones
  /// in a minute: wait, whatever the digits are; the long word cannot be guessed and is still taken.
  /// @param from address of who tries
  [[nodiscard]] Verdict take(std::string_view code, const std::string& from);
  /// Wrong codes within the last minute, and where the newest came from.
  [[nodiscard]] std::pair<int, std::string> wrong() const;

 private:
  [[nodiscard]] std::size_t wrong_now() const;

  Clock clock_;
  mutable std::mutex guard_;
  std::string digits_, word_;
  std::int64_t ends_ = 0;
  std::deque<std::int64_t> wrong_;  // moments, oldest first
  std::string from_;
};

}  // namespace portwright::server
