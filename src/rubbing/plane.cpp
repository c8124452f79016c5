#include "rubbing/plane.hpp"

#include <algorithm>

namespace portwright::rubbing {

double area_of(const Loop& loop) {
  double twice = 0.0;
  for (std::size_t i = 0; i < loop.size(); ++i) twice += cross(loop[i], loop[(i + 1) % loop.size()]);
  return 0.5 * twice;
}

double perimeter_of(const Loop& loop) {
  double sum = 0.0;
  for (std::size_t i = 0; i < loop.size(); ++i) sum += length(loop[(i + 1) % loop.size()] - loop[i]);
  return sum;
}

Point centroid_of(const Loop& loop) {
  Point mean, weighed;
  double twice = 0.0;
  for (const Point& p : loop) mean = mean + (1.0 / static_cast<double>(loop.size())) * p;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Point a = loop[i] - mean, b = loop[(i + 1) % loop.size()] - mean;
    twice += cross(a, b);
    weighed = weighed + cross(a, b) * (a + b);
  }
  return std::abs(twice) > 0.0 ? mean + (1.0 / (3.0 * twice)) * weighed : mean;
}

Extent extent_of(const std::vector<Loop>& loops) {
  Extent out{1e9, -1e9, 1e9, -1e9};
  for (const Loop& loop : loops)
    for (const Point& p : loop)
      out = {std::min(out.left, p.x), std::max(out.right, p.x), std::min(out.top, p.y), std::max(out.bottom, p.y)};
  return out;
}

Point turned(Point p, double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  return {c * p.x - s * p.y, s * p.x + c * p.y};
}

Loop evened(const Loop& loop, double step, double half) {
  const double whole = perimeter_of(loop);
  const auto count = static_cast<std::size_t>(std::max(8.0, std::ceil(whole / step)));
  const double stride = whole / static_cast<double>(count);
  Loop even;
  even.reserve(count);
  double walked = 0.0;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Point a = loop[i], b = loop[(i + 1) % loop.size()];
    const double piece = length(b - a);
    while (even.size() < count && static_cast<double>(even.size()) * stride <= walked + piece)
      even.push_back(a + (piece > 0.0 ? (static_cast<double>(even.size()) * stride - walked) / piece : 0.0) * (b - a));
    walked += piece;
  }
  if (even.empty()) return loop;
  const std::size_t n = even.size(), reach = std::min(n / 4, static_cast<std::size_t>(half / stride));
  Loop out(n);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k <= 2 * reach; ++k) out[i] = out[i] + even[(i + n - reach + k) % n];
    out[i] = (1.0 / static_cast<double>(2 * reach + 1)) * out[i];
  }
  return out;
}

std::vector<Point> normals_of(const Loop& loop, std::size_t reach) {
  const std::size_t n = loop.size();
  std::vector<Point> out(n);
  for (std::size_t i = 0; i < n; ++i) {
    const Point along = loop[(i + reach) % n] - loop[(i + n - reach % n) % n];
    const double size = length(along);
    out[i] = size > 0.0 ? Point{along.y / size, -along.x / size} : Point{};
  }
  return out;
}

}  // namespace portwright::rubbing
