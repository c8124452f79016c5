#include "geometry/skirt_profile.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/outline_clip.hpp"

namespace portwright::geometry {

namespace {

constexpr double pi = std::numbers::pi;

/// Half the angle of the full-length skirt, short of the pin ends.
double half_width(const SkirtShape& shape, double bore) {
  const double half = std::asin(std::clamp(shape.exhaust_width / bore, 0.0, 1.0));
  return std::min(half, 0.95 * std::min(shape.pin_axis, pi - shape.pin_axis));
}

}  // namespace

SkirtProfile::SkirtProfile(const SkirtShape& shape, double bore) : circumference_(pi * bore) {
  const double half = half_width(shape, bore), radius = 0.5 * bore;
  bends_ = {{{half - pi, shape.intake},
             {shape.pin_axis - pi, shape.side},
             {-half, shape.exhaust},
             {half, shape.exhaust},
             {shape.pin_axis, shape.side},
             {pi - half, shape.intake},
             {pi + half, shape.intake}}};
  for (Point& bend : bends_) bend.x *= radius;
}

double SkirtProfile::length_at(double x) const {
  const double turns = std::floor((x - bends_.front().x) / circumference_);
  const double at = std::clamp(x - turns * circumference_, bends_.front().x, bends_.back().x);
  std::size_t right = 1;
  while (right + 1 < bends_.size() && bends_[right].x < at) ++right;
  const Point& a = bends_[right - 1];
  const Point& b = bends_[right];
  return b.x > a.x ? a.y + (b.y - a.y) * ((at - a.x) / (b.x - a.x)) : b.y;
}

/// Calls visit(bend) for every bend strictly between two places, in order; the last bend is the first of the next turn.
template <class Visit>
void SkirtProfile::visit_bends(double from, double to, Visit visit) const {
  double start = std::floor((from - bends_.front().x) / circumference_) * circumference_;
  for (; start + bends_.front().x < to; start += circumference_) {
    for (std::size_t k = 0; k + 1 < bends_.size(); ++k) {
      const Point bend{start + bends_[k].x, bends_[k].y};
      if (from < bend.x && bend.x < to) visit(bend);
    }
  }
}

SkirtProfile::Reach SkirtProfile::reach(double from, double to) const {
  const double a = length_at(from), b = length_at(to);
  Reach reach{std::min(a, b), std::max(a, b)};
  visit_bends(from, to, [&](Point bend) {
    reach.least = std::min(reach.least, bend.y);
    reach.greatest = std::max(reach.greatest, bend.y);
  });
  return reach;
}

std::vector<Point> SkirtProfile::edge(double from, double to) const {
  std::vector<Point> points{{from, length_at(from)}};
  visit_bends(from, to, [&](Point bend) { points.push_back(bend); });
  points.push_back({to, length_at(to)});
  return points;
}

double area_below_skirt(const Window& window, double window_centre_x, const SkirtProfile& profile, double drop) {
  if (window.empty()) return 0.0;
  const Window::Extent extent = window.extent();
  const SkirtProfile::Reach reach = profile.reach(window_centre_x + extent.left, window_centre_x + extent.right);
  if (drop + reach.greatest <= window.roof()) return window.area();
  if (drop + reach.least >= window.floor()) return 0.0;
  if (reach.level()) return window.area_below(drop + 0.5 * (reach.least + reach.greatest));

  const double margin = 1e-3;  // [m] round the window, so that only the skirt's edge cuts it
  std::vector<Point> below =
      profile.edge(window_centre_x + extent.left - margin, window_centre_x + extent.right + margin);
  for (Point& p : below) p = {p.x - window_centre_x, p.y + drop};
  const double foot = std::max(window.floor(), drop + reach.greatest) + 0.1 + margin;
  below.push_back({below.back().x, foot});
  below.push_back({below.front().x, foot});
  return std::min(window.area(), common_area(clip_outline(window, 0.0), {below}, {0.0, window.roof()}));
}

double overlap_area(const Window& a, double ax, const Window& b, double bx, double circumference) {
  if (a.empty() || b.empty() || a.floor() <= b.roof() || b.floor() <= a.roof()) return 0.0;
  const double apart = std::remainder(bx - ax, circumference);
  const Window::Extent at_a = a.extent(), at_b = b.extent();
  double area = 0.0;
  for (const double turn : {-circumference, 0.0, circumference}) {
    const double shift = apart + turn;
    if (at_b.right + shift <= at_a.left || at_a.right <= at_b.left + shift) continue;
    area += common_area(clip_outline(a, 0.0), clip_outline(b, shift), {0.0, a.roof()});
  }
  return std::min({area, a.area(), b.area()});
}

}  // namespace portwright::geometry
