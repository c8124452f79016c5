#pragma once
// How far each letter of the text face carries on.

namespace portwright::draw {

/// Advance width of a code point [em] in DejaVu Sans, plain or bold; a fair guess outside Latin, Greek and signs.
[[nodiscard]] double advance(char32_t code, bool bold);

}  // namespace portwright::draw
