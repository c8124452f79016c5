#pragma once
// A small photo as a phone sends it.

#include <string>

#include "picture/read.hpp"

namespace photo_test {

using namespace portwright;

/// A picture of some greys; another `seed` is another picture.
inline picture::Picture scene(int width = 64, int height = 48, int seed = 0) {
  picture::Picture out{width, height, {}};
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x)
      for (int c = 0; c < 3; ++c)
        out.rgb.push_back(static_cast<std::uint8_t>((x * 3 + y * 2 + c * 30 + seed * 17) % 200 + 20));
  return out;
}

/// With what a camera notes: held a quarter to the right, taken on a day in May, and a place that nobody is to know.
inline std::string jpeg(int width = 64, int height = 48, int seed = 0) {
  const std::string plain = picture::to_jpeg(scene(width, height, seed), 90).value();
  std::string note("Exif\0\0MM\0\x2a\0\0\0\x08", 14);
  note += std::string("\0\x02\x01\x12\0\x03\0\0\0\x01\0\x06\0\0\x87\x69\0\x04\0\0\0\x01\0\0\0\x26\0\0\0\0", 30);
  note += std::string("\0\x01\x90\x03\0\x02\0\0\0\x14\0\0\0\x38\0\0\0\0", 18);
  note += std::string("2026:05:03 14:02:11\0", 20) + "N 47 12 03.5 E 8 31";
  const std::size_t length = note.size() + 2;
  return plain.substr(0, 2) + "\xff\xe1" + static_cast<char>(length >> 8U) + static_cast<char>(length & 0xffU) + note +
         plain.substr(2);
}

}  // namespace photo_test
