#include "draw/shape.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace portwright::draw {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double quarter_bulge = 0.41421356237309503;  // tan(22.5 deg)

void stretch(Box& box, Point p) {
  box.left = std::min(box.left, p.x);
  box.right = std::max(box.right, p.x);
  box.top = std::min(box.top, p.y);
  box.bottom = std::max(box.bottom, p.y);
}

Box nothing() {
  constexpr double inf = std::numeric_limits<double>::infinity();
  return {inf, inf, -inf, -inf};
}

Point on(const Arc& arc, double angle) {
  return {arc.centre.x + arc.radius * std::cos(angle), arc.centre.y + arc.radius * std::sin(angle)};
}

/// Whether a bent piece passes the angle `a`.
bool passes(const Arc& arc, double a) {
  double turn = std::fmod((a - arc.start) * (arc.sweep < 0 ? -1.0 : 1.0), 2 * pi);
  if (turn < 0) turn += 2 * pi;
  return turn <= std::abs(arc.sweep);
}

void stretch_over(Box& box, const Arc& arc) {
  for (int k = 0; k < 4; ++k) {
    const double a = k * pi / 2;
    if (passes(arc, a)) stretch(box, on(arc, a));
  }
}

double length_of(const Vertex& from, Point to) {
  if (from.bulge == 0.0 || from.at == to) return std::hypot(to.x - from.at.x, to.y - from.at.y);
  const Arc a = arc_of(from, to);
  return a.radius * std::abs(a.sweep);
}

/// The part of a piece between two shares of its way, as a vertex and an end.
struct Part {
  Vertex from;
  Point to;
};
Part part_of(const Vertex& from, Point to, double t0, double t1) {
  if (from.bulge == 0.0) return {{from.at + t0 * (to - from.at), 0.0}, from.at + t1 * (to - from.at)};
  const Arc a = arc_of(from, to);
  return {{on(a, a.start + t0 * a.sweep), std::tan((t1 - t0) * a.sweep / 4)}, on(a, a.start + t1 * a.sweep)};
}

/// Walks a path and keeps what lies under the dashes.
class Dasher {
 public:
  explicit Dasher(std::span<const double> lengths) : lengths_(lengths), left_(lengths.front()) {}

  void piece(const Vertex& from, Point to) {
    const double length = length_of(from, to);
    double done = 0.0;
    while (length - done > 1e-9) {
      const double step = std::min(left_, length - done);
      if (drawing()) keep(part_of(from, to, done / length, (done + step) / length));
      done += step;
      left_ -= step;
      if (left_ <= 1e-9) next();
    }
  }
  std::vector<Path> take() { return std::move(out_); }

 private:
  bool drawing() const { return turn_ % 2 == 0; }
  void next() {
    turn_ = (turn_ + 1) % lengths_.size();
    left_ = lengths_[turn_];
    joined_ = false;
  }
  void keep(const Part& part) {
    if (!joined_) out_.push_back({{{part.from.at}}, false});
    out_.back().points.back().bulge = part.from.bulge;
    out_.back().points.push_back({part.to});
    joined_ = true;
  }

  std::span<const double> lengths_;
  std::size_t turn_ = 0;
  double left_;
  bool joined_ = false;
  std::vector<Path> out_;
};

double distance_to_segment(Point p, Point a, Point b) {
  const Point d = b - a;
  const double length2 = d.x * d.x + d.y * d.y;
  const double t = length2 > 0 ? std::clamp(((p.x - a.x) * d.x + (p.y - a.y) * d.y) / length2, 0.0, 1.0) : 0.0;
  return std::hypot(p.x - a.x - t * d.x, p.y - a.y - t * d.y);
}

/// Shares of the way a to b at which the edge c to d is crossed.
void add_crossing(Point a, Point b, Point c, Point d, std::vector<double>& at) {
  const Point r = b - a, s = d - c, q = c - a;
  const double cross = r.x * s.y - r.y * s.x;
  if (cross == 0.0) return;
  const double t = (q.x * s.y - q.y * s.x) / cross;
  const double u = (q.x * r.y - q.y * r.x) / cross;
  if (t > 0 && t < 1 && u >= 0 && u <= 1) at.push_back(t);
}

}  // namespace

Path line(Point from, Point to) { return {{{from}, {to}}, false}; }

Path polyline(std::vector<Point> points, bool closed) {
  Path path;
  path.closed = closed;
  path.points.reserve(points.size());
  for (const Point p : points) path.points.push_back({p, 0.0});
  return path;
}

Path rectangle(double left, double top, double width, double height) {
  return polyline({{left, top}, {left + width, top}, {left + width, top + height}, {left, top + height}}, true);
}

Path rounded_rectangle(double left, double top, double width, double height, double radius) {
  const double r = std::clamp(radius, 0.0, std::min(width, height) / 2);
  if (r <= 0) return rectangle(left, top, width, height);
  const double right = left + width, bottom = top + height;
  return {{{{left + r, top}},
           {{right - r, top}, quarter_bulge},
           {{right, top + r}},
           {{right, bottom - r}, quarter_bulge},
           {{right - r, bottom}},
           {{left + r, bottom}, quarter_bulge},
           {{left, bottom - r}},
           {{left, top + r}, quarter_bulge}},
          true};
}

Path circle(Point centre, double radius) {
  return {{{{centre.x - radius, centre.y}, 1.0}, {{centre.x + radius, centre.y}, 1.0}}, true};
}

Path arc(Point centre, double radius, double start, double sweep) {
  const int pieces = std::abs(sweep) > pi ? 2 : 1;
  Path path;
  for (int k = 0; k <= pieces; ++k) {
    const double a = start + sweep * k / pieces;
    const Point at{centre.x + radius * std::cos(a), centre.y + radius * std::sin(a)};
    path.points.push_back({at, k < pieces ? std::tan(sweep / pieces / 4) : 0.0});
  }
  return path;
}

