#pragma once
// Words in a text face: cleaning what a user typed, how wide it is, and where a line breaks.

#include <string>
#include <string_view>
#include <vector>

namespace portwright::draw {

/// Code points of UTF-8 text; U+FFFD for each byte that is not UTF-8.
[[nodiscard]] std::vector<char32_t> code_points(std::string_view text);
[[nodiscard]] std::string to_utf8(char32_t code);

/// Text fit for paper: valid UTF-8; control characters, line ends and direction marks become blanks.
[[nodiscard]] std::string clean_text(std::string_view text);

/// Width of a line [mm] at an em of `size` [mm], by the widths of DejaVu Sans (plain and bold); other faces in use are
/// no wider.
[[nodiscard]] double words_width(std::string_view text, double size, bool bold = false);

/// Lines no wider than `width` [mm], broken at blanks; a longer word is cut.
[[nodiscard]] std::vector<std::string> wrapped(std::string_view text, double size, double width, bool bold = false);

/// The text, or its beginning and an ellipsis, no wider than `width` [mm].
[[nodiscard]] std::string fitted(std::string_view text, double size, double width, bool bold = false);

}  // namespace portwright::draw
