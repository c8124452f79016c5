#include "saw/text_guard.hpp"

#include <algorithm>
#include <string>

#include "base/quantity/normal.hpp"

namespace portwright::saw {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

bool follows(std::string_view text, std::size_t at) {
  return at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U;
}

// Offset behind the quoted text that opens at `at`; a text on one line ends with its line.
std::size_t behind_quotes(std::string_view text, std::size_t at) {
  const char quote = text[at];
  const bool many = text.substr(at, 3) == std::string(3, quote);
  std::size_t i = at + (many ? 3 : 1);
  for (; i < text.size(); ++i) {
    if (text[i] == '\\' && quote == '"')
      ++i;
    else if (!many && (text[i] == quote || text[i] == '\n'))
      return i + 1;
    else if (many && text.substr(i, 3) == std::string(3, quote)) {
      i += 3;
      for (int extra = 0; extra < 2 && i < text.size() && text[i] == quote; ++extra) ++i;
      return i;
    }
  }
  return text.size();
}

// Offset of the first byte outside quoted text and comments for which `stop` holds.
template <class F>
std::size_t first_outside(std::string_view text, F&& stop) {
  for (std::size_t at = 0; at < text.size();) {
    const char c = text[at];
    if (c == '"' || c == '\'') {
      at = behind_quotes(text, at);
    } else if (c == '#') {
      at = std::min(text.find('\n', at), text.size());
    } else if (stop(c)) {
      return at;
    } else {
      ++at;
    }
  }
  return std::string_view::npos;
}

std::size_t line_of(std::string_view text, std::size_t at) {
  return 1 + static_cast<std::size_t>(std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
}

base::Error refusal(std::string message, std::string hint) {
  return {base::ErrorCode::not_a_saw_file, std::move(message), {}, std::move(hint), {}};
}

}  // namespace

std::size_t character_size(std::string_view text, std::size_t at) {
  const auto b = static_cast<unsigned char>(text[at]);
  const auto next = at + 1 < text.size() ? static_cast<unsigned char>(text[at + 1]) : 0U;
  if (b < 0x80) return b == 0 ? 0 : 1;
  if (b >= 0xC2 && b <= 0xDF) return follows(text, at + 1) ? 2 : 0;
  if (b >= 0xE0 && b <= 0xEF) {
    if ((b == 0xE0 && next < 0xA0) || (b == 0xED && next > 0x9F)) return 0;
    return follows(text, at + 1) && follows(text, at + 2) ? 3 : 0;
  }
  if (b >= 0xF0 && b <= 0xF4) {
    if ((b == 0xF0 && next < 0x90) || (b == 0xF4 && next > 0x8F)) return 0;
    return follows(text, at + 1) && follows(text, at + 2) && follows(text, at + 3) ? 4 : 0;
  }
  return 0;
}

std::size_t first_bad_byte(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t size = character_size(text, at);
    if (size == 0) return at;
    at += size;
  }
  return std::string_view::npos;
}

std::size_t first_too_deep(std::string_view text) {
  int open = 0, dots = 0;
  return first_outside(text, [&](char c) {
    if (c == '[' || c == '{') ++open;
    if ((c == ']' || c == '}') && open > 0) --open;
    if (c == '.') ++dots;
    if (c == '\n' || c == '=' || c == ',' || c == '[' || c == '{') dots = 0;
    return open > depth_cap || dots >= depth_cap;
  });
}

std::size_t first_foreign(std::string_view text) {
  return first_outside(text, [](char c) { return static_cast<unsigned char>(c) >= 0x80; });
}

std::optional<base::Error> guard_text(std::string_view text) {
  if (text.size() > file_cap)
    return refusal("the file is longer than 64 KiB",
                   "a saw file holds readings only; photos and notes have their own place");
  if (const std::size_t at = first_bad_byte(text); at != std::string_view::npos)
    return refusal("line " + std::to_string(line_of(text, at)) + " holds a byte that is not UTF-8 text",
                   "save the file as UTF-8");
  if (const std::size_t at = first_too_deep(text); at != std::string_view::npos)
    return refusal("line " + std::to_string(line_of(text, at)) + " nests deeper than " + std::to_string(depth_cap),
                   "no reading of a saw lies that deep");
  const std::size_t mark = text.starts_with(byte_order_mark) ? byte_order_mark.size() : 0;
  if (const std::size_t at = first_foreign(text.substr(mark)); at != std::string_view::npos) {
    const std::string_view rest = text.substr(mark + at);
    return refusal("line " + std::to_string(line_of(text, mark + at)) + " has " +
                       base::typed::quoted(rest.substr(0, character_size(rest, 0))) + " outside quotes",
                   "put texts in straight quotes: key = \"value\"");
  }
  return std::nullopt;
}

}  // namespace portwright::saw
