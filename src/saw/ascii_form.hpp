#pragma once
// A text spelled in ASCII for a parser whose tables of letters cannot be trusted with all the others, and back again.

#include <optional>
#include <string>
#include <string_view>

namespace portwright::saw {

struct AsciiForm {
  std::string text;  ///< every byte from 0x80 on, and the mark itself, as the mark and two hexadecimal digits
  char mark = 0;
};

/// Takes a mark that no \u escape in the text stands for, so that what a parser makes of the text can be turned back
/// without doubt. None when every mark is escaped somewhere, which no honest file does.
[[nodiscard]] std::optional<AsciiForm> to_ascii(std::string_view text);

/// The text as it was.
[[nodiscard]] std::string from_ascii(std::string_view text, char mark);

}  // namespace portwright::saw
