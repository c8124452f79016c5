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

std::vector<std::string> hosts(const Way& way, std::uint16_t port) {
  const std::vector<std::string> names =
      way.by_network() ? std::vector<std::string>{way.at} : std::vector<std::string>{"127.0.0.1", "[::1]", "localhost"};
  std::vector<std::string> out;
  for (const std::string& name : names) {
    out.push_back(name + ':' + std::to_string(port));
    if (port == 80) out.push_back(name);
  }
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
  if (is_listed(hosts(request.way, allowed.port), named.front())) return {};
  return Refusal{403, "Not this host", "The server answers to this machine's own addresses alone."};
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
  for (const std::string& name : hosts(request.way, allowed.port))
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

// One of the types in a list that blanks part; no form can send one that is listed anywhere in the table.
bool is_one_of(std::string_view list, std::string_view type) {
  while (!list.empty()) {
    const std::size_t end = std::min(list.find(' '), list.size());
    if (same_word(list.substr(0, end), without_blanks(type))) return true;
    list.remove_prefix(std::min(end + 1, list.size()));
  }
  return false;
}

Verdict form(const Request& request, const Allowed& allowed) {
  if (request.method != "POST") return {};
  const auto types = values_of(request.headers, "Content-Type");
  const std::string_view takes = allowed.takes ? allowed.takes(path_of(request)) : std::string_view();
  if (!takes.empty() && (types.size() != 1 || !is_one_of(takes, types.front())))
    return Refusal{415, "Not a picture", "What is sent here is one of: " + std::string(takes) + '.'};
  if (takes.empty() && (types.size() != 1 || !is_json(types.front())))
    return Refusal{415, "Not JSON", "What is sent here is application/json."};
  if (!values_of(request.headers, "Content-Encoding").empty())
    return Refusal{415, "Packed", "What is sent here is not packed."};
  const auto own = values_of(request.headers, "X-Portwright");
  if (own.size() != 1 || own.front() != "1")
    return Refusal{403, "Not from our page", "The header X-Portwright: 1 is missing."};
  return {};
}

// The two doors that need no cookie: the machine's on loopback, a device's on the network.
Verdict own_door(const Request& request, const std::string& path) {
  if (request.way.by_network() == (path == pair_path)) return {};
  if (path == pair_path)
    return Refusal{403, "Not from here", "This is the machine itself; devices pair by the network."};
  return Refusal{403, "Not from here", "That address is for a browser on the machine itself."};
}

Verdict door(const Request& request, const Allowed& allowed) {
  const std::string path = path_of(request);
  if (!is_api(path)) return {};
  if (request.method == "POST" && (path == enter_path || path == pair_path)) return own_door(request, path);
  const std::string cookie = cookie_of(request, cookie_name(allowed.port));
  const Role role = cookie.empty() || !allowed.role_of ? Role::nobody : allowed.role_of(request.way, cookie);
  if (role == Role::nobody && request.way.by_network())
    return Refusal{401, "Not paired", "This device is not paired, or not any more."};
  if (role == Role::nobody)
    return Refusal{401, "Not entered", "Open the address that portwright serve printed; it lets one browser in."};
  if (role != Role::machine && (!allowed.needs || allowed.needs(path) == Role::machine))
    return Refusal{403, "The machine's own", "Only the machine that the book lies on does this."};
  return {};
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
