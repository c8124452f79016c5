#include "geometry/window.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "geometry/window_trace.hpp"

namespace portwright::geometry {

std::span<const Piece> Window::pieces() const {
  if (trace_) return trace_->pieces;
  return std::span(pieces_).first(static_cast<std::size_t>(piece_count_));
}

std::span<const LevelBand> Window::bands() const {
  if (trace_) return trace_->bands;
  return bands_;
}

std::span<const double> Window::law_levels() const {
  if (trace_) return trace_->levels;
  return std::span(levels_).first(static_cast<std::size_t>(level_count_));
}

/// The top of the band that holds a level between roof and floor, in the law's datum; the last band also holds the
/// floor.
const double* Window::find_band(double level) const {
  const std::span<const double> tops = law_levels();
  const double* const last = tops.data() + tops.size() - 1;
  if (trace_) return std::upper_bound(tops.data() + 1, last, level) - 1;
  const double* band = tops.data();
  while (band + 1 != last && band[1] <= level) ++band;
  return band;
}

double Window::area_above(double level) const {
  if (!(level > roof_)) return 0.0;
  if (level >= floor_) return area_;
  const double y = in_law(level);
  const double* const top = find_band(y);
  const LevelBand& band = bands()[static_cast<std::size_t>(top - law_levels().data())];
  return std::clamp(scale_x_ * scale_y_ * area_in_band(band, circles_, y - *top, level - shift_), 0.0, area_);
}

double Window::width_at(double level) const {
  if (empty() || !(level >= roof_) || level > floor_) return 0.0;
  const double y = in_law(level);
  const double* const top = find_band(y);
  const LevelBand& band = bands()[static_cast<std::size_t>(top - law_levels().data())];
  return std::max(0.0, scale_x_ * width_in_band(band, circles_, y - *top, level - shift_));
}

Window Window::moved_down(double dy) const {
  Window moved = *this;
  moved.shift_ += dy;
  moved.roof_ += dy;
  moved.floor_ += dy;
  for (int i = 0; i < level_count_; ++i) moved.levels_[i] += dy;
  return moved;
}

Window Window::stretched(double across, double down) const {
  assert(trace_ && across > 0.0 && down > 0.0);
  const Extent whole = extent();
  const double middle = 0.5 * (whole.left + whole.right);
  Window other = *this;
  other.scale_x_ *= across;
  other.shift_x_ = middle + across * (shift_x_ - middle);
  other.scale_y_ *= down;
  other.shift_ = roof_ + down * (shift_ - roof_);
  other.floor_ = roof_ + down * (floor_ - roof_);
  other.area_ *= across * down;
  return other;
}

namespace {

void take(Window::Extent& extent, double x) {
  if (extent.empty()) {
    extent = {x, x};
    return;
  }
  extent.left = std::min(extent.left, x);
  extent.right = std::max(extent.right, x);
}

}  // namespace

Window::Extent Window::extent(double level_from, double level_to) const {
  Extent extent;
  if (empty() || level_from > floor_ || level_to < roof_) return extent;
  double upper = (level_from - shift_) / scale_y_, lower = (level_to - shift_) / scale_y_;
  if (trace_) upper = std::min(upper, trace_->levels.back()), lower = std::max(lower, trace_->levels.front());
  for (const Piece& piece : pieces()) {
    const double top = std::max(upper, std::min(piece.from.y, piece.to.y));
    const double bottom = std::min(lower, std::max(piece.from.y, piece.to.y));
    if (!(top <= bottom)) continue;
    if (piece.from.y == piece.to.y) {
      take(extent, piece.from.x);
      take(extent, piece.to.x);
      continue;
    }
    take(extent, x_on_piece(piece, top));
    take(extent, x_on_piece(piece, bottom));
    const bool bulges = piece.radius > 0.0 && top < piece.centre.y && piece.centre.y < bottom;
    if (bulges) take(extent, piece.centre.x + arc_side(piece) * piece.radius);
  }
  if (!trace_ || extent.empty()) return extent;
  return {scale_x_ * extent.left + shift_x_, scale_x_ * extent.right + shift_x_};
}

std::vector<std::vector<Piece>> Window::chains() const {
  std::vector<std::vector<Piece>> loops;
  const std::span<const Piece> all = pieces();
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (i == 0 || (second_loop_ > 0 && i == static_cast<std::size_t>(second_loop_))) loops.emplace_back();
    Piece piece = all[i];
    for (double* y : {&piece.from.y, &piece.to.y, &piece.centre.y}) *y = scale_y_ * *y + shift_;
    if (trace_)
      for (double* x : {&piece.from.x, &piece.to.x}) *x = scale_x_ * *x + shift_x_;
    loops.back().push_back(piece);
  }
  return loops;
}

namespace {

/// Points of an arc from its start up to, not with, its end, so that no chord lies further than `tolerance` inside.
void flatten(const Piece& arc, double tolerance, std::vector<Point>& points) {
  const double start = std::atan2(arc.from.y - arc.centre.y, arc.from.x - arc.centre.x);
  double sweep = std::atan2(arc.to.y - arc.centre.y, arc.to.x - arc.centre.x) - start;
  const double turn = 2.0 * std::acos(-1.0);
  if (arc.clockwise && sweep < 0.0) sweep += turn;
  if (!arc.clockwise && sweep > 0.0) sweep -= turn;
  const double step = 2.0 * std::acos(std::max(0.0, 1.0 - tolerance / arc.radius));
  const int steps = std::max(1, static_cast<int>(std::ceil(std::abs(sweep) / step)));
  points.push_back(arc.from);
  for (int k = 1; k < steps; ++k) {
    const double angle = start + sweep * k / steps;
    points.push_back({arc.centre.x + arc.radius * std::cos(angle), arc.centre.y + arc.radius * std::sin(angle)});
  }
}

}  // namespace

std::vector<std::vector<Point>> Window::polygons(double tolerance) const {
  std::vector<std::vector<Point>> loops;
  for (const std::vector<Piece>& chain : chains()) {
    std::vector<Point>& points = loops.emplace_back();
    for (const Piece& piece : chain) {
      if (piece.radius > 0.0) {
        flatten(piece, tolerance, points);
      } else {
        points.push_back(piece.from);
      }
    }
  }
  return loops;
}

}  // namespace portwright::geometry
