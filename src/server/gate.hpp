#pragma once
// Who may come in. Looked at before any route, before the body is read; it knows nothing but the request and what is
// allowed.
//
// A page of another site can make a browser send requests here, and a name of its own can be made to mean 127.0.0.1. So
// the name asked for, the origin, the browser's own word on the site, the type of the body and a header that no form
// can send must all be ours, and nothing that may be read two ways is let in.

#include <cstdint>
#include <functional>
#include <optional>
#include <string>

#include "server/request.hpp"

namespace portwright::server {

struct Allowed {
  std::uint16_t port = 0;                            ///< that the server listens on
  std::function<bool(const std::string&)> is_known;  ///< whether a cookie opens the door
};

/// Why a request is not let in.
struct Refusal {
  int status = 400;
  std::string title;   ///< in few words
  std::string detail;  ///< one sentence
};

/// Nothing: it may come in.
[[nodiscard]] std::optional<Refusal> gate(const Request& request, const Allowed& allowed);

/// The cookie that the door gives: one for each port, as cookies do not know ports.
[[nodiscard]] std::string cookie_name(std::uint16_t port);

/// Whether the path belongs to the API, where the cookie is asked for.
[[nodiscard]] bool is_api(const std::string& path);

inline constexpr const char* enter_path = "/api/enter";

}  // namespace portwright::server
