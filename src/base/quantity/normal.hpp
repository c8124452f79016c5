#pragma once
// The bytes of a typed quantity brought to a few plain ASCII characters, so that the grammar need not know about
// phones.

#include <optional>
#include <string>
#include <string_view>

namespace portwright::base::typed {

/// Stands for a narrow or thin blank (U+202F, U+2009), which may part thousands.
inline constexpr char group_blank = '\x1f';
/// Stands for an en dash: a minus before a number, a span between two.
inline constexpr char en_dash = '\x1e';

/// Text with blanks, minus, fraction, degree, inch, micro and exponent signs in plain forms ("½" is " 1/2", "°" "deg",
/// "²" "^2", "±" and "+/-" "+-"), trimmed. None for bytes that are not UTF-8, control characters, and characters that
/// no quantity has; `why` then says which.
[[nodiscard]] std::optional<std::string> normal_form(std::string_view text, std::string& why);

/// The text in quotes as it may be shown to a person: bytes that are no UTF-8 and control characters as \xNN,
/// cut after 64 bytes.
[[nodiscard]] std::string quoted(std::string_view text);

[[nodiscard]] inline bool is_digit(char c) { return c >= '0' && c <= '9'; }
[[nodiscard]] inline bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
[[nodiscard]] inline bool is_blank(char c) { return c == ' ' || c == group_blank; }
[[nodiscard]] std::string_view trimmed(std::string_view text);

}  // namespace portwright::base::typed
