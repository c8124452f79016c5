#include "cli/page.hpp"

#include <algorithm>
#include <cstdint>

namespace portwright::cli {
namespace {

struct Letter {
  char32_t code = 0xFFFD;
  std::size_t bytes = 1;
};

// One letter of UTF-8; a byte that is none counts as one replacement mark.
Letter letter_at(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) { return static_cast<std::uint32_t>(static_cast<unsigned char>(text[i])); };
  const std::uint32_t first = byte(at);
  if (first < 0x80) return {first, 1};
  const std::size_t length = first >= 0xF0 && first < 0xF5   ? 4
                             : first >= 0xE0 && first < 0xF0 ? 3
                             : first >= 0xC2 && first < 0xE0 ? 2
                                                             : 0;
  if (length == 0 || at + length > text.size()) return {};
  std::uint32_t code = first & (0xFFU >> (length + 1));
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(at + i) & 0xC0U) != 0x80U) return {};
    code = code << 6 | (byte(at + i) & 0x3FU);
  }
  const bool overlong = (length == 3 && code < 0x800) || (length == 4 && code < 0x10000);
  if (overlong || (code >= 0xD800 && code < 0xE000) || code > 0x10FFFF) return {};
  return {code, length};
}

struct Span {
  char32_t first, last;
};
bool within(char32_t code, const Span* spans, std::size_t count) {
  return std::any_of(spans, spans + count, [&](const Span& s) { return code >= s.first && code <= s.last; });
}

// Marks that stand on the letter before, and East Asian wide letters: the great blocks, as terminals take them.
constexpr Span zero_wide[] = {{0x300, 0x36F},   {0x483, 0x489},   {0x591, 0x5BD},   {0x610, 0x61A},  {0x64B, 0x65F},
                              {0x200B, 0x200F}, {0x20D0, 0x20FF}, {0xFE00, 0xFE0F}, {0xFE20, 0xFE2F}};
constexpr Span two_wide[] = {{0x1100, 0x115F},   {0x231A, 0x231B},  {0x23E9, 0x23EC},   {0x2E80, 0x303E},
                             {0x3041, 0xA4CF},   {0xAC00, 0xD7A3},  {0xF900, 0xFAFF},   {0xFE30, 0xFE6F},
                             {0xFF00, 0xFF60},   {0xFFE0, 0xFFE6},  {0x1F300, 0x1F64F}, {0x1F680, 0x1F6FF},
                             {0x1F900, 0x1F9FF}, {0x20000, 0x3FFFD}};

std::size_t width_of(char32_t code) {
  if (within(code, zero_wide, std::size(zero_wide))) return 0;
  return within(code, two_wide, std::size(two_wide)) ? 2 : 1;
}

bool is_control(char32_t code) {
  return code < 0x20 || (code >= 0x7F && code < 0xA0) || (code >= 0x202A && code <= 0x202E) ||
         (code >= 0x2066 && code <= 0x2069) || code == 0x200E || code == 0x200F || code == 0x2028 || code == 0x2029 ||
         code == 0xFEFF;
}

// Longest beginning that fits a width.
std::string_view beginning(std::string_view text, std::size_t width) {
  std::size_t at = 0, taken = 0;
  while (at < text.size()) {
    const Letter letter = letter_at(text, at);
    if (taken + width_of(letter.code) > width) break;
    taken += width_of(letter.code);
    at += letter.bytes;
  }
  return text.substr(0, at);
}

std::string fitted(std::string_view text, std::size_t width) {
  if (columns(text) <= width) return std::string(text);
  return width == 0 ? std::string() : std::string(beginning(text, width - 1)) + "\u2026";
}

}  // namespace

std::size_t columns(std::string_view text) {
  std::size_t sum = 0;
  for (std::size_t at = 0; at < text.size();) {
    const Letter letter = letter_at(text, at);
    sum += width_of(letter.code);
    at += letter.bytes;
  }
  return sum;
}

std::string safe(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const Letter letter = letter_at(text, at);
    const bool broken = letter.code == 0xFFFD && letter.bytes == 1;
    if (is_control(letter.code))
      out += ' ';
    else if (broken)
      out += "\uFFFD";
    else
      out += text.substr(at, letter.bytes);
    at += letter.bytes;
  }
  return out;
}

std::string left(std::string_view text, std::size_t width) {
  const std::string shown = fitted(text, width);
  return shown + std::string(width - std::min(width, columns(shown)), ' ');
}

std::string right(std::string_view text, std::size_t width) {
  const std::string shown = fitted(text, width);
  return std::string(width - std::min(width, columns(shown)), ' ') + shown;
}

std::vector<std::string> wrap(std::string_view text, std::size_t width) {
  std::vector<std::string> lines;
  std::string line;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t start = text.find_first_not_of(' ', at);
    if (start == std::string_view::npos) break;
    const std::size_t end = std::min(text.find(' ', start), text.size());
    std::string_view word = text.substr(start, end - start);
    at = end;
    if (!line.empty() && columns(line) + 1 + columns(word) > width) {
      lines.push_back(std::move(line));
      line.clear();
    }
    for (; columns(word) > width; word.remove_prefix(beginning(word, width).size()))
      lines.emplace_back(beginning(word, width));
    line += (line.empty() ? "" : " ") + std::string(word);
  }
  if (!line.empty() || lines.empty()) lines.push_back(std::move(line));
  return lines;
}

std::string Page::painted(const Piece& piece) const {
  if (!coloured_ || piece.ink == Ink::plain || piece.text.empty()) return piece.text;
  constexpr const char* codes[] = {"", "1", "2", "94", "1;33", "1;31"};
  return std::string("\x1b[") + codes[static_cast<std::size_t>(piece.ink)] + 'm' + piece.text + "\x1b[0m";
}

void Page::line(const std::vector<Piece>& pieces) {
  std::size_t last = pieces.size();
  const auto is_blank = [](const std::string& text) { return text.find_first_not_of(' ') == std::string::npos; };
  while (last > 0 && is_blank(pieces[last - 1].text)) --last;
  for (std::size_t i = 0; i < last; ++i) {
    Piece piece = pieces[i];
    piece.text = safe(piece.text);
    if (i + 1 == last) piece.text.erase(piece.text.find_last_not_of(' ') + 1);
    text_ += painted(piece);
  }
  text_ += '\n';
}

void Page::heading(std::string_view text, std::string_view at_right) {
  line();
  const std::size_t room = page_width - columns(at_right);
  line({{left(text, room), Ink::bold}, {std::string(at_right), Ink::faint}});
}

void Page::rule() {
  std::string dashes;
  for (std::size_t i = 0; i < page_width; ++i) dashes += "\u2500";
  line(dashes, Ink::faint);
}

void Page::paragraph(const Piece& lead, std::string_view text, Ink ink) {
  const std::size_t set_in = columns(lead.text);
  const std::string indent(set_in, ' ');
  bool first = true;
  for (const std::string& part : wrap(safe(text), page_width - set_in)) {
    line({first ? lead : Piece{indent, Ink::plain}, {part, ink}});
    first = false;
  }
}

}  // namespace portwright::cli
