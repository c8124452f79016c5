#include "geometry/outline_clip.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <polyclipping/clipper.hpp>

namespace portwright::geometry {

namespace {

constexpr double units_per_metre = 1e9;
constexpr double chord_error = 1e-7;  // [m]

using ClipperLib::cInt;

cInt to_units(double metres) { return static_cast<cInt>(std::llround(metres * units_per_metre)); }

ClipperLib::Paths to_paths(const Loops& loops, Point origin) {
  ClipperLib::Paths paths;
  for (const std::vector<Point>& loop : loops) {
    ClipperLib::Path& path = paths.emplace_back();
    for (const Point& p : loop) path.emplace_back(to_units(p.x - origin.x), to_units(p.y - origin.y));
  }
  return paths;
}

/// A convex arc as chords of a slightly larger circle: step δ, radius² times δ / sin δ, so that the sectors keep their
/// area.
void add_arc(const Piece& arc, std::vector<Point>& points) {
  const double start = std::atan2(arc.from.y - arc.centre.y, arc.from.x - arc.centre.x);
  double sweep = std::atan2(arc.to.y - arc.centre.y, arc.to.x - arc.centre.x) - start;
  if (sweep < 0.0) sweep += 2.0 * std::numbers::pi;
  const int steps = std::max(1, static_cast<int>(std::ceil(sweep / std::sqrt(8.0 * chord_error / arc.radius))));
  const double step = sweep / steps;
  const double radius = step > 0.0 ? arc.radius * std::sqrt(step / std::sin(step)) : arc.radius;
  for (int k = 0; k <= steps; ++k) {
    const double angle = start + k * step;
    points.push_back({arc.centre.x + radius * std::cos(angle), arc.centre.y + radius * std::sin(angle)});
  }
}

}  // namespace

Loops clip_outline(const Window& window, double dx) {
  Loops loops;
  for (const std::vector<Piece>& chain : window.chains()) {
    std::vector<Point>& points = loops.emplace_back();
    for (const Piece& piece : chain) {
      if (piece.radius > 0.0) {
        add_arc(piece, points);
      } else {
        points.push_back(piece.from);
        points.push_back(piece.to);
      }
    }
    for (Point& p : points) p.x += dx;
  }
  return loops;
}

double common_area(const Loops& a, const Loops& b, Point origin) {
  ClipperLib::Clipper clipper;
  clipper.AddPaths(to_paths(a, origin), ClipperLib::ptSubject, true);
  clipper.AddPaths(to_paths(b, origin), ClipperLib::ptClip, true);
  ClipperLib::Paths common;
  clipper.Execute(ClipperLib::ctIntersection, common, ClipperLib::pftNonZero, ClipperLib::pftNonZero);
  double area = 0.0;  // holes run the other way and subtract themselves
  for (const ClipperLib::Path& path : common) area += ClipperLib::Area(path);
  return std::abs(area) / (units_per_metre * units_per_metre);
}

}  // namespace portwright::geometry
