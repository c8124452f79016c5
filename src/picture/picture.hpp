#pragma once
// A picture as plain data, and what may be done to it without knowing where it came from.

#include <cstdint>
#include <vector>

namespace portwright::picture {

/// Rows from the top, pixels from the left, three bytes each: red, green, blue as sRGB has them.
struct Picture {
  int width = 0;
  int height = 0;
  std::vector<std::uint8_t> rgb;  ///< width x height x 3
  friend bool operator==(const Picture&, const Picture&) = default;
};

/// The same in one byte a pixel: 0 black, 255 white, spaced as sRGB spaces its levels.
struct Grey {
  int width = 0;
  int height = 0;
  std::vector<std::uint8_t> light;  ///< width x height
  friend bool operator==(const Grey&, const Grey&) = default;
};

/// Lightness of every pixel: 0.299 red + 0.587 green + 0.114 blue, rounded.
[[nodiscard]] Grey grey_of(const Picture& picture);

/// The same picture with its longer side at most `longest` pixels (at least 1), each new pixel the mean of the area
/// that it covers. A picture that is small enough comes back as it is.
[[nodiscard]] Picture shrunk(const Picture& picture, int longest);

/// Turned and mirrored as a camera's note asks: 1 as it is, 2 mirrored, 3 half a turn, 4 upside down, 5 to 8 with the
/// sides exchanged (6: a quarter to the right, 8: a quarter to the left). Any other number: as it is.
[[nodiscard]] Picture turned(Picture picture, int orientation);

}  // namespace portwright::picture
