#pragma once
// A picture read as light: levels in proportion to what the paper sends back, between the pixels too.

#include <vector>

#include "picture/picture.hpp"
#include "rubbing/plane.hpp"

namespace portwright::rubbing {

/// Light of an sRGB level 0..255, 0..1 (IEC 61966-2-1). A blurred edge lies half way in light, not in levels.
[[nodiscard]] double light_of(std::uint8_t level);

/// Reads a picture that outlives it.
class Light {
 public:
  explicit Light(const picture::Grey& grey);
  /// Between the middles of four pixels, straight; at the rim as the nearest pixels.
  [[nodiscard]] double at(Point pixel) const;
  [[nodiscard]] bool holds(Point pixel) const;
  [[nodiscard]] int width() const { return grey_.width; }
  [[nodiscard]] int height() const { return grey_.height; }

 private:
  const picture::Grey& grey_;
  std::array<float, 256> table_{};
};

/// Levels along a straight line in a picture, `count` of them from `from` to `to`, both ends among them.
[[nodiscard]] std::vector<double> profile(const Light& light, Point from, Point to, std::size_t count);

/// Middle value. 0 of nothing.
[[nodiscard]] double median_of(std::vector<double> values);

}  // namespace portwright::rubbing
