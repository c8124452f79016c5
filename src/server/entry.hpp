#pragma once
// The machine's door: a token that an address carries is exchanged once for a cookie. Safe to use from several threads.

#include <cstdint>
#include <deque>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>

#include "server/network/clock.hpp"

namespace portwright::server {

/// 256 bits of the system's own chance as 64 hexadecimal digits. A system that has none is a broken contract
/// (std::runtime_error).
[[nodiscard]] std::string random_word();

/// Whether two texts are the same, in a time that tells nothing of where they differ.
[[nodiscard]] bool same_secret(std::string_view a, std::string_view b);

class Entry {
 public:
  static constexpr std::int64_t lasts = 600;       ///< a further token [s]
  static constexpr std::size_t most_tokens = 8;    ///< that wait at a time; the oldest goes
  static constexpr std::size_t most_cookies = 16;  ///< the oldest goes

  /// A door with tokens and cookies of its own: each start of the server has others.
  explicit Entry(Clock clock = usual_clock());
  /// The token of the start; it waits until it is used.
  [[nodiscard]] const std::string& token() const { return token_; }
  /// One more token, good for `lasts`.
  [[nodiscard]] std::string another();
  /// The cookie for a token; none when there is no such token, or it was used already, or its time is over.
  [[nodiscard]] std::optional<std::string> enter(std::string_view token);
  /// Whether the cookie is one of those that were given.
  [[nodiscard]] bool is_known(std::string_view cookie) const;

 private:
  struct Waiting {
    std::string token;
    std::optional<std::int64_t> ends;
  };
  Clock clock_;
  std::string token_;
  mutable std::mutex guard_;
  std::deque<Waiting> waiting_;
  std::deque<std::string> cookies_;
};

}  // namespace portwright::server
