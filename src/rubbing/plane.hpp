#pragma once
// Points and closed lines in a plane: of a picture [pixels] or of the printed sheet [mm]. y grows downward in both.

#include <array>
#include <cmath>
#include <vector>

namespace portwright::rubbing {

/// In a picture the corner of its first pixel is 0, 0, so that the middle of that pixel is 0.5, 0.5.
struct Point {
  double x = 0.0, y = 0.0;
  friend bool operator==(const Point&, const Point&) = default;
};
inline Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
inline Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
inline Point operator*(double k, Point a) { return {k * a.x, k * a.y}; }
inline double length(Point a) { return std::hypot(a.x, a.y); }
inline double cross(Point a, Point b) { return a.x * b.y - a.y * b.x; }

/// A closed line; its last point is not its first one again.
using Loop = std::vector<Point>;
/// The square's inner corners: left at the roof's side, then clockwise as one looks at the sheet.
using Corners = std::array<Point, 4>;

/// Area within; positive where it is walked clockwise as one looks at it.
[[nodiscard]] double area_of(const Loop& loop);
[[nodiscard]] double perimeter_of(const Loop& loop);
/// Middle of the area; of the points where there is no area.
[[nodiscard]] Point centroid_of(const Loop& loop);

struct Extent {
  double left = 0.0, right = 0.0, top = 0.0, bottom = 0.0;
  [[nodiscard]] double width() const { return right - left; }
  [[nodiscard]] double height() const { return bottom - top; }
};
/// @param loops at least one point in all
[[nodiscard]] Extent extent_of(const std::vector<Loop>& loops);

/// Turned clockwise about 0, 0 by an angle [rad].
[[nodiscard]] Point turned(Point p, double angle);

/// The same line with points every `step` or a little less, at least eight; each the mean of the line within `half`
/// to both sides.
[[nodiscard]] Loop evened(const Loop& loop, double step, double half);

/// Square to the line at each point, outward where the line is walked clockwise; length 1. Taken over `reach` points to
/// both sides.
[[nodiscard]] std::vector<Point> normals_of(const Loop& loop, std::size_t reach);

}  // namespace portwright::rubbing
