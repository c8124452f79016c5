#include "geometry/window_law.hpp"

#include <algorithm>
#include <cmath>

namespace portwright::geometry {

namespace {

constexpr double same_level = 1e-12;  // [m]: a hundredth of an atom

double half_chord(double t, double radius) { return std::sqrt(std::max(0.0, t * (2.0 * radius - t))); }

/// θ - sin θ cos θ where the difference would cancel: (x - sin x) / 2 with x = 2 θ, by its series.
double small_segment(double theta) {
  const double x = 2.0 * theta, x2 = x * x;
  return x * x2 / 12.0 * (1.0 - x2 / 20.0 * (1.0 - x2 / 42.0 * (1.0 - x2 / 72.0 * (1.0 - x2 / 110.0))));
}

int gather_levels(std::span<const Piece> pieces, std::span<double> levels) {
  int count = 0;
  for (const Piece& piece : pieces) {
    for (const double y : {piece.from.y, piece.to.y}) {
      auto* const end = levels.data() + count;
      auto* const place = std::lower_bound(levels.data(), end, y);
      const bool known =
          (place != end && *place - y < same_level) || (place != levels.data() && y - place[-1] < same_level);
      if (known) continue;
      std::move_backward(place, end, end + 1);
      *place = y;
      ++count;
    }
  }
  return count;
}

int find_circle(const Piece& arc, std::span<LevelCircle> circles, int& count) {
  const double top = arc.centre.y - arc.radius;
  for (int k = 0; k < count; ++k) {
    if (circles[k].top == top && circles[k].radius == arc.radius) return k;
  }
  circles[count] = {top, arc.radius};
  return count++;
}

void add_circle(LevelBand& band, int circle, int weight) {
  for (int k = 0; k < band.circles; ++k) {
    if (band.circle[k] == circle) {
      band.weight[k] = static_cast<std::int8_t>(band.weight[k] + weight);
      return;
    }
  }
  band.circle[band.circles] = static_cast<std::uint8_t>(circle);
  band.weight[band.circles] = static_cast<std::int8_t>(weight);
  ++band.circles;
}

/// Adds one piece to a band that it crosses.
void add_piece(LevelBand& band, const Piece& piece, double top, std::span<LevelCircle> circles, int& count) {
  const double sign = piece.to.y > piece.from.y ? 1.0 : -1.0;
  if (piece.radius > 0.0) {
    band.width += sign * piece.centre.x;
    add_circle(band, find_circle(piece, circles, count), static_cast<int>(sign * arc_side(piece)));
    return;
  }
  const double slope = (piece.to.x - piece.from.x) / (piece.to.y - piece.from.y);
  band.slope += sign * slope;
  band.width += sign * (piece.from.x + slope * (top - piece.from.y));
}

bool crosses(const Piece& piece, double level) {
  return std::min(piece.from.y, piece.to.y) < level && level < std::max(piece.from.y, piece.to.y);
}

}  // namespace

double x_on_piece(const Piece& piece, double y) {
  if (piece.radius > 0.0) {
    return piece.centre.x + arc_side(piece) * half_chord(y - (piece.centre.y - piece.radius), piece.radius);
  }
  const double height = piece.to.y - piece.from.y;
  return height == 0.0 ? piece.from.x : piece.from.x + (piece.to.x - piece.from.x) * ((y - piece.from.y) / height);
}

double half_segment(double t, double radius) {
  const double inside = std::clamp(t, 0.0, 2.0 * radius);
  const double s = half_chord(inside, radius);
  const double theta = std::atan2(s, radius - inside);
  if (theta < 0.15) return 0.5 * radius * radius * small_segment(theta);
  return 0.5 * (radius * radius * theta - s * (radius - inside));
}

double area_in_band(const LevelBand& band, std::span<const LevelCircle> circles, double h, double y) {
  double area = band.area0 + h * (band.width + 0.5 * h * band.slope);
  for (int k = 0; k < band.circles; ++k) {
    const LevelCircle& circle = circles[band.circle[k]];
    if (band.weight[k] != 0) area += band.weight[k] * half_segment(y - circle.top, circle.radius);
  }
  return area;
}

double width_in_band(const LevelBand& band, std::span<const LevelCircle> circles, double h, double y) {
  double width = band.width + h * band.slope;
  for (int k = 0; k < band.circles; ++k) {
    const LevelCircle& circle = circles[band.circle[k]];
    width += band.weight[k] * half_chord(y - circle.top, circle.radius);
  }
  return width;
}

LawSize gather_law(std::span<const Piece> pieces, std::span<double> levels, std::span<LevelBand> bands,
                   std::span<LevelCircle> circles) {
  LawSize size;
  size.levels = gather_levels(pieces, levels);
  double area = 0.0;
  for (int i = 0; i + 1 < size.levels; ++i) {
    LevelBand band;
    const double top = levels[i], bottom = levels[i + 1];
    for (const Piece& piece : pieces) {
      if (crosses(piece, 0.5 * (top + bottom))) add_piece(band, piece, top, circles, size.circles);
    }
    band.area0 = area - area_in_band(band, circles, 0.0, top);
    area = area_in_band(band, circles, bottom - top, bottom);
    bands[i] = band;
  }
  return size;
}

}  // namespace portwright::geometry
