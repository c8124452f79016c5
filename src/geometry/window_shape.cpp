// From what a caliper says to the chain of lines and arcs.

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/window.hpp"

namespace portwright::geometry {

namespace {

constexpr double reading_error = 0.5e-3;  // [m]: what misfits by less is taken for an error of the readings
constexpr double flat_arch = 1e-9;        // [m]: an arch below this is a straight roof

/// The line or circle that the roof follows, y = 0 where its chord crosses the window's centre line.
struct RoofLine {
  double slope = 0.0;   ///< rise per x; y = -slope x
  double radius = 0.0;  ///< of the arch, 0 for a straight roof
  Point centre;

  [[nodiscard]] double stretch() const { return std::sqrt(1.0 + slope * slope); }
};

/// A roof corner: the fillet's centre, and where it leaves the roof.
struct RoofCorner {
  Point centre, tangent;
  double radius = 0.0;
};

/// One closed loop: the whole window, or its part beside the bridge.
struct Loop {
  double left = 0.0, right = 0.0;
  double roof_left = 0.0, roof_right = 0.0;  ///< corner radii
  double floor_left = 0.0, floor_right = 0.0;
  [[nodiscard]] double width() const { return right - left; }
};

double arc_of_chord(double chord, double bore) { return bore * std::asin(chord / bore); }

RoofLine roof_line(double half, double angle, double arch) {
  RoofLine roof;
  roof.slope = std::tan(angle);
  if (arch < flat_arch) return roof;
  const double half_chord = half * roof.stretch();
  roof.radius = (half_chord * half_chord + arch * arch) / (2.0 * arch);
  const double down = (roof.radius - arch) / roof.stretch();
  roof.centre = {down * roof.slope, down};
  return roof;
}

/// Highest arch whose lower end still meets the side without overhang [m].
double highest_arch(double half, double angle) {
  const double half_chord = half * std::sqrt(1.0 + std::tan(angle) * std::tan(angle));
  return half_chord * std::tan(0.5 * (0.5 * std::numbers::pi - std::abs(angle)));
}

/// The fillet tangent to the roof and to the side at x; toward is +1 for a right-hand side.
RoofCorner roof_corner(const RoofLine& roof, double x, double toward, double radius) {
  RoofCorner corner;
  corner.radius = radius;
  corner.centre.x = x - toward * radius;
  if (roof.radius == 0.0) {
    corner.centre.y = -roof.slope * corner.centre.x + radius * roof.stretch();
    const double reach = radius / roof.stretch();
    corner.tangent = {corner.centre.x - reach * roof.slope, corner.centre.y - reach};
    return corner;
  }
  const double reach = std::max(0.0, roof.radius - radius), across = corner.centre.x - roof.centre.x;
  corner.centre.y = roof.centre.y - std::sqrt(std::max(0.0, (reach - across) * (reach + across)));
  corner.tangent = {corner.centre.x, corner.centre.y - radius};
  if (reach > flat_arch) {
    const double part = radius / reach;
    corner.tangent = {corner.centre.x + part * across, corner.centre.y + part * (corner.centre.y - roof.centre.y)};
  }
  return corner;
}

/// The loop's pieces as they are walked; points that coincide leave no piece.
class Walk {
 public:
  explicit Walk(std::span<Piece> pieces) : pieces_(pieces) {}
  void start(Point at) { at_ = at; }
  void line_to(Point to) {
    if (to == at_) return;
    pieces_[count_++] = {at_, to, {}, 0.0, false};
    at_ = to;
  }
  void arc_to(Point to, Point centre, double radius) {
    if (to == at_) return;
    pieces_[count_++] = {at_, to, centre, radius, true};
    at_ = to;
  }
  [[nodiscard]] Point at() const { return at_; }
  [[nodiscard]] int count() const { return count_; }

