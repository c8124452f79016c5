#pragma once
// Who may come in. Looked at before any route, before the body is read; it knows nothing but the request and what is
// allowed.
//
// A page of another site can make a browser send requests here, and a name of its own can be made to mean 127.0.0.1. So
// the name asked for, the origin, the browser's own word on the site, the type of the body and a header that no form
// can send must all be ours, and nothing that may be read two ways is let in.
//
// A request that came by a network has to name the very address that it came to: no other name of this machine counts
// there, and that address does not count on loopback. Who asks is told by the way and the cookie together.

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "server/request.hpp"

namespace portwright::server {

struct Allowed {
  std::uint16_t port = 0;  ///< that the server listens on
  /// Whom a cookie lets in that came by this way.
  std::function<Role(const Way&, const std::string& cookie)> role_of;
  /// Who may ask for a path below /api/; for one that there is not, any who came in.
  std::function<Role(const std::string& path)> needs;
  /// Media types that a path takes instead of JSON, parted by blanks; empty or not set: JSON.
  std::function<std::string_view(const std::string& path)> takes = {};
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

inline constexpr const char* enter_path = "/api/enter";  ///< the machine's own door, on loopback
inline constexpr const char* pair_path = "/api/pair";    ///< a device's door, on the network

}  // namespace portwright::server