Arc arc_of(const Vertex& from, Point to) {
  const double b = from.bulge;
  const Point chord = to - from.at;
  // The centre lies on the chord's normal, (1 - b^2) / 4b chord lengths from its middle.
  const double off = (1 - b * b) / (4 * b);
  const Point centre{(from.at.x + to.x) / 2 - off * chord.y, (from.at.y + to.y) / 2 + off * chord.x};
  return {centre, std::hypot(from.at.x - centre.x, from.at.y - centre.y),
          std::atan2(from.at.y - centre.y, from.at.x - centre.x), 4 * std::atan(b)};
}

Point placed(Point p, const Placement& where) {
  const double sy = where.flip_y ? -where.scale : where.scale;
  return {where.move.x + where.scale * p.x, where.move.y + sy * p.y};
}

Path placed(Path path, const Placement& where) {
  for (Vertex& v : path.points) {
    v.at = placed(v.at, where);
    if (where.flip_y) v.bulge = -v.bulge;
  }
  return path;
}

Area placed(Area area, const Placement& where) {
  for (Path& path : area) path = placed(std::move(path), where);
  return area;
}

Point turned(Point p, Point about, double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  const Point d = p - about;
  return {about.x + c * d.x - s * d.y, about.y + s * d.x + c * d.y};
}

Path turned(Path path, Point about, double angle) {
  for (Vertex& v : path.points) v.at = turned(v.at, about, angle);
  return path;
}

std::vector<Point> flattened(const Path& path, double tolerance) {
  std::vector<Point> out;
  const std::size_t n = path.points.size();
  const std::size_t pieces = n == 0 ? 0 : path.closed ? n : n - 1;
  for (std::size_t i = 0; i < pieces; ++i) {
    const Vertex& from = path.points[i];
    const Point to = path.points[(i + 1) % n].at;
    out.push_back(from.at);
    if (from.bulge == 0.0 || from.at == to) continue;
    const Arc a = arc_of(from, to);
    const double step = 2 * std::acos(std::clamp(1 - tolerance / std::max(a.radius, tolerance), 0.0, 1.0));
    const int chords = std::clamp(static_cast<int>(std::ceil(std::abs(a.sweep) / std::max(step, 1e-3))), 2, 4096);
    for (int k = 1; k < chords; ++k) {
      out.push_back(on(a, a.start + a.sweep * k / chords));
    }
  }
  if (n > 0) out.push_back(path.closed ? path.points.front().at : path.points.back().at);
  return out;
}

std::vector<Path> dashed(const Path& path, std::span<const double> lengths) {
  const std::size_t n = path.points.size();
  if (n < 2 || lengths.empty() || std::any_of(lengths.begin(), lengths.end(), [](double l) { return !(l > 0.01); }))
    return {path};
  Dasher dasher(lengths);
  for (std::size_t i = 0; i + 1 < n; ++i) dasher.piece(path.points[i], path.points[i + 1].at);
  if (path.closed) dasher.piece(path.points.back(), path.points.front().at);
  return dasher.take();
}

Box bounds(const Path& path) {
  Box box = nothing();
  const std::size_t n = path.points.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Vertex& from = path.points[i];
    stretch(box, from.at);
    if (from.bulge == 0.0 || (i + 1 == n && !path.closed)) continue;
    const Point to = path.points[(i + 1) % n].at;
    if (!(from.at == to)) stretch_over(box, arc_of(from, to));
  }
  return n > 0 ? box : Box{};
}

Box bounds(const Area& area) {
  Box box = nothing();
  for (const Path& path : area) {
    if (path.points.empty()) continue;
    const Box one = bounds(path);
    stretch(box, Point{one.left, one.top});
    stretch(box, Point{one.right, one.bottom});
  }
  return box.left <= box.right ? box : Box{};
}

bool is_inside(Point p, const std::vector<std::vector<Point>>& rings) {
  bool inside = false;
  for (const auto& ring : rings) {
    for (std::size_t i = 0; i + 1 < ring.size(); ++i) {
      const Point a = ring[i], b = ring[i + 1];
      if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x)) inside = !inside;
    }
  }
  return inside;
}

double distance_to_edge(Point p, const std::vector<std::vector<Point>>& rings) {
  double least = std::numeric_limits<double>::infinity();
  for (const auto& ring : rings) {
    for (std::size_t i = 0; i + 1 < ring.size(); ++i)
      least = std::min(least, distance_to_segment(p, ring[i], ring[i + 1]));
  }
  return least;
}

std::vector<Path> clipped(const std::vector<Point>& chain, const std::vector<std::vector<Point>>& rings) {
  std::vector<Path> out;
  bool joined = false;
  for (std::size_t i = 0; i + 1 < chain.size(); ++i) {
    const Point a = chain[i], b = chain[i + 1];
    std::vector<double> at{0.0, 1.0};
    for (const auto& ring : rings) {
      for (std::size_t k = 0; k + 1 < ring.size(); ++k) add_crossing(a, b, ring[k], ring[k + 1], at);
    }
    std::sort(at.begin(), at.end());
    for (std::size_t k = 0; k + 1 < at.size(); ++k) {
      if (at[k + 1] - at[k] < 1e-12) continue;
      if (!is_inside(a + 0.5 * (at[k] + at[k + 1]) * (b - a), rings)) {
        joined = false;
        continue;
      }
      if (!joined) out.push_back(polyline({a + at[k] * (b - a)}));
      out.back().points.push_back({a + at[k + 1] * (b - a), 0.0});
      joined = true;
    }
  }
  return out;
}

}  // namespace portwright::draw
