#include "saw/ascii_form.hpp"

#include <algorithm>

namespace portwright::saw {
namespace {

constexpr std::string_view marks = "~^`|$@!?";
constexpr std::string_view digits = "0123456789ABCDEF";

char capital(char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; }

std::string hexadecimal(char c) {
  const auto b = static_cast<unsigned char>(c);
  return {digits[b >> 4], digits[b & 15]};
}

int digit(char c) {
  const std::size_t at = digits.find(c);
  return at == std::string_view::npos ? -1 : static_cast<int>(at);
}

}  // namespace

std::optional<AsciiForm> to_ascii(std::string_view text) {
  std::string capitals(text);
  std::transform(capitals.begin(), capitals.end(), capitals.begin(), capital);
  const auto unescaped = [&](char mark) { return capitals.find("00" + hexadecimal(mark)) == std::string::npos; };
  const auto found = std::find_if(marks.begin(), marks.end(), unescaped);
  if (found == marks.end()) return std::nullopt;
  AsciiForm out{{}, *found};
  for (const char c : text) {
    const bool plain = static_cast<unsigned char>(c) < 0x80 && c != out.mark;
    if (plain)
      out.text += c;
    else
      out.text.append(1, out.mark).append(hexadecimal(c));
  }
  return out;
}

std::string from_ascii(std::string_view text, char mark) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const int high = text[i] == mark && i + 2 < text.size() ? digit(text[i + 1]) : -1;
    const int low = high >= 0 ? digit(text[i + 2]) : -1;
    if (low < 0) {
      out += text[i];
    } else {
      out += static_cast<char>(high * 16 + low);
      i += 2;
    }
  }
  return out;
}

}  // namespace portwright::saw
