#include "server/entry.hpp"

#include <sys/random.h>

#include <array>
#include <cerrno>
#include <stdexcept>

namespace portwright::server {

std::string random_word() {
  std::array<unsigned char, 32> bytes{};
  std::size_t have = 0;
  while (have < bytes.size()) {
    const ssize_t got = getrandom(bytes.data() + have, bytes.size() - have, 0);
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) throw std::runtime_error("the system gives no random bytes");
    have += static_cast<std::size_t>(got);
  }
  constexpr std::string_view digits = "0123456789abcdef";
  std::string out;
  for (const unsigned char byte : bytes) {
    out += digits[byte >> 4U];
    out += digits[byte & 15U];
  }
  return out;
}

bool same_secret(std::string_view a, std::string_view b) {
  volatile unsigned char differs = a.size() == b.size() ? 0 : 1;
  for (std::size_t i = 0; i < a.size(); ++i) {
    const char other = b.empty() ? '\0' : b[i % b.size()];
    differs = static_cast<unsigned char>(differs | static_cast<unsigned char>(a[i] ^ other));
  }
  return differs == 0;
}

Entry::Entry() : token_(random_word()) {}

std::optional<std::string> Entry::enter(std::string_view token) {
  const std::lock_guard hold(guard_);
  const bool same = same_secret(token, token_);
  if (!same || used_) return std::nullopt;
  used_ = true;
  cookie_ = random_word();
  return cookie_;
}

bool Entry::is_known(std::string_view cookie) const {
  const std::lock_guard hold(guard_);
  return used_ && same_secret(cookie, cookie_);
}

}  // namespace portwright::server