 private:
  std::span<Piece> pieces_;
  Point at_;
  int count_ = 0;
};

/// A point of the walk moved down by the roof's place.
struct Place {
  double down;
  Point operator()(Point p) const { return {p.x, p.y + down}; }
};

void walk_roof(Walk& walk, const RoofLine& roof, const RoofCorner& left, const RoofCorner& right, Place place) {
  const Point top_left{left.centre.x, left.centre.y - left.radius};
  const Point top_right{right.centre.x, right.centre.y - right.radius};
  if (left.radius > 0.0 && left.tangent.x > left.centre.x)
    walk.arc_to(place(top_left), place(left.centre), left.radius);
  if (left.radius > 0.0) walk.arc_to(place(left.tangent), place(left.centre), left.radius);
  if (roof.radius > 0.0) {
    const Point apex{roof.centre.x, roof.centre.y - roof.radius};
    const bool passes_apex = left.tangent.x < apex.x && apex.x < right.tangent.x;
    if (passes_apex) walk.arc_to(place(apex), place(roof.centre), roof.radius);
    walk.arc_to(place(right.tangent), place(roof.centre), roof.radius);
  } else {
    walk.line_to(place(right.tangent));
  }
  if (right.radius > 0.0 && right.tangent.x < right.centre.x)
    walk.arc_to(place(top_right), place(right.centre), right.radius);
}

/// Walks one loop clockwise from the foot of its left side; returns how many pieces it took.
int walk_loop(const RoofLine& roof, const Loop& loop, double down, double floor, std::span<Piece> pieces) {
  const RoofCorner left = roof_corner(roof, loop.left, -1.0, loop.roof_left);
  const RoofCorner right = roof_corner(roof, loop.right, 1.0, loop.roof_right);
  const Place place{down};
  const Point foot{loop.left, floor - loop.floor_left};
  Walk walk(pieces);
  walk.start(foot);
  walk.line_to({loop.left, left.centre.y + down});
  walk_roof(walk, roof, left, right, place);
  walk.arc_to({loop.right, right.centre.y + down}, place(right.centre), right.radius);
  walk.line_to({loop.right, floor - loop.floor_right});
  walk.arc_to({loop.right - loop.floor_right, floor}, {loop.right - loop.floor_right, floor - loop.floor_right},
              loop.floor_right);
  walk.line_to({loop.left + loop.floor_left, floor});
  walk.arc_to(foot, {loop.left + loop.floor_left, floor - loop.floor_left}, loop.floor_left);
  return walk.count();
}

/// Highest point of a loop's roof and the lowest that its sides need, in the roof line's own datum.
struct Span {
  double highest = 0.0, lowest = 0.0;
};

double highest_of_corner(const RoofCorner& corner, double toward) {
  const bool over_the_top = toward * (corner.tangent.x - corner.centre.x) < 0.0;
  return over_the_top ? corner.centre.y - corner.radius : corner.tangent.y;
}

Span roof_span(const RoofLine& roof, const Loop& loop) {
  const RoofCorner left = roof_corner(roof, loop.left, -1.0, loop.roof_left);
  const RoofCorner right = roof_corner(roof, loop.right, 1.0, loop.roof_right);
  Span span;
  span.highest = std::min(highest_of_corner(left, -1.0), highest_of_corner(right, 1.0));
  if (roof.radius > 0.0 && left.tangent.x < roof.centre.x && roof.centre.x < right.tangent.x) {
    span.highest = std::min(span.highest, roof.centre.y - roof.radius);
  }
  span.lowest = std::max(left.centre.y + loop.floor_left, right.centre.y + loop.floor_right);
  return span;
}

}  // namespace

/// Checks a shape, draws in what misfits by a reading's error, and walks the chain.
class WindowBuilder {
 public:
  ShapeFault plan(const WindowShape& shape, double bore);
  [[nodiscard]] Window build() const;

 private:
  ShapeFault plan_sides(const WindowShape& shape, double bore);
  ShapeFault plan_corners(const WindowShape& shape);
  ShapeFault plan_roof(const WindowShape& shape);
  ShapeFault fit_height();
  ShapeFault round(double radius, double Loop::*left, double Loop::*right);
  [[nodiscard]] Span span() const;
  [[nodiscard]] double excess() const;
  void scale_corners(double share);
  void scale_roof(double share) { roof_ = roof_line(half_, share * slope_, share * arch_); }

