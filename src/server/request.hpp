#pragma once
// A request and its response as plain data: what every part of the server but the socket speaks of.

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace portwright::server {

class Stream;

/// Names as sent; compared without regard to capitals.
using Headers = std::vector<std::pair<std::string, std::string>>;

/// The way a request came, as the socket knows it and nobody can say otherwise.
struct Way {
  std::string at;    ///< address of this machine in a network that it came to; empty: loopback
  std::string from;  ///< address of the other end, where it came by a network
  [[nodiscard]] bool by_network() const { return !at.empty(); }
};

/// Who asks, by what he may: nobody nothing, a device looks and adds, the machine itself does everything.
enum class Role : std::uint8_t { nobody, device, machine };

struct Request {
  std::string method;  ///< "GET"
  std::string target;  ///< as sent: "/api/ask/study"
  Headers headers;
  std::string body;
  Way way = {};
};

struct Response {
  int status = 200;
  Headers headers;
  std::string body;
  std::shared_ptr<Stream> stream;  ///< set: what comes out of it follows the head, until it is closed
};

/// Every value of a header, in their order.
[[nodiscard]] std::vector<std::string> values_of(const Headers& headers, std::string_view name);
/// The first value of a header; empty when there is none.
[[nodiscard]] std::string value_of(const Headers& headers, std::string_view name);
/// Same letters without regard to capitals (ASCII).
[[nodiscard]] bool same_word(std::string_view a, std::string_view b);
/// Without blanks and tabs at both ends.
[[nodiscard]] std::string_view without_blanks(std::string_view text);

/// The target without its query.
[[nodiscard]] std::string path_of(const Request& request);
/// One value of the query, not decoded: letters, digits, `-` and `_` alone; empty when there is none or it has others.
[[nodiscard]] std::string query_value(const Request& request, std::string_view name);

/// The value of a cookie; empty when there is none, or several of that name.
[[nodiscard]] std::string cookie_of(const Request& request, std::string_view name);

}  // namespace portwright::server
