#include "rubbing/kept_points.hpp"

#include <algorithm>

namespace portwright::rubbing {
namespace {

double off_line(Point p, Point a, Point b) {
  const Point along = b - a;
  const double size = length(along);
  return size > 0.0 ? std::abs(cross(along, p - a)) / size : length(p - a);
}

// Marks what must stay between two kept points.
void keep_between(const Loop& loop, std::size_t from, std::size_t to, double tolerance, std::vector<bool>& kept) {
  std::vector<std::pair<std::size_t, std::size_t>> todo{{from, to}};
  while (!todo.empty()) {
    const auto [a, b] = todo.back();
    todo.pop_back();
    std::size_t farthest = a;
    double most = tolerance;
    for (std::size_t i = a + 1; i < b; ++i)
      if (const double off = off_line(loop[i], loop[a], loop[b % loop.size()]); off > most) most = off, farthest = i;
    if (farthest == a) continue;
    kept[farthest] = true;
    todo.emplace_back(a, farthest);
    todo.emplace_back(farthest, b);
  }
}

Loop within(const Loop& border, double tolerance) {
  std::size_t far = 0;
  for (std::size_t i = 0; i < border.size(); ++i)
    if (length(border[i] - border[0]) > length(border[far] - border[0])) far = i;
  std::vector<bool> kept(border.size());
  kept[0] = kept[far] = true;
  keep_between(border, 0, far, tolerance, kept);
  keep_between(border, far, border.size(), tolerance, kept);
  Loop out;
  for (std::size_t i = 0; i < border.size(); ++i)
    if (kept[i]) out.push_back(border[i]);
  return out;
}

}  // namespace

Loop kept_points(const Loop& border, std::size_t most) {
  if (border.size() < 4) return border;
  double tolerance = usual_tolerance;
  Loop out = within(border, tolerance);
  while (out.size() > most) out = within(border, tolerance *= 1.15);
  const double ratio = area_of(out) > 0.0 ? area_of(border) / area_of(out) : 1.0;
  const Point middle = centroid_of(out);
  if (ratio > 0.9 && ratio < 1.1)
    for (Point& p : out) p = middle + std::sqrt(ratio) * (p - middle);
  return out;
}

}  // namespace portwright::rubbing
