#include "picture/read.hpp"

#include <algorithm>
#include <new>

#include "picture/codecs.hpp"

namespace portwright::picture {
namespace {

using base::ErrorCode;

constexpr std::string_view jpeg_mark = "\xFF\xD8\xFF";
constexpr std::string_view png_mark("\x89PNG\r\n\x1A\n", 8);

bool is_heic(std::string_view bytes) {
  if (bytes.size() < 12 || bytes.substr(4, 4) != "ftyp") return false;
  const std::string_view brand = bytes.substr(8, 4);
  return brand == "heic" || brand == "heix" || brand == "mif1" || brand == "hevc" || brand == "msf1" || brand == "avif";
}

base::Result<Head> stored_head(std::string_view bytes, Kind kind) {
  return kind == Kind::jpeg ? jpeg_head(bytes) : png_head(bytes);
}

std::string sides(const Head& head) { return std::to_string(head.width) + " x " + std::to_string(head.height); }

}  // namespace

base::Result<Kind> kind_of(std::string_view bytes) {
  if (bytes.substr(0, jpeg_mark.size()) == jpeg_mark) return Kind::jpeg;
  if (bytes.substr(0, png_mark.size()) == png_mark) return Kind::png;
  if (is_heic(bytes)) {
    return base::fail(ErrorCode::unreadable, "This is a HEIC picture; photos are taken as JPEG or PNG.", {},
                      "In the phone's camera settings choose the most compatible format, or send it as JPEG.");
  }
  return base::fail(ErrorCode::unreadable, "This is neither a JPEG nor a PNG.", {}, "Photos are taken as JPEG or PNG.");
}

base::Result<Head> head_of(std::string_view bytes, const Caps& caps) {
  if (bytes.size() > caps.bytes) {
    return base::fail(ErrorCode::out_of_range,
                      "The picture is longer than " + std::to_string(caps.bytes >> 20U) + " MB.", {},
                      "Let the camera take it in fewer pixels.");
  }
  const auto kind = kind_of(bytes);
  if (!kind) return tl::unexpected(kind.error());
  auto head = stored_head(bytes, *kind);
  if (!head) return head;
  if (head->width < 1 || head->height < 1) return base::fail(ErrorCode::out_of_range, "The picture has no pixels.");
  if (std::max(head->width, head->height) > caps.side ||
      std::int64_t{head->width} * std::int64_t{head->height} > caps.pixels) {
    return base::fail(ErrorCode::out_of_range,
                      "The picture is " + sides(*head) + " pixels; at most " + std::to_string(caps.pixels / 1'000'000) +
                          " megapixels and " + std::to_string(caps.side) + " along a side are taken.",
                      {}, "Let the camera take it in fewer pixels.");
  }
  return head;
}

base::Result<Picture> read_picture(std::string_view bytes, const Caps& caps) {
  const auto head = head_of(bytes, caps);
  if (!head) return tl::unexpected(head.error());
  try {
    auto pixels = head->kind == Kind::jpeg ? jpeg_pixels(bytes, *head, caps) : png_pixels(bytes, *head);
    if (!pixels) return pixels;
    if (caps.longest > 0) *pixels = shrunk(*pixels, caps.longest);
    return turned(std::move(*pixels), orientation_of(bytes));
  } catch (const std::bad_alloc&) {
    return base::fail(ErrorCode::storage, "There is not enough memory to read the picture.");
  }
}

}  // namespace portwright::picture
