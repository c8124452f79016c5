#pragma once
// A canvas as an SVG file at true scale: user units are millimetres.

#include <string>
#include <string_view>

#include "draw/canvas.hpp"

namespace portwright::draw {

struct SvgOptions {
  const Theme* theme = nullptr;  ///< null is print
  bool ground = true;            ///< paint the paper
  std::string id_prefix = "d";   ///< begins every id, so that several drawings may share a page
};

/// The drawing as SVG 1.1 text: width and height in mm, view box in mm, title and description first.
/// The same canvas and options give the same bytes on every machine.
[[nodiscard]] std::string to_svg(const Canvas& canvas, const SvgOptions& options = {});

/// Text made safe for SVG and HTML, as content and as an attribute: the one place where a user's text is escaped.
[[nodiscard]] std::string escaped(std::string_view text);

/// A number as the writers put it down: at most `decimals` places, point, no exponent, never "-0".
[[nodiscard]] std::string plain_number(double value, int decimals = 3);

}  // namespace portwright::draw
