#pragma once
// The two kinds of file, each behind one door of its own; the caller has looked at the first bytes.

#include "picture/read.hpp"

namespace portwright::picture {

/// Size as the head says, nothing decoded. Errors: unreadable.
[[nodiscard]] base::Result<Head> jpeg_head(std::string_view bytes);
[[nodiscard]] base::Result<Head> png_head(std::string_view bytes);

/// Pixels as stored. A JPEG may come halved, quartered or at an eighth while its longer side stays at or above
/// `caps.longest`. Errors: unreadable, storage (more memory than the caps stand for).
[[nodiscard]] base::Result<Picture> jpeg_pixels(std::string_view bytes, const Head& head, const Caps& caps);
[[nodiscard]] base::Result<Picture> png_pixels(std::string_view bytes, const Head& head);

}  // namespace portwright::picture
