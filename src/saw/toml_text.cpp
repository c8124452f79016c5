#include "saw/toml_text.hpp"

#include <algorithm>

#include "saw/text_guard.hpp"

namespace portwright::saw {
namespace {

std::string escaped(unsigned char c) {
  constexpr char digits[] = "0123456789ABCDEF";
  switch (c) {
    case '"':
      return "\\\"";
    case '\\':
      return "\\\\";
    case '\n':
      return "\\n";
    case '\r':
      return "\\r";
    case '\t':
      return "\\t";
    default:
      return std::string("\\u00") + digits[c >> 4] + digits[c & 15];
  }
}

bool is_bare(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == '-';
}

}  // namespace

std::string toml_text(std::string_view text) {
  std::string out = "\"";
  while (!text.empty()) {
    const auto c = static_cast<unsigned char>(text[0]);
    const std::size_t size = character_size(text, 0);
    if (c < 0x20 || c == 0x7F || c == '"' || c == '\\')
      out += escaped(c);
    else if (size == 0)
      out += "\xEF\xBF\xBD";
    else
      out += text.substr(0, size);
    text.remove_prefix(std::max<std::size_t>(size, 1));
  }
  return out + "\"";
}

std::string toml_key(std::string_view key) {
  return !key.empty() && std::all_of(key.begin(), key.end(), is_bare) ? std::string(key) : toml_text(key);
}

}  // namespace portwright::saw
