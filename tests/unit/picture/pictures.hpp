#pragma once
// Pictures made for one test: pixels, and files as cameras and programs write them.

#include <png.h>

#include <cstdint>
#include <cstring>
#include <random>
#include <string>
#include <string_view>
#include <vector>

#include "picture/read.hpp"

namespace picture_test {

using namespace portwright;
using picture::Picture;

/// A soft ramp with a dark corner at the top left, so that every turn of it is another picture.
inline Picture scene(int width, int height) {
  Picture out{width, height, {}};
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x) {
      const bool corner = x < width / 3 && y < height / 4;
      out.rgb.push_back(static_cast<std::uint8_t>(corner ? 20 : 120 + 100 * x / width));
      out.rgb.push_back(static_cast<std::uint8_t>(corner ? 20 : 120 + 100 * y / height));
      out.rgb.push_back(static_cast<std::uint8_t>(corner ? 20 : 200));
    }
  return out;
}

inline std::string jpeg(const Picture& picture, int quality = 90) { return picture::to_jpeg(picture, quality).value(); }

/// A number of two or four bytes, the greatest byte first.
inline std::string big(std::uint32_t value, int size) {
  std::string out;
  for (int i = size - 1; i >= 0; --i) out += static_cast<char>(value >> (8 * i) & 0xffU);
  return out;
}

/// What a camera notes: how it was held, when, and where; the place and the maker are there to be dropped.
inline std::string note(int orientation, const std::string& taken = "2026:05:03 14:02:11", bool little = false) {
  const auto number = [&](std::uint32_t value, int size) {
    std::string out = big(value, size);
    if (little) std::reverse(out.begin(), out.end());
    return out;
  };
  const auto entry = [&](std::uint32_t tag, std::uint32_t type, std::uint32_t count, const std::string& value) {
    return number(tag, 2) + number(type, 2) + number(count, 4) + value;
  };
  const std::string held = number(static_cast<std::uint32_t>(orientation), 2) + std::string(2, '\0');
  std::string out = (little ? "II" : "MM") + number(42, 2) + number(8, 4);
  out += number(3, 2);                 // 8: three entries, 42 bytes with the link at their end
  out += entry(0x010f, 2, 4, "ACME");  // maker
  out += entry(0x0112, 3, 1, held);    // how it was held
  out += entry(0x8769, 4, 1, number(50, 4)) + number(0, 4);
  out += number(1, 2) + entry(0x9003, 2, 20, number(68, 4)) + number(0, 4);  // 50: one entry
  return out + taken + '\0' + "N 47 12 03.5 E 8 31";                         // 68: the moment; after it a place
}

/// The JPEG with a segment after its first two bytes.
inline std::string with_segment(const std::string& jpeg, int marker, const std::string& body) {
  return jpeg.substr(0, 2) + "\xff" + static_cast<char>(marker) + big(static_cast<std::uint32_t>(body.size() + 2), 2) +
         body + jpeg.substr(2);
}
inline std::string with_note(const std::string& jpeg, const std::string& note) {
  return with_segment(jpeg, 0xe1, std::string("Exif\0\0", 6) + note);
}

/// A PNG of any kind that there is.
/// @param rows as the kind has them
inline std::string png(int width, int height, int depth, int colour, const std::vector<std::string>& rows,
                       bool interlaced = false, const std::string& palette = {}, const std::string& clear = {}) {
  std::string out;
  png_structp writer = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
  png_infop info = png_create_info_struct(writer);
  png_set_write_fn(
      writer, &out,
      [](png_structp from, png_bytep bytes, png_size_t size) {
        static_cast<std::string*>(png_get_io_ptr(from))->append(reinterpret_cast<const char*>(bytes), size);
      },
      [](png_structp) {});
  png_set_IHDR(writer, info, static_cast<png_uint_32>(width), static_cast<png_uint_32>(height), depth, colour,
               interlaced ? PNG_INTERLACE_ADAM7 : PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_BASE, PNG_FILTER_TYPE_BASE);
  if (!palette.empty())
    png_set_PLTE(writer, info, reinterpret_cast<png_const_colorp>(palette.data()),
                 static_cast<int>(palette.size() / 3));
  if (!clear.empty())
    png_set_tRNS(writer, info, reinterpret_cast<png_const_bytep>(clear.data()), static_cast<int>(clear.size()),
                 nullptr);
  png_write_info(writer, info);
  std::vector<png_bytep> pointers;
  for (const std::string& row : rows) pointers.push_back(reinterpret_cast<png_bytep>(const_cast<char*>(row.data())));
  png_write_image(writer, pointers.data());
  png_write_end(writer, nullptr);
  png_destroy_write_struct(&writer, &info);
  return out;
}

inline std::string png(const Picture& picture, bool interlaced = false) {
  std::vector<std::string> rows;
  const std::size_t row = static_cast<std::size_t>(picture.width) * 3;
  for (int y = 0; y < picture.height; ++y)
    rows.emplace_back(reinterpret_cast<const char*>(picture.rgb.data()) + static_cast<std::size_t>(y) * row, row);
  return png(picture.width, picture.height, 8, PNG_COLOR_TYPE_RGB, rows, interlaced);
}

inline int red(const Picture& picture, int x, int y) {
  return picture
      .rgb[(static_cast<std::size_t>(y) * static_cast<std::size_t>(picture.width) + static_cast<std::size_t>(x)) * 3];
}

}  // namespace picture_test
