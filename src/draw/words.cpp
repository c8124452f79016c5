#include "draw/words.hpp"

#include <algorithm>

#include "draw/words_widths.hpp"

namespace portwright::draw {
namespace {

constexpr char32_t replacement = 0xFFFD;

/// Length of the UTF-8 sequence a lead byte begins, and its own bits; 0 for a byte that begins none.
struct Lead {
  int length;
  char32_t bits;
};
Lead lead_of(unsigned char c) {
  if (c < 0x80) return {1, c};
  if (c >= 0xC2 && c < 0xE0) return {2, char32_t{c} & 0x1FU};
  if (c >= 0xE0 && c < 0xF0) return {3, char32_t{c} & 0x0FU};
  if (c >= 0xF0 && c < 0xF5) return {4, char32_t{c} & 0x07U};
  return {0, 0};
}

/// Decodes one code point at `i` and steps past it.
char32_t decode(std::string_view text, std::size_t& i) {
  const auto [length, bits] = lead_of(static_cast<unsigned char>(text[i]));
  const std::size_t start = i++;
  if (length == 0) return replacement;
  char32_t code = bits;
  for (int k = 1; k < length; ++k) {
    const std::size_t at = start + static_cast<std::size_t>(k);
    if (at >= text.size() || (static_cast<unsigned char>(text[at]) & 0xC0U) != 0x80U) return replacement;
    code = code << 6 | (static_cast<unsigned char>(text[at]) & 0x3FU);
  }
  const bool overlong = (length == 3 && code < 0x800) || (length == 4 && code < 0x10000);
  if (overlong || code > 0x10FFFF || (code >= 0xD800 && code < 0xE000)) return replacement;
  i = start + static_cast<std::size_t>(length);
  return code;
}

/// Line ends, controls, direction marks and non-characters have no place on paper.
bool is_unprintable(char32_t c) {
  return c < 0x20 || (c >= 0x7F && c < 0xA0) || (c >= 0x200B && c <= 0x200F) || (c >= 0x2028 && c <= 0x202E) ||
         (c >= 0x2060 && c <= 0x206F) || c == 0xFEFF || (c >= 0xFDD0 && c <= 0xFDEF) || (c & 0xFFFEU) == 0xFFFEU;
}

/// Longest beginning of a word that fits.
std::size_t fitting(std::string_view word, double size, double width, bool bold) {
  std::size_t end = 0;
  double sum = 0.0;
  while (end < word.size()) {
    std::size_t next = end;
    sum += size * advance(decode(word, next), bold);
    if (sum > width && end > 0) break;
    end = next;
  }
  return end;
}

}  // namespace

std::vector<char32_t> code_points(std::string_view text) {
  std::vector<char32_t> out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size();) out.push_back(decode(text, i));
  return out;
}

std::string to_utf8(char32_t c) {
  const auto byte = [](char32_t v) { return static_cast<char>(static_cast<unsigned char>(v)); };
  if (c < 0x80) return {byte(c)};
  if (c < 0x800) return {byte(0xC0U | c >> 6), byte(0x80U | (c & 0x3FU))};
  if (c < 0x10000) return {byte(0xE0U | c >> 12), byte(0x80U | (c >> 6 & 0x3FU)), byte(0x80U | (c & 0x3FU))};
  return {byte(0xF0U | c >> 18), byte(0x80U | (c >> 12 & 0x3FU)), byte(0x80U | (c >> 6 & 0x3FU)),
          byte(0x80U | (c & 0x3FU))};
}

std::string clean_text(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (const char32_t c : code_points(text)) out += to_utf8(is_unprintable(c) ? U' ' : c);
  return out;
}

double words_width(std::string_view text, double size, bool bold) {
  double sum = 0.0;
  for (const char32_t c : code_points(text)) sum += advance(c, bold);
  return size * sum;
}

std::vector<std::string> wrapped(std::string_view text, double size, double width, bool bold) {
  std::vector<std::string> lines;
  std::string current;
  const auto flush = [&] {
    if (!current.empty()) lines.push_back(std::move(current));
    current.clear();
  };
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t start = text.find_first_not_of(" \n", i);
    if (start == std::string_view::npos) break;
    const std::size_t end = std::min(text.find_first_of(" \n", start), text.size());
    std::string_view word = text.substr(start, end - start);
    i = end;
    if (!current.empty() && words_width(current + " " + std::string(word), size, bold) > width) flush();
    while (words_width(word, size, bold) > width) {
      flush();
      const std::size_t cut = fitting(word, size, width, bold);
      if (cut >= word.size()) break;
      lines.emplace_back(word.substr(0, cut));
      word.remove_prefix(cut);
    }
    current += (current.empty() ? "" : " ") + std::string(word);
  }
  flush();
  return lines;
}

std::string fitted(std::string_view text, double size, double width, bool bold) {
  if (words_width(text, size, bold) <= width) return std::string(text);
  const double room = width - words_width("…", size, bold);
  std::string cut(text.substr(0, fitting(text, size, room, bold)));
  while (!cut.empty() && cut.back() == ' ') cut.pop_back();
  return cut + "…";
}

}  // namespace portwright::draw
