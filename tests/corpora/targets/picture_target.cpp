// A photo from outside: its head, its camera's note, its pixels, and the same pixels kept.
#include <algorithm>

#include "corpora/targets.hpp"
#include "picture/read.hpp"

using namespace portwright;
using corpora::require;

PORTWRIGHT_TARGET(picture) {
  const std::string_view file = as_text(bytes);
  picture::Caps caps;
  caps.pixels = 1'000'000;  // so that the fuzzer looks at many
  caps.side = 4'000;
  const int orientation = picture::orientation_of(file);
  require(orientation >= 1 && orientation <= 8, "there are eight ways to hold a camera");
  const std::string taken = picture::taken_of(file);
  require(taken.empty() || taken.size() == 19, "a moment or nothing");
  const auto head = picture::head_of(file, caps);
  const auto read = picture::read_picture(file, caps);
  require(head || !read, "no pixels without a head");
  if (!read) return require(!read.error().message.empty(), "a refusal says why");
  require(std::max(head->width, head->height) == std::max(read->width, read->height), "the size is as the head says");
  require(read->rgb.size() == static_cast<std::size_t>(read->width) * static_cast<std::size_t>(read->height) * 3,
          "as many pixels as it has");
  caps.longest = 40;
  const auto small = picture::read_picture(file, caps);
  require(small && std::max(small->width, small->height) <= 40, "a smaller one is there, too");
  const auto kept = picture::to_jpeg(*small, 85);
  require(kept.has_value(), "what was read can be kept");
  const auto again = picture::read_picture(*kept);
  require(again && again->width == small->width && again->height == small->height, "what was kept can be read");
  require(picture::orientation_of(*kept) == 1 && picture::taken_of(*kept).empty(), "nothing of the camera is kept");
}
