// From a rubbing's points to a window.

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "geometry/window_trace.hpp"

namespace portwright::geometry {

namespace {

double cross(Point o, Point a, Point b) { return (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x); }

bool within(Point a, Point b, Point p) {
  return std::min(a.x, b.x) <= p.x && p.x <= std::max(a.x, b.x) && std::min(a.y, b.y) <= p.y &&
         p.y <= std::max(a.y, b.y);
}

int turn_of(Point o, Point a, Point b) {
  const double turn = cross(o, a, b);
  return (turn > 0.0) - (turn < 0.0);
}

bool lines_meet(Point a, Point b, Point c, Point d) {
  const int abc = turn_of(a, b, c), abd = turn_of(a, b, d), cda = turn_of(c, d, a), cdb = turn_of(c, d, b);
  if (abc * abd < 0 && cda * cdb < 0) return true;
  return (abc == 0 && within(a, b, c)) || (abd == 0 && within(a, b, d)) || (cda == 0 && within(c, d, a)) ||
         (cdb == 0 && within(c, d, b));
}

/// Twice back over the line just walked.
bool folds_back(Point a, Point b, Point c) {
  return cross(a, b, c) == 0.0 && (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y) < 0.0;
}

/// First pair of lines that meet where they should not, by the number of their first point.
struct Crossing {
  std::size_t first, second;
};

std::optional<Crossing> find_crossing(std::span<const Point> points) {
  const std::size_t n = points.size();
  for (std::size_t i = 0; i < n; ++i) {
    const std::size_t j = (i + 1) % n;
    if (folds_back(points[i], points[j], points[(i + 2) % n])) return Crossing{i, j};
    for (std::size_t k = i + 2; k < n; ++k) {
      const std::size_t l = (k + 1) % n;
      if (l != i && lines_meet(points[i], points[j], points[k], points[l])) return Crossing{i, k};
    }
  }
  return std::nullopt;
}

/// The points without repeats, from the highest point's level, walked clockwise (x right, y down).
std::vector<Point> tidy(std::span<const Point> given) {
  std::vector<Point> points;
  for (const Point& p : given) {
    if (points.empty() || !(p == points.back())) points.push_back(p);
  }
  while (points.size() > 1 && points.front() == points.back()) points.pop_back();
  double twice_area = 0.0, top = points.front().y;
  for (std::size_t i = 0; i < points.size(); ++i) {
    twice_area += cross(points.front(), points[i], points[(i + 1) % points.size()]);
    top = std::min(top, points[i].y);
  }
  for (Point& p : points) p.y -= top;
  if (twice_area < 0.0) std::reverse(points.begin(), points.end());
  return points;
}

base::Result<void> check(std::span<const Point> points) {
  if (points.size() < 3) {
    return base::fail(base::ErrorCode::impossible,
                      fmt::format("an outline needs three points or more, this one has {}", points.size()));
  }
  if (const auto crossing = find_crossing(points)) {
    return base::fail(base::ErrorCode::impossible,
                      fmt::format("the outline crosses itself near x {:.2f} mm, y {:.2f} mm",
                                  points[crossing->second].x * 1e3, points[crossing->second].y * 1e3),
                      {}, "give the points in the order in which they are walked round the window");
  }
  return {};
}

}  // namespace

base::Result<Window> Window::from_outline(std::span<const Point> given, double roof) {
  const bool finite = std::ranges::all_of(given, [](Point p) { return std::isfinite(p.x) && std::isfinite(p.y); });
  if (!finite || !std::isfinite(roof))
    return base::fail(base::ErrorCode::impossible, "an outline's point is not a number");
  if (given.empty()) return base::fail(base::ErrorCode::impossible, "the outline has no points");
  const std::vector<Point> points = tidy(given);
  if (const auto sound = check(points); !sound) return tl::unexpected(sound.error());

  auto trace = std::make_shared<Trace>();
  for (std::size_t i = 0; i < points.size(); ++i)
    trace->pieces.push_back({points[i], points[(i + 1) % points.size()], {}, 0.0, false});
  std::vector<double> levels(points.size() + 1);
  trace->bands.resize(points.size());
  const LawSize size = gather_law(trace->pieces, levels, trace->bands, {});
  levels.resize(static_cast<std::size_t>(size.levels));
  if (size.levels < 2) return base::fail(base::ErrorCode::impossible, "the outline encloses no area");
  trace->bands.resize(levels.size() - 1);

  Window window;
  const double last = levels.back() - levels[levels.size() - 2];
  window.area_ = area_in_band(trace->bands.back(), {}, last, levels.back());
  if (!(window.area_ > 0.0)) return base::fail(base::ErrorCode::impossible, "the outline encloses no area");
  window.floor_ = levels.back();
  trace->levels = std::move(levels);
  window.trace_ = std::move(trace);
  return window.moved_down(roof);
}

}  // namespace portwright::geometry
