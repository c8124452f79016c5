#include "picture/picture.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace portwright::picture {
namespace {

std::size_t size_of(int number) { return static_cast<std::size_t>(number); }

// What one new pixel along a side is made of: whole and broken old ones.
struct Share {
  int first = 0;
  std::vector<float> weights;
};

std::vector<Share> shares(int from, int to) {
  std::vector<Share> all(size_of(to));
  const double step = static_cast<double>(from) / to;
  for (int i = 0; i < to; ++i) {
    const double low = i * step;
    const double high = std::min<double>(from, (i + 1) * step);
    Share& share = all[size_of(i)];
    share.first = static_cast<int>(low);
    for (int old = share.first; old < from && old < high; ++old) {
      const double covered = std::min<double>(high, old + 1) - std::max<double>(low, old);
      share.weights.push_back(static_cast<float>(covered / step));
    }
  }
  return all;
}

void narrow_row(const std::uint8_t* row, const std::vector<Share>& across, std::vector<float>& narrow) {
  float* out = narrow.data();
  for (const Share& share : across) {
    float sum[3] = {0, 0, 0};
    const std::uint8_t* in = row + size_of(share.first) * 3;
    for (const float weight : share.weights) {
      for (int c = 0; c < 3; ++c) sum[c] += weight * static_cast<float>(in[c]);
      in += 3;
    }
    for (const float value : sum) *out++ = value;
  }
}

std::uint8_t as_byte(float value) { return static_cast<std::uint8_t>(std::clamp(std::lround(value), 0L, 255L)); }

// Where a pixel of the turned picture stood before; the turned picture is `width` x `height` before.
struct Turn {
  bool exchanged;   // sides exchanged
  bool from_right;  // the old column runs from the right
  bool from_below;  // the old row runs from below
};

Turn turn_of(int orientation) {
  switch (orientation) {
    case 2:
      return {false, true, false};
    case 3:
      return {false, true, true};
    case 4:
      return {false, false, true};
    case 5:
      return {true, false, false};
    case 6:
      return {true, false, true};
    case 7:
      return {true, true, true};
    case 8:
      return {true, true, false};
    default:
      return {false, false, false};
  }
}

}  // namespace

Grey grey_of(const Picture& picture) {
  Grey grey{picture.width, picture.height, {}};
  grey.light.resize(size_of(picture.width) * size_of(picture.height));
  const std::uint8_t* in = picture.rgb.data();
  for (std::uint8_t& light : grey.light) {
    light = static_cast<std::uint8_t>((299U * in[0] + 587U * in[1] + 114U * in[2] + 500U) / 1000U);
    in += 3;
  }
  return grey;
}

Picture shrunk(const Picture& picture, int longest) {
  const int longer = std::max(picture.width, picture.height);
  if (longer <= std::max(longest, 1)) return picture;
  const double scale = static_cast<double>(std::max(longest, 1)) / longer;
  Picture small{std::max(1, static_cast<int>(std::lround(picture.width * scale))),
                std::max(1, static_cast<int>(std::lround(picture.height * scale))),
                {}};
  const auto across = shares(picture.width, small.width);
  const auto down = shares(picture.height, small.height);
  std::vector<float> narrow(size_of(small.width) * 3);
  std::vector<float> sums(narrow.size());
  small.rgb.reserve(narrow.size() * size_of(small.height));
  int held = -1;  // the old row that `narrow` holds: neighbours share one
  for (const Share& share : down) {
    std::fill(sums.begin(), sums.end(), 0.0F);
    for (std::size_t k = 0; k < share.weights.size(); ++k) {
      const int row = share.first + static_cast<int>(k);
      if (row != held) narrow_row(picture.rgb.data() + size_of(row) * size_of(picture.width) * 3, across, narrow);
      held = row;
      for (std::size_t i = 0; i < sums.size(); ++i) sums[i] += share.weights[k] * narrow[i];
    }
    for (const float sum : sums) small.rgb.push_back(as_byte(sum));
  }
  return small;
}

Picture turned(Picture picture, int orientation) {
  if (orientation < 2 || orientation > 8) return picture;
  const Turn turn = turn_of(orientation);
  Picture out{turn.exchanged ? picture.height : picture.width, turn.exchanged ? picture.width : picture.height, {}};
  out.rgb.resize(picture.rgb.size());
  std::uint8_t* to = out.rgb.data();
  for (int y = 0; y < out.height; ++y) {
    for (int x = 0; x < out.width; ++x) {
      const int column = turn.exchanged ? y : x;
      const int row = turn.exchanged ? x : y;
      const int old_x = turn.from_right ? picture.width - 1 - column : column;
      const int old_y = turn.from_below ? picture.height - 1 - row : row;
      const std::uint8_t* from = picture.rgb.data() + (size_of(old_y) * size_of(picture.width) + size_of(old_x)) * 3;
      for (int c = 0; c < 3; ++c) *to++ = from[c];
    }
  }
  return out;
}

}  // namespace portwright::picture
