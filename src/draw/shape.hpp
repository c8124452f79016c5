#pragma once
// Lines and arcs on paper. Millimetres, origin top left, x to the right, y down.

#include <span>
#include <vector>

namespace portwright::draw {

struct Point {
  double x = 0.0;  ///< [mm]
  double y = 0.0;  ///< [mm], down
  friend bool operator==(const Point&, const Point&) = default;
};

inline Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
inline Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
inline Point operator*(double s, Point a) { return {s * a.x, s * a.y}; }

/// A place on a path and how the path goes on from there.
struct Vertex {
  Point at{};
  /// Bend of the piece to the next vertex: tan(sweep / 4). 0 is a line, 1 a half circle; positive turns clockwise on
  /// paper.
  double bulge = 0.0;
};

/// Lines and circular arcs end to end.
struct Path {
  std::vector<Vertex> points{};
  bool closed = false;
};

/// An area: closed paths, inside where an odd number of them lie around (even-odd), so a path within a path is a hole.
using Area = std::vector<Path>;

struct Box {
  double left = 0.0, top = 0.0, right = 0.0, bottom = 0.0;  ///< [mm]
  double width() const { return right - left; }
  double height() const { return bottom - top; }
};

/// Centre, radius and angles of a bent piece; angles [rad] clockwise on paper from the x axis.
struct Arc {
  Point centre{};
  double radius = 0.0;
  double start = 0.0;
  double sweep = 0.0;
};

[[nodiscard]] Path line(Point from, Point to);
[[nodiscard]] Path polyline(std::vector<Point> points, bool closed = false);
[[nodiscard]] Path rectangle(double left, double top, double width, double height);
/// Corner radius is cut down to half of the smaller side.
[[nodiscard]] Path rounded_rectangle(double left, double top, double width, double height, double radius);
[[nodiscard]] Path circle(Point centre, double radius);
/// Arc about a centre; angles [rad] clockwise on paper from the x axis. Sweeps up to a full turn either way.
[[nodiscard]] Path arc(Point centre, double radius, double start, double sweep);

/// The circle a bent piece lies on; the bulge must not be 0 and the ends must differ.
[[nodiscard]] Arc arc_of(const Vertex& from, Point to);

/// Scaled about the origin, then moved. Negative scales mirror.
struct Placement {
  double scale = 1.0;
  Point move{};
  bool flip_y = false;  ///< y up to y down
};
[[nodiscard]] Point placed(Point p, const Placement& where);
[[nodiscard]] Path placed(Path path, const Placement& where);
[[nodiscard]] Area placed(Area area, const Placement& where);
/// Turned about a point by an angle [rad], clockwise on paper.
[[nodiscard]] Point turned(Point p, Point about, double angle);
[[nodiscard]] Path turned(Path path, Point about, double angle);

/// Corners of a path with arcs cut into chords that stay within `tolerance` [mm] of them; a closed path ends where it
/// began.
[[nodiscard]] std::vector<Point> flattened(const Path& path, double tolerance = 0.002);
/// Dashes along a path: lengths on and off in turn [mm], from its first point on; arcs stay arcs. Without lengths the
/// path itself.
[[nodiscard]] std::vector<Path> dashed(const Path& path, std::span<const double> lengths);
[[nodiscard]] Box bounds(const Path& path);
[[nodiscard]] Box bounds(const Area& area);

/// Whether a point lies in the area, by even-odd count over flattened rings.
[[nodiscard]] bool is_inside(Point p, const std::vector<std::vector<Point>>& rings);
/// Least distance from a point to the rings' edges [mm]; infinite without edges.
[[nodiscard]] double distance_to_edge(Point p, const std::vector<std::vector<Point>>& rings);
/// Pieces of a chain of points that lie within the rings.
[[nodiscard]] std::vector<Path> clipped(const std::vector<Point>& chain, const std::vector<std::vector<Point>>& rings);

}  // namespace portwright::draw