  double top_ = 0.0, floor_ = 0.0, half_ = 0.0, slope_ = 0.0, arch_ = 0.0;
  RoofLine roof_;
  std::array<Loop, 2> loops_;
  int loop_count_ = 1;
};

ShapeFault WindowBuilder::plan(const WindowShape& shape, double bore) {
  top_ = shape.roof;
  floor_ = shape.floor;
  if (!(floor_ - top_ > 0.0)) return ShapeFault::floor_above_roof;
  ShapeFault fault = plan_sides(shape, bore);
  if (fault == ShapeFault::none) fault = plan_corners(shape);
  if (fault == ShapeFault::none) fault = plan_roof(shape);
  if (fault == ShapeFault::none) fault = fit_height();
  return fault;
}

ShapeFault WindowBuilder::plan_sides(const WindowShape& shape, double bore) {
  if (!(shape.width > 0.0)) return ShapeFault::no_width;
  if (!(shape.width <= bore)) return ShapeFault::wider_than_bore;
  half_ = 0.5 * arc_of_chord(shape.width, bore);
  loops_[0].left = -half_;
  loops_[0].right = half_;
  if (!(shape.bridge >= -reading_error && shape.bridge < shape.width)) return ShapeFault::bridge_too_wide;
  if (shape.bridge <= 0.0) return ShapeFault::none;
  const double half_bridge = 0.5 * arc_of_chord(shape.bridge, bore);
  loop_count_ = 2;
  loops_[0].right = shape.bridge_at - half_bridge;
  loops_[1].left = shape.bridge_at + half_bridge;
  loops_[1].right = half_;
  const bool both_open = loops_[0].width() > 0.0 && loops_[1].width() > 0.0;
  return both_open ? ShapeFault::none : ShapeFault::bridge_too_wide;
}

ShapeFault WindowBuilder::plan_corners(const WindowShape& shape) {
  const ShapeFault fault = round(shape.corner_roof, &Loop::roof_left, &Loop::roof_right);
  return fault != ShapeFault::none ? fault : round(shape.corner_floor, &Loop::floor_left, &Loop::floor_right);
}

ShapeFault WindowBuilder::round(double radius, double Loop::*left, double Loop::*right) {
  const double wanted = std::max(0.0, radius);
  if (!(radius >= -reading_error)) return ShapeFault::corners_too_large;
  for (int i = 0; i < loop_count_; ++i) {
    Loop& loop = loops_[i];
    const double room = loop_count_ == 1 ? 0.5 * loop.width() : loop.width();
    if (!(wanted - room < reading_error)) return ShapeFault::corners_too_large;
    loop.*left = loop.*right = std::min(wanted, room);
    if (loop_count_ == 2) loop.*(i == 0 ? right : left) = std::min(wanted, room - std::min(wanted, room));
  }
  return ShapeFault::none;
}

ShapeFault WindowBuilder::plan_roof(const WindowShape& shape) {
  slope_ = shape.roof_slope;
  if (!(std::abs(slope_) < 0.5 * std::numbers::pi) || !(shape.roof_arch >= -reading_error))
    return ShapeFault::arch_too_high;
  const double highest = highest_arch(half_, slope_);
  if (!(shape.roof_arch - highest < reading_error)) return ShapeFault::arch_too_high;
  arch_ = std::clamp(shape.roof_arch, 0.0, highest);
  scale_roof(1.0);
  return ShapeFault::none;
}

Span WindowBuilder::span() const {
  Span all = roof_span(roof_, loops_[0]);
  if (loop_count_ == 2) {
    const Span second = roof_span(roof_, loops_[1]);
    all = {std::min(all.highest, second.highest), std::max(all.lowest, second.lowest)};
  }
  return all;
}

/// How far the sides and floor corners reach below the floor; negative when there is room [m].
double WindowBuilder::excess() const {
  const Span all = span();
  return all.lowest - all.highest - (floor_ - top_);
}

void WindowBuilder::scale_corners(double share) {
  for (Loop& loop : loops_) {
    for (double* radius : {&loop.roof_left, &loop.roof_right, &loop.floor_left, &loop.floor_right}) *radius *= share;
  }
}

namespace {

/// Greatest share in 0..1 for which `fits`, which holds at 0, to one part in 2^40.
template <class Fits>
double greatest_share(Fits fits) {
  double low = 0.0, high = 1.0;
  for (int k = 0; k < 40; ++k) {
    const double middle = 0.5 * (low + high);
    (fits(middle) ? low : high) = middle;
  }
  return low;
}

}  // namespace

ShapeFault WindowBuilder::fit_height() {
  const double over = excess();
  if (over <= 0.0) return ShapeFault::none;
  const std::array<Loop, 2> rounded = loops_;
  scale_corners(0.0);
  const double over_square = excess();
  if (!(over_square < reading_error)) return ShapeFault::arch_too_high;
  if (!(over < reading_error)) return ShapeFault::corners_too_large;
  if (over_square > 0.0) {
    scale_roof(greatest_share([this](double share) { return scale_roof(share), excess() <= 0.0; }));
    return ShapeFault::none;
  }
  const auto with_corners = [&](double share) {
    loops_ = rounded;
    scale_corners(share);
    return excess() <= 0.0;
  };
  with_corners(greatest_share(with_corners));
  return ShapeFault::none;
}

Window WindowBuilder::build() const {
  Window window;
  window.roof_ = top_;
  window.floor_ = floor_;
  const double down = top_ - span().highest;
  const std::span<Piece> pieces(window.pieces_);
  window.piece_count_ = walk_loop(roof_, loops_[0], down, floor_, pieces);
  if (loop_count_ == 2) {
    window.second_loop_ = window.piece_count_;
    window.piece_count_ +=
        walk_loop(roof_, loops_[1], down, floor_, pieces.subspan(static_cast<std::size_t>(window.second_loop_)));
  }
  window.adopt_law();
  return window;
}

/// The law of the pieces as built; roof and floor stay exactly as given.
void Window::adopt_law() {
  const LawSize size = gather_law(pieces(), levels_, bands_, circles_);
  level_count_ = size.levels;
  levels_[0] = roof_;
  levels_[level_count_ - 1] = floor_;
  const double* const top = levels_.data() + level_count_ - 2;
  area_ = area_in_band(bands_[level_count_ - 2], circles_, floor_ - *top, floor_);
}

Window Window::from_shape(const WindowShape& shape, double bore, ShapeFault* fault) {
  WindowBuilder builder;
  const ShapeFault found = builder.plan(shape, bore);
  if (fault) *fault = found;
  return found == ShapeFault::none ? builder.build() : Window();
}

}  // namespace portwright::geometry
