#pragma once
// The drawn letters themselves, as a small language of pen strokes. Only draw/lettering.cpp reads it.

#include <span>

namespace portwright::draw {

/// One letter as drawn. `pen` is a list of strokes on the grid (y up, capital 10, small letter 7):
/// `m x y` sets the pen down, `l x y` draws a line; arcs end at x y: `h` half a circle clockwise, `H` the other way,
/// `q` and `Q` a quarter, `a b x y` any arc of bulge b = tan(sweep / 4), clockwise when positive.
struct DrawnLetter {
  char32_t code;
  double width;
  const char* pen;
};

/// A letter made of another and an accent that is drawn over it.
struct AccentedLetter {
  char32_t code;
  char32_t letter;
  char32_t accent;  ///< one of drawn_accents()
};

[[nodiscard]] std::span<const DrawnLetter> drawn_letters();
/// Accents, centred on x = 0, drawn for a small letter; over capitals they stand 3 higher.
[[nodiscard]] std::span<const DrawnLetter> drawn_accents();
[[nodiscard]] std::span<const AccentedLetter> accented_letters();

}  // namespace portwright::draw
