#pragma once
// Pictures from outside: JPEG and PNG by what is in them, never by what they are called.

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "base/error.hpp"
#include "picture/picture.hpp"

namespace portwright::picture {

enum class Kind { jpeg, png };

/// What is taken at most. The head is looked at first: nothing is decoded of a picture that is too large.
struct Caps {
  std::size_t bytes = std::size_t{24} << 20;  ///< the whole file
  std::int64_t pixels = 50'000'000;           ///< width x height
  int side = 16'384;                          ///< the longer side [pixels]
  int scans = 64;                             ///< of a JPEG that comes in passes
  int longest = 0;  ///< what is asked for: the longer side at most this [pixels]; 0: as large as it is
};

/// What the head of a picture says.
struct Head {
  Kind kind = Kind::jpeg;
  int width = 0;  ///< as stored, before it is turned
  int height = 0;
  friend bool operator==(const Head&, const Head&) = default;
};

/// JPEG or PNG by the first bytes. Errors: unreadable (neither; named where it is a format of phones).
[[nodiscard]] base::Result<Kind> kind_of(std::string_view bytes);

/// Size of a picture, from its head alone. Errors: unreadable, out_of_range (more than the caps allow, or empty).
[[nodiscard]] base::Result<Head> head_of(std::string_view bytes, const Caps& caps = {});

/// The pixels, turned upright as the camera noted, transparent parts on white, colours taken as sRGB whatever profile
/// came with them; with `longest` no larger than asked for. Errors: unreadable (not whole, damaged, a kind of JPEG or
/// PNG that is not known), out_of_range.
[[nodiscard]] base::Result<Picture> read_picture(std::string_view bytes, const Caps& caps = {});

/// How the camera noted that it was held: 1 to 8 (see turned); 1 where nothing is noted that can be trusted.
[[nodiscard]] int orientation_of(std::string_view bytes);

/// When the camera noted that it was taken, as it wrote it: `2026:05:03 14:02:11`; empty where nothing is noted that
/// can be trusted.
[[nodiscard]] std::string taken_of(std::string_view bytes);

/// A JPEG of pixels and nothing else: no camera, no place, no moment, no profile. `quality` 1 to 100.
/// Errors: out_of_range (a side of 0 or above 65,500), storage (no memory).
[[nodiscard]] base::Result<std::string> to_jpeg(const Picture& picture, int quality);

}  // namespace portwright::picture
