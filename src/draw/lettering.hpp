#pragma once
// Drawn single-stroke lettering for figures and names on a drawing: a table of our own, tabular figures, lines and
// arcs.

#include <string_view>
#include <vector>

#include "draw/canvas.hpp"
#include "draw/shape.hpp"

namespace portwright::draw {

/// A glyph on its grid: y up from the base line, a capital is 10 high, a small letter 7; all figures are equally wide.
struct Glyph {
  double width = 0.0;
  std::vector<Path> strokes{};
};

/// The glyph of a code point; an empty box where the table has none. Accented letters are composed of letter and
/// accent.
[[nodiscard]] const Glyph& glyph(char32_t code);
/// Whether the table has the code point.
[[nodiscard]] bool has_glyph(char32_t code);

/// Width of a line of lettering [mm], from the first stroke to the last.
[[nodiscard]] double lettering_width(std::string_view text, double height);
/// Strokes of a line of lettering, placed, turned and anchored.
[[nodiscard]] std::vector<Path> lettering_paths(const LetteringItem& item);
/// Weight of its strokes [mm].
[[nodiscard]] double lettering_weight(const TextStyle& style);

}  // namespace portwright::draw
