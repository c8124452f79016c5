#include "server/gate.hpp"

#include <algorithm>
#include <array>
#include <string_view>

namespace portwright::server {
namespace {

using Verdict = std::optional<Refusal>;

bool is_listed(const std::vector<std::string>& list, const std::string& word) {
  return std::any_of(list.begin(), list.end(), [&](const std::string& one) { return same_word(one, word); });
}

std::vector<std::string> hosts(std::uint16_t port) {
  const std::string end = ':' + std::to_string(port);
  std::vector<std::string> out{"127.0.0.1" + end, "[::1]" + end, "localhost" + end};
  if (port == 80) out.insert(out.end(), {"127.0.0.1", "[::1]", "localhost"});
  return out;
}

bool is_path_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '/' || c == '-' ||
         c == '_' || c == '.';
}

bool is_query_letter(char c) { return c > 0x20 && c < 0x7f && c != '#' && c != '"' && c != '<' && c != '>'; }

Verdict method(const Request& request, const Allowed&) {
  if (request.method == "GET" || request.method == "POST") return {};
  return Refusal{405, "Not done here", "Only GET and POST are known."};
}

Verdict target(const Request& request, const Allowed&) {
  if (request.target.empty() || request.target.front() != '/')
    return Refusal{400, "Not an address of this server", "The request names more than a path."};
  const std::string path = path_of(request);
  const std::string_view query = std::string_view(request.target).substr(path.size());
  const bool plain =
      std::all_of(path.begin(), path.end(), is_path_letter) && std::all_of(query.begin(), query.end(), is_query_letter);
  if (!plain || path.find("//") != std::string::npos || path.find("/.") != std::string::npos ||
      path.find("..") != std::string::npos)
    return Refusal{400, "Not an address of this server", "The path could be read in more than one way."};
  return {};
}

Verdict host(const Request& request, const Allowed& allowed) {
  const auto named = values_of(request.headers, "Host");
  if (named.size() != 1) return Refusal{400, "Host is not clear", "The request names no host, or more than one."};
  if (is_listed(hosts(allowed.port), named.front())) return {};
  return Refusal{403, "Not this host", "The server answers to this machine's own names alone."};
}

Verdict length(const Request& request, const Allowed&) {
  if (!values_of(request.headers, "Transfer-Encoding").empty())
    return Refusal{411, "Length needed", "Say the length of the body; parts of unknown length are not taken."};
  const auto lengths = values_of(request.headers, "Content-Length");
  if (lengths.size() > 1) return Refusal{400, "Length is not clear", "The request says its length more than once."};
  if (request.method == "POST" && lengths.empty()) return Refusal{411, "Length needed", "Say the length of the body."};
  if (request.method == "GET" && !lengths.empty() && lengths.front() != "0")
    return Refusal{400, "Nothing to send", "A GET has no body."};
  return {};
}

Verdict site(const Request& request, const Allowed&) {
  for (const std::string& word : values_of(request.headers, "Sec-Fetch-Site"))
    if (word != "same-origin" && word != "none")
      return Refusal{403, "From another site", "The browser says that another site asks."};
  return {};
}

Verdict origin(const Request& request, const Allowed& allowed) {
  const auto named = values_of(request.headers, "Origin");
  if (named.size() > 1) return Refusal{400, "Origin is not clear", "The request names more than one origin."};
  if (named.empty()) {
    if (request.method == "GET") return {};
    return Refusal{403, "Origin is missing", "What is sent here names the page that it comes from."};
  }
  for (const std::string& name : hosts(allowed.port))
    if (same_word(named.front(), "http://" + name)) return {};
  return Refusal{403, "From another site", "Only the page of this server may ask."};
}

// "application/json", perhaps with "charset=utf-8".
bool is_json(std::string_view type) {
  const std::size_t mark = type.find(';');
  if (!same_word(without_blanks(type.substr(0, mark)), "application/json")) return false;
  if (mark == std::string_view::npos) return true;
  const std::string_view more = without_blanks(type.substr(mark + 1));
  return same_word(more, "charset=utf-8") || same_word(more, "charset=\"utf-8\"");
}

Verdict form(const Request& request, const Allowed&) {
  if (request.method != "POST") return {};
  const auto types = values_of(request.headers, "Content-Type");
  if (types.size() != 1 || !is_json(types.front()))
    return Refusal{415, "Not JSON", "What is sent here is application/json."};
  if (!values_of(request.headers, "Content-Encoding").empty())
    return Refusal{415, "Packed", "What is sent here is not packed."};
  const auto own = values_of(request.headers, "X-Portwright");
  if (own.size() != 1 || own.front() != "1")
    return Refusal{403, "Not from our page", "The header X-Portwright: 1 is missing."};
  return {};
}

Verdict door(const Request& request, const Allowed& allowed) {
  const std::string path = path_of(request);
  if (!is_api(path) || (path == enter_path && request.method == "POST")) return {};
  const std::string cookie = cookie_of(request, cookie_name(allowed.port));
  if (!cookie.empty() && allowed.is_known && allowed.is_known(cookie)) return {};
  return Refusal{401, "Not entered", "Open the address that portwright serve printed; it lets one browser in."};
}

}  // namespace

std::string cookie_name(std::uint16_t port) { return "portwright_" + std::to_string(port); }

bool is_api(const std::string& path) { return path == "/api" || path.starts_with("/api/"); }

std::optional<Refusal> gate(const Request& request, const Allowed& allowed) {
  for (const auto row : {method, target, host, length, site, origin, form, door})
    if (auto refused = row(request, allowed)) return refused;
  return {};
}

}  // namespace portwright::server
