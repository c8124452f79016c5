#pragma once
// The door: a token that the address carries is exchanged once for a cookie. Safe to use from several threads.

#include <mutex>
#include <optional>
#include <string>
#include <string_view>

namespace portwright::server {

/// 256 bits of the system's own chance as 64 hexadecimal digits. A system that has none is a broken contract
/// (std::runtime_error).
[[nodiscard]] std::string random_word();

/// Whether two texts are the same, in a time that tells nothing of where they differ.
[[nodiscard]] bool same_secret(std::string_view a, std::string_view b);

class Entry {
 public:
  /// A door with a token and cookies of its own: each start of the server has another one.
  Entry();
  [[nodiscard]] const std::string& token() const { return token_; }
  /// The cookie for the token; none when it is another one, or was used already.
  [[nodiscard]] std::optional<std::string> enter(std::string_view token);
  /// Whether the cookie is the one that was given.
  [[nodiscard]] bool is_known(std::string_view cookie) const;

 private:
  std::string token_;
  mutable std::mutex guard_;
  bool used_ = false;
  std::string cookie_;
};

}  // namespace portwright::server
