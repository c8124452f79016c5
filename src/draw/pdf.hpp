#pragma once
// A document as PDF at true scale. One page per canvas, of exactly its size.

#include <cstdint>
#include <string>

#include "base/error.hpp"
#include "draw/canvas.hpp"

namespace portwright::draw {

struct PdfOptions {
  const Theme* theme = nullptr;  ///< null is print
  /// Date put into the file [s since 1970, UTC]; the environment's SOURCE_DATE_EPOCH goes before it.
  std::int64_t date = 0;
  /// Text faces for words, embedded as far as used; where one is not there, words are drawn as lettering.
  std::string face = "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf";
  std::string face_bold = "/usr/share/fonts/truetype/dejavu/DejaVuSans-Bold.ttf";
};

/// The document as PDF bytes; the same document, options and faces give the same bytes. Asks the reader not to scale in
/// print. Lettering is drawn as strokes and also laid in as text that cannot be seen, so that figures can be found and
/// copied. Errors: impossible (no pages, a page under 2 mm or over 5 m, numbers that are not finite), fault (the PDF
/// library gave up).
[[nodiscard]] base::Result<std::string> to_pdf(const Document& document, const PdfOptions& options = {});

}  // namespace portwright::draw
