#include "base/quantity/normal.hpp"

#include <array>
#include <cstdint>
#include <utility>

namespace portwright::base::typed {
namespace {

struct Character {
  char32_t code = 0;
  std::size_t size = 0;  // 0: not UTF-8
};

// One character of UTF-8 at the head of the text; refuses overlong forms, surrogates and values past U+10FFFF.
Character first_character(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned lead = byte(0);
  if (lead < 0x80) return {lead, 1};
  const std::size_t size = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
  if (lead < 0xC2 || lead > 0xF4 || text.size() < size) return {};
  char32_t code = lead & (0x7FU >> size);
  for (std::size_t i = 1; i < size; ++i) {
    if ((byte(i) & 0xC0U) != 0x80U) return {};
    code = code << 6 | (byte(i) & 0x3FU);
  }
  constexpr std::array<char32_t, 5> least{0, 0, 0x80, 0x800, 0x10000};
  if (code < least[size] || code > 0x10FFFF || (code >= 0xD800 && code <= 0xDFFF)) return {};
  return {code, size};
}

constexpr std::pair<char32_t, const char*> replacements[] = {
    {U'\u00A0', " "},    {U'\u2007', " "},    {U'\u202F', "\x1f"}, {U'\u2009', "\x1f"}, {U'\u2212', "-"},
    {U'\u2013', "\x1e"}, {U'\u00B1', "+-"},   {U'\u00BD', " 1/2"}, {U'\u00BC', " 1/4"}, {U'\u00BE', " 3/4"},
    {U'\u215B', " 1/8"}, {U'\u215C', " 3/8"}, {U'\u215D', " 5/8"}, {U'\u215E', " 7/8"}, {U'\u2044', "/"},
    {U'\u00B2', "^2"},   {U'\u00B3', "^3"},   {U'\u00B0', "deg"},  {U'\u00BA', "deg"},  {U'\u02DA', "deg"},
    {U'\u00B5', "u"},    {U'\u03BC', "u"},    {U'\u201C', "\""},   {U'\u201D', "\""},   {U'\u2033', "\""},
    {U'\u2019', "'"},    {U'\u2032', "'"},
};

const char* replacement(char32_t code) {
  for (const auto& [from, to] : replacements) {
    if (from == code) return to;
  }
  return nullptr;
}

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size())) {
    text.replace(at, from.size(), to);
  }
}

std::string escaped(std::string_view bytes) {
  constexpr const char* hex = "0123456789ABCDEF";
  std::string out;
  for (const char c : bytes) {
    const auto b = static_cast<unsigned char>(c);
    out += {'\\', 'x', hex[b >> 4], hex[b & 15]};
  }
  return out;
}

}  // namespace

std::string_view trimmed(std::string_view text) {
  const auto blank = [](char c) { return is_blank(c) || c == '\t' || c == '\r' || c == '\n'; };
  while (!text.empty() && blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && blank(text.back())) text.remove_suffix(1);
  return text;
}

std::optional<std::string> normal_form(std::string_view text, std::string& why) {
  std::string out;
  text = trimmed(text);
  while (!text.empty()) {
    const Character c = first_character(text);
    if (c.size == 0) {
      why = "is not UTF-8 text";
      return std::nullopt;
    }
    if (const char* plain = c.code == U'\t' ? " " : replacement(c.code)) {
      out += plain;
    } else if (c.code >= 0x20 && c.code < 0x7F) {
      out += static_cast<char>(c.code);
    } else {
      why = c.code < 0x20 || c.code == 0x7F
                ? "has a control character in it"
                : "has a character in it that no quantity has: " + quoted(text.substr(0, c.size));
      return std::nullopt;
    }
    text.remove_prefix(c.size);
  }
  replace_all(out, "+/-", "+-");
  return std::string(trimmed(out));
}

std::string quoted(std::string_view text) {
  std::string out = "\"";
  const bool cut = text.size() > 64;
  text = text.substr(0, 64);
  while (!text.empty()) {
    const Character c = first_character(text);
    const std::size_t size = c.size == 0 ? 1 : c.size;
    // Invisible and direction-changing characters would let a message lie about what was typed.
    const bool hidden = c.size == 0 || c.code < 0x20 || (c.code >= 0x7F && c.code < 0xA0) || c.code == 0xAD ||
                        (c.code >= 0x200B && c.code <= 0x200F) || (c.code >= 0x2028 && c.code <= 0x202E) ||
                        (c.code >= 0x2060 && c.code <= 0x206F) || c.code == 0xFEFF ||
                        (c.code >= 0x300 && c.code < 0x370);
    if (hidden) {
      out += escaped(text.substr(0, size));
    } else {
      out += text.substr(0, size);
    }
    text.remove_prefix(size);
  }
  return out + (cut ? "...\"" : "\"");
}

}  // namespace portwright::base::typed
