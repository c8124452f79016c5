// 1. The picture made smaller. 2. What is darker than its surroundings. 3. Its connected parts. 4. Those whose hull has
// four corners and which fill as much of it as the printed ring does.
#include "rubbing/square_search.hpp"

#include <algorithm>
#include <numeric>

namespace portwright::rubbing {
namespace {

constexpr int small_side = 720;          // [pixels], the ring is then 3 pixels thick at 4 pixels a millimetre of 2560
constexpr double darker = 0.72;          // of the mean about it
constexpr int around = 48;               // half of the width of "about it" [pixels]
constexpr double least_share = 0.085;    // of its hull that a ring fills; as drawn 0.148, less and more when slanted
constexpr double greatest_share = 0.26;  // or blurred
constexpr double least_box = 60.0;       // [pixels]

picture::Grey made_smaller(const picture::Grey& grey, int factor) {
  picture::Grey out{grey.width / factor, grey.height / factor, {}};
  out.light.resize(static_cast<std::size_t>(out.width) * static_cast<std::size_t>(out.height));
  const auto f = static_cast<std::size_t>(factor), wide = static_cast<std::size_t>(grey.width);
  std::vector<unsigned> sums(static_cast<std::size_t>(out.width));
  for (std::size_t y = 0; y < static_cast<std::size_t>(out.height); ++y) {
    std::fill(sums.begin(), sums.end(), 0U);
    for (std::size_t k = 0; k < f; ++k) {
      const std::uint8_t* row = grey.light.data() + (y * f + k) * wide;
      for (std::size_t x = 0; x < sums.size(); ++x)
        for (std::size_t j = 0; j < f; ++j) sums[x] += row[x * f + j];
    }
    for (std::size_t x = 0; x < sums.size(); ++x)
      out.light[y * sums.size() + x] = static_cast<std::uint8_t>(sums[x] / static_cast<unsigned>(f * f));
  }
  return out;
}

// Darker than the mean of the square about it, by sums over everything above and left.
std::vector<std::uint8_t> dark_of(const picture::Grey& grey) {
  const int w = grey.width, h = grey.height;
  const auto at = [w](int x, int y) {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(w + 1) + static_cast<std::size_t>(x);
  };
  std::vector<std::uint32_t> sums(static_cast<std::size_t>(w + 1) * static_cast<std::size_t>(h + 1));
  const auto pixel = [&](int x, int y) {
    return grey.light[static_cast<std::size_t>(y) * static_cast<std::size_t>(w) + static_cast<std::size_t>(x)];
  };
  for (int y = 0; y < h; ++y)
    for (int x = 0; x < w; ++x)
      sums[at(x + 1, y + 1)] = pixel(x, y) + sums[at(x, y + 1)] + sums[at(x + 1, y)] - sums[at(x, y)];
  std::vector<std::uint8_t> out(grey.light.size());
  for (int y = 0; y < h; ++y)
    for (int x = 0; x < w; ++x) {
      const int x0 = std::max(0, x - around), x1 = std::min(w, x + around + 1);
      const int y0 = std::max(0, y - around), y1 = std::min(h, y + around + 1);
      const std::uint32_t sum = sums[at(x1, y1)] - sums[at(x0, y1)] - sums[at(x1, y0)] + sums[at(x0, y0)];
      const double mean = sum / (static_cast<double>(x1 - x0) * (y1 - y0));
      out[static_cast<std::size_t>(y) * static_cast<std::size_t>(w) + static_cast<std::size_t>(x)] =
          pixel(x, y) < darker * mean ? 1 : 0;
    }
  return out;
}

// A connected dark part: its size, and the first and last pixel of each of its rows.
struct Part {
  std::size_t pixels = 0;
  int left = 1 << 20, right = -1, top = 1 << 20, bottom = -1;
  std::vector<Point> rim{};
};

// Takes the part at a pixel out of `dark`.
Part take_part(std::vector<std::uint8_t>& dark, int w, int h, int x0, int y0) {
  Part part;
  std::vector<std::pair<int, int>> row_ends(static_cast<std::size_t>(h), {1 << 20, -1});
  std::vector<std::pair<int, int>> todo{{x0, y0}};
  const auto at = [w](int x, int y) {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(w) + static_cast<std::size_t>(x);
  };
  dark[at(x0, y0)] = 0;
  while (!todo.empty()) {
    const auto [x, y] = todo.back();
    todo.pop_back();
    ++part.pixels;
    auto& [first, last] = row_ends[static_cast<std::size_t>(y)];
    first = std::min(first, x), last = std::max(last, x);
    for (int ny = std::max(0, y - 1); ny <= std::min(h - 1, y + 1); ++ny)
      for (int nx = std::max(0, x - 1); nx <= std::min(w - 1, x + 1); ++nx)
        if (dark[at(nx, ny)] != 0) dark[at(nx, ny)] = 0, todo.emplace_back(nx, ny);
  }
  for (int y = 0; y < h; ++y) {
    const auto [first, last] = row_ends[static_cast<std::size_t>(y)];
    if (last < 0) continue;
    part.left = std::min(part.left, first), part.right = std::max(part.right, last);
    part.top = std::min(part.top, y), part.bottom = y;
    for (const int x : {first, last + 1})
      for (const int edge : {y, y + 1}) part.rim.push_back({static_cast<double>(x), static_cast<double>(edge)});
  }
  return part;
}

// Clockwise as one looks at it (y down), by Andrew's monotone chain.
Loop hull_of(Loop points) {
  std::sort(points.begin(), points.end(), [](Point a, Point b) { return a.x != b.x ? a.x < b.x : a.y < b.y; });
  Loop hull(2 * points.size() + 1);
  std::size_t k = 0;
  const auto add = [&](Point p, std::size_t least) {
    while (k >= least && cross(hull[k - 1] - hull[k - 2], p - hull[k - 1]) <= 0.0) --k;
    hull[k++] = p;
  };
  for (const Point& p : points) add(p, 2);
  const std::size_t lower = k + 1;
  for (std::size_t i = points.size() - 1; i-- > 0;) add(points[i], lower);
  hull.resize(k > 1 ? k - 1 : k);
  return hull;
}

// The four points of the hull that enclose most: for each diagonal the points farthest off on either side.
Corners four_corners(const Loop& hull) {
  Corners best{};
  double largest = -1.0;
  for (std::size_t a = 0; a < hull.size(); ++a)
    for (std::size_t c = a + 1; c < hull.size(); ++c) {
      std::size_t b = a, d = a;
      double most = 0.0, least = 0.0;
      for (std::size_t i = 0; i < hull.size(); ++i) {
        const double off = cross(hull[c] - hull[a], hull[i] - hull[a]);
        if (off < least) least = off, b = i;
        if (off > most) most = off, d = i;
      }
      if (most - least > largest) largest = most - least, best = {hull[a], hull[b], hull[c], hull[d]};
    }
  return best;
}

}  // namespace

std::vector<RingGuess> find_rings(const picture::Grey& grey) {
  const int factor = std::max(1, (std::max(grey.width, grey.height) + small_side - 1) / small_side);
  const picture::Grey small = made_smaller(grey, factor);
  const int w = small.width, h = small.height;
  std::vector<std::uint8_t> dark = dark_of(small);
  std::vector<std::pair<double, RingGuess>> found;
  for (std::size_t i = 0; i < dark.size(); ++i) {
    if (dark[i] == 0) continue;
    const Part part = take_part(dark, w, h, static_cast<int>(i % static_cast<std::size_t>(w)),
                                static_cast<int>(i / static_cast<std::size_t>(w)));
    if (std::min(part.right - part.left, part.bottom - part.top) < least_box) continue;
    const Loop hull = hull_of(part.rim);
    const double hull_area = std::abs(area_of(hull));
    const double share = static_cast<double>(part.pixels) / hull_area;
    const bool rim = part.left == 0 || part.top == 0 || part.right == w - 1 || part.bottom == h - 1;
    if (share < least_share * (rim ? 0.5 : 1.0) || share > greatest_share || hull.size() > 300) continue;
    const Corners corners = four_corners(hull);
    const double filled = area_of({corners.begin(), corners.end()}) / hull_area;
    if (std::abs(filled) < (rim ? 0.6 : 0.88)) continue;
    RingGuess guess{corners, rim};
    if (filled < 0.0) std::swap(guess.outer[1], guess.outer[3]);
    for (Point& p : guess.outer) p = static_cast<double>(factor) * p;
    found.emplace_back(hull_area, guess);
  }
  std::sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<RingGuess> out;
  for (const auto& [size, guess] : found)
    if (out.size() < 8) out.push_back(guess);
  return out;
}

}  // namespace portwright::rubbing
