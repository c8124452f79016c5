#pragma once
// The program as a server: what `portwright serve` does.

#include <cstdint>
#include <iosfwd>
#include <optional>
#include <string>

#include "base/error.hpp"

namespace portwright::server {

inline constexpr std::uint16_t usual_port = 8470;

struct ServeRequest {
  std::string book;                   ///< empty: PORTWRIGHT_BOOK, else the usual one
  std::optional<std::uint16_t> port;  ///< none: the usual one, or the next that is free; 0: any
  bool browser = true;                ///< opens one, where there is a display and a terminal
  bool as_root = false;
  bool network = false;  ///< devices of the workshop's network may come in
};

/// Serves until SIGINT or SIGTERM. What there is to say goes to `out`.
/// Errors: usage (started as root), busy (the port asked for is taken), as of the book.
[[nodiscard]] base::Result<void> serve(const ServeRequest& request, std::ostream& out);

}  // namespace portwright::server
