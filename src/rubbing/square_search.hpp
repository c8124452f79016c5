#pragma once
// The printed black ring in a photo, roughly: where to look for its edges. Inside the module only.

#include <vector>

#include "picture/picture.hpp"
#include "rubbing/plane.hpp"

namespace portwright::rubbing {

/// What looks like the ring: outer corners [pixels of the picture given], clockwise as one looks at it, from any one.
struct RingGuess {
  Corners outer{};
  bool cut_off = false;  ///< reaches the picture's rim
};

/// Every dark closed ring that is about as thick as the printed one, greatest first, at most eight. Worked out in a
/// picture made smaller, so true to a few pixels.
[[nodiscard]] std::vector<RingGuess> find_rings(const picture::Grey& grey);

}  // namespace portwright::rubbing
