#include "draw/hatch.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace portwright::draw {
namespace {

using Rings = std::vector<std::vector<Point>>;

Rings rings_of(const Area& area) {
  Rings rings;
  for (Path path : area) {
    path.closed = true;
    rings.push_back(flattened(path, 0.005));
  }
  return rings;
}

void append(std::vector<Path>& to, std::vector<Path> more) {
  for (Path& p : more) to.push_back(std::move(p));
}

/// Straight lines at an angle [rad] from the x axis, `pitch` apart, one through the origin.
void add_lines(HatchLines& out, const Rings& rings, const Box& box, const HatchStyle& style, double angle,
               double pitch) {
  const Point along{std::cos(angle), std::sin(angle)}, across{-along.y, along.x};
  const Point middle{(box.left + box.right) / 2, (box.top + box.bottom) / 2};
  const double reach = std::hypot(box.width(), box.height()) / 2 + pitch;
  const double from = (middle.x - style.origin.x) * across.x + (middle.y - style.origin.y) * across.y;
  const auto first = std::ceil((from - reach) / pitch), last = std::floor((from + reach) / pitch);
  for (double k = first; k <= last; ++k) {
    const Point on = middle + (k * pitch - from) * across;
    append(out.strokes, clipped({on - reach * along, on + reach * along}, rings));
  }
}

/// Marks on a lattice whose every other row is shifted by half.
template <class Mark>
void add_marks(const Box& box, const HatchStyle& style, double pitch, double row, Mark&& mark) {
  const double first = std::floor((box.top - style.origin.y) / row),
               last = std::ceil((box.bottom - style.origin.y) / row);
  for (double j = first; j <= last; ++j) {
    const double shift = style.origin.x + (std::fmod(std::abs(j), 2.0) == 1.0 ? pitch / 2 : 0.0);
    const double left = std::floor((box.left - shift) / pitch), right = std::ceil((box.right - shift) / pitch);
    for (double i = left; i <= right; ++i) mark(Point{shift + i * pitch, style.origin.y + j * row});
  }
}

void add_dots(HatchLines& out, const Rings& rings, const Box& box, const HatchStyle& style, double pitch) {
  const double r = pitch * 0.15;
  add_marks(box, style, pitch, pitch * 0.5, [&](Point at) {
    if (is_inside(at, rings) && distance_to_edge(at, rings) >= r) out.discs.push_back(circle(at, r));
  });
}

void add_crosses(HatchLines& out, const Rings& rings, const Box& box, const HatchStyle& style, double pitch) {
  const double a = pitch * 0.26;
  add_marks(box, style, pitch, pitch * 0.62, [&](Point at) {
    append(out.strokes, clipped({{at.x - a, at.y}, {at.x + a, at.y}}, rings));
    append(out.strokes, clipped({{at.x, at.y - a}, {at.x, at.y + a}}, rings));
  });
}

void add_squares(HatchLines& out, const Rings& rings, const Box& box, const HatchStyle& style, double pitch) {
  const double a = pitch * 0.22;
  add_marks(box, style, pitch, pitch * 0.62, [&](Point at) {
    append(out.strokes, clipped(flattened(rectangle(at.x - a, at.y - a, 2 * a, 2 * a)), rings));
  });
}

void add_rings(HatchLines& out, const Rings& rings, const Box& box, const HatchStyle& style, double pitch) {
  add_marks(box, style, pitch, pitch * 0.62,
            [&](Point at) { append(out.strokes, clipped(flattened(circle(at, pitch * 0.24), 0.01), rings)); });
}

void add_waves(HatchLines& out, const Rings& rings, const Box& box, const HatchStyle& style, double pitch) {
  constexpr int steps = 12;  // corners in a wave
  const double length = 2 * pitch;
  const double first = std::floor((box.left - style.origin.x) / length),
               last = std::ceil((box.right - style.origin.x) / length);
  const double top = std::floor((box.top - style.origin.y) / pitch) - 1,
               bottom = std::ceil((box.bottom - style.origin.y) / pitch) + 1;
  for (double j = top; j <= bottom; ++j) {
    std::vector<Point> chain;
    for (int k = 0; k <= steps * static_cast<int>(last - first); ++k) {
      const double turn = 2 * std::numbers::pi * k / steps;
      chain.push_back({style.origin.x + (first + static_cast<double>(k) / steps) * length,
                       style.origin.y + j * pitch - 0.22 * pitch * std::sin(turn)});
    }
    append(out.strokes, clipped(chain, rings));
  }
}

}  // namespace

double hatch_pitch(Hatch pattern) {
  switch (pattern) {
    case Hatch::piston:
      return 1.8;
    case Hatch::cylinder:
      return 0.95;
    case Hatch::limit:
      return 1.2;
    case Hatch::metal_to_go:
      return 0.8;
    case Hatch::upright:
      return 1.1;
    case Hatch::dots:
      return 1.6;
    case Hatch::crosses:
      return 1.9;
    case Hatch::squares:
      return 2.1;
    case Hatch::rings:
      return 2.1;
    case Hatch::level:
      return 1.1;
    case Hatch::waves:
      return 1.5;
  }
  return 1.0;
}

HatchLines hatch_lines(const Area& area, const HatchStyle& style) {
  HatchLines out;
  const Rings rings = rings_of(area);
  const Box box = bounds(area);
  if (!(box.width() > 0) || !(box.height() > 0)) return out;
  const double wanted = hatch_pitch(style.pattern) / std::max(style.density, 1e-3);
  const double pitch = std::max(wanted, std::sqrt(box.width() * box.height() / 10000.0));
  constexpr double half_right = std::numbers::pi / 4;
  switch (style.pattern) {
    case Hatch::piston:
    case Hatch::limit:
    case Hatch::metal_to_go:
      add_lines(out, rings, box, style, -half_right, pitch);
      break;
    case Hatch::cylinder:
      add_lines(out, rings, box, style, half_right, pitch);
      break;
    case Hatch::upright:
      add_lines(out, rings, box, style, 2 * half_right, pitch);
      break;
    case Hatch::level:
      add_lines(out, rings, box, style, 0.0, pitch);
      break;
    case Hatch::dots:
      add_dots(out, rings, box, style, pitch);
      break;
    case Hatch::crosses:
      add_crosses(out, rings, box, style, pitch);
      break;
    case Hatch::squares:
      add_squares(out, rings, box, style, pitch);
      break;
    case Hatch::rings:
      add_rings(out, rings, box, style, pitch);
      break;
    case Hatch::waves:
      add_waves(out, rings, box, style, pitch);
      break;
  }
  return out;
}

}  // namespace portwright::draw
