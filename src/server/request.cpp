#include "server/request.hpp"

#include <algorithm>

namespace portwright::server {
namespace {

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

bool is_plain(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
}

// Parts of a text between marks.
std::vector<std::string_view> parts(std::string_view text, char mark) {
  std::vector<std::string_view> out;
  for (;;) {
    const std::size_t end = text.find(mark);
    out.push_back(text.substr(0, end));
    if (end == std::string_view::npos) return out;
    text.remove_prefix(end + 1);
  }
}

}  // namespace

bool same_word(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](char x, char y) { return lower(x) == lower(y); });
}

std::vector<std::string> values_of(const Headers& headers, std::string_view name) {
  std::vector<std::string> out;
  for (const auto& [key, value] : headers)
    if (same_word(key, name)) out.push_back(value);
  return out;
}

std::string value_of(const Headers& headers, std::string_view name) {
  for (const auto& [key, value] : headers)
    if (same_word(key, name)) return value;
  return {};
}

std::string path_of(const Request& request) { return request.target.substr(0, request.target.find('?')); }

std::string query_value(const Request& request, std::string_view name) {
  const std::size_t mark = request.target.find('?');
  if (mark == std::string::npos) return {};
  for (const std::string_view part : parts(std::string_view(request.target).substr(mark + 1), '&')) {
    if (!part.starts_with(name) || part.size() <= name.size() || part[name.size()] != '=') continue;
    const std::string_view value = part.substr(name.size() + 1);
    return std::all_of(value.begin(), value.end(), is_plain) ? std::string(value) : std::string();
  }
  return {};
}

std::string_view without_blanks(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

std::string cookie_of(const Request& request, std::string_view name) {
  std::string found;
  int count = 0;
  for (const std::string& line : values_of(request.headers, "Cookie"))
    for (const std::string_view part : parts(line, ';')) {
      const std::string_view pair = without_blanks(part);
      if (!pair.starts_with(name) || pair.size() <= name.size() || pair[name.size()] != '=') continue;
      found = pair.substr(name.size() + 1);
      ++count;
    }
  return count == 1 ? found : std::string();
}

}  // namespace portwright::server
