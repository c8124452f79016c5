#include "draw/marks.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "draw/lettering.hpp"

namespace portwright::draw {
namespace {

constexpr double overshoot = 1.0;  // of extension lines beyond the dimension line [mm]
constexpr double tail = 3.4;       // of a dimension line outside its arrows [mm]
constexpr double lift = 0.8;       // of the text above its line [mm]

const Stroke dimension_pen(Role role) { return {role, weight::dimension, Dash::solid, false}; }
const Stroke fine_pen(Role role) { return {role, weight::fine, Dash::solid, false}; }

/// A dimension in its own frame: along it runs `u`, across it `v`; the frame puts both on the page.
class Dimension {
 public:
  Dimension(Canvas& canvas, bool upright, double at, const DimensionStyle& style)
      : canvas_(canvas), upright_(upright), at_(at), style_(style) {}

  void draw(double first, double second, std::string_view text) {
    extension(first, style_.from_first);
    extension(second, style_.from_second);
    const double low = std::min(first, second), high = std::max(first, second), span = high - low;
    const double wide = lettering_width(text, style_.height);
    const bool arrows_inside = span >= 2.6 * arrow_head::length;
    const bool text_inside = !style_.text_outside && wide + 1.0 <= span;
    const double sense = second >= first ? 1.0 : -1.0;
    double from = low, to = high;
    if (!arrows_inside) from = low - tail, to = high + tail;
    double middle = (low + high) / 2 + style_.text_shift;
    if (!text_inside) {
      middle = second + sense * ((arrows_inside ? 1.0 : tail) + 0.8 + wide / 2) + style_.text_shift;
      from = std::min(from, middle - wide / 2), to = std::max(to, middle + wide / 2);
      if (sense > 0)
        from = arrows_inside ? low : low - tail;
      else
        to = arrows_inside ? high : high + tail;
    }
    canvas_.stroke(line(place(from, at_), place(to, at_)), dimension_pen(style_.role));
    arrows(low, high, arrows_inside);
    label(middle, text);
  }

 private:
  Point place(double u, double v) const { return upright_ ? Point{v, u} : Point{u, v}; }

  void extension(double u, const std::optional<double>& from) {
    if (!from) return;
    const double sense = at_ >= *from ? 1.0 : -1.0;
    canvas_.stroke(line(place(u, *from), place(u, at_ + sense * overshoot)), fine_pen(style_.role));
  }

  void arrows(double low, double high, bool inside) {
    const Point up = place(1, 0), down = place(-1, 0);
    draw_arrow(canvas_, place(low, at_), inside ? down : up, style_.role);
    draw_arrow(canvas_, place(high, at_), inside ? up : down, style_.role);
  }

  void label(double u, std::string_view text) {
    TextStyle letters{style_.role, style_.height, Anchor::middle, upright_ ? -90.0 : 0.0, false, style_.halo, 0.0};
    canvas_.letter(place(u, at_ - lift), text, letters);
  }

  Canvas& canvas_;
  bool upright_;
  double at_;
  const DimensionStyle& style_;
};

Path octagon(Point centre, double radius) {
  std::vector<Point> corners;
  for (int k = 0; k < 8; ++k) {
    const double a = (k + 0.5) * std::numbers::pi / 4;
    corners.push_back({centre.x + radius * std::cos(a), centre.y + radius * std::sin(a)});
  }
  return polyline(std::move(corners), true);
}

}  // namespace

void draw_arrow(Canvas& canvas, Point tip, Point direction, Role role, double size) {
  const double norm = std::hypot(direction.x, direction.y);
  if (!(norm > 0)) return;
  const Point along = (1 / norm) * direction, across{-along.y, along.x};
  const Point back = tip - size * arrow_head::length * along;
  const Point side = size * arrow_head::width / 2 * across;
  canvas.fill({polyline({tip, back + side, back - side}, true)}, role);
}

void draw_dimension_level(Canvas& canvas, double x1, double x2, double y, std::string_view text,
                          const DimensionStyle& style) {
  Dimension(canvas, false, y, style).draw(x1, x2, text);
}

void draw_dimension_upright(Canvas& canvas, double y1, double y2, double x, std::string_view text,
                            const DimensionStyle& style) {
  Dimension(canvas, true, x, style).draw(y1, y2, text);
}

void draw_leader(Canvas& canvas, Point target, Point elbow, std::string_view text, const TextStyle& style) {
  const double side = elbow.x >= target.x ? 1.0 : -1.0;
  const Point shelf{elbow.x + side * 1.8, elbow.y};
  canvas.stroke(polyline({target, elbow, shelf}), fine_pen(style.role));
  canvas.fill({circle(target, 0.35)}, style.role);
  TextStyle letters = style;
  letters.anchor = side > 0 ? Anchor::start : Anchor::end;
  canvas.letter({shelf.x + side * 0.9, shelf.y + style.size / 2}, text, letters);
}

void draw_balloon(Canvas& canvas, Point centre, std::string_view text, double radius, Role role) {
  canvas.fill({circle(centre, radius)}, Role::ground);
  canvas.stroke(circle(centre, radius), {role, weight::visible, Dash::solid, true});
  const double room = 2 * radius * 0.72;
  const double height = std::min(radius, radius * room / std::max(1e-9, lettering_width(text, radius)));
  canvas.letter({centre.x, centre.y + height / 2}, text, {role, height, Anchor::middle, 0.0, false, 0.0, 0.0});
}

void draw_centre_line(Canvas& canvas, Point from, Point to, Role role) {
  canvas.stroke(line(from, to), {role, weight::dimension, Dash::centre, false});
}

void draw_finding(Canvas& canvas, Point c, Finding kind, std::string_view letter, double size) {
  const double r = size / 2;
  TextStyle words{Role::ink, 0.56 * size, Anchor::middle, 0.0, true, 0.0, 0.0};
  double drop = 0.2 * size;
  switch (kind) {
    case Finding::held:
      canvas.stroke(
          polyline(
              {{c.x - 0.8 * r, c.y + 0.1 * r}, {c.x - 0.25 * r, c.y + 0.75 * r}, {c.x + 0.85 * r, c.y - 0.75 * r}}),
          {Role::ink, weight::visible, Dash::solid, true});
      return;
    case Finding::note:
      canvas.stroke(circle(c, r), {Role::ink, weight::visible, Dash::solid, true});
      break;
    case Finding::caution:
      canvas.stroke(polyline({{c.x, c.y - r}, {c.x + 1.1 * r, c.y + 0.9 * r}, {c.x - 1.1 * r, c.y + 0.9 * r}}, true),
                    {Role::caution, 0.4, Dash::solid, true});
      words.role = Role::caution;
      words.size = 0.46 * size;
      drop = 0.31 * size;
      break;
    case Finding::stop:
      canvas.fill({octagon(c, 1.06 * r)}, Role::stop);
      words.role = Role::ground;
      break;
  }
  canvas.words({c.x, c.y + drop}, letter, words);
}

}  // namespace portwright::draw
