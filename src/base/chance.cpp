#include "base/chance.hpp"

#include <sys/random.h>

#include <cerrno>
#include <stdexcept>
#include <string_view>
#include <vector>

namespace portwright::base {

std::string random_word(int bytes) {
  std::vector<unsigned char> drawn(static_cast<std::size_t>(bytes));
  std::size_t have = 0;
  while (have < drawn.size()) {
    const ssize_t got = getrandom(drawn.data() + have, drawn.size() - have, 0);
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) throw std::runtime_error("the system gives no random bytes");
    have += static_cast<std::size_t>(got);
  }
  constexpr std::string_view digits = "0123456789abcdef";
  std::string out;
  for (const unsigned char byte : drawn) {
    out += digits[byte >> 4U];
    out += digits[byte & 15U];
  }
  return out;
}

}  // namespace portwright::base
