// The engine's upper half: head, wheel, solder, cylinder, windows.
#include <cmath>
#include <numbers>

#include "base/number_text.hpp"
#include "draw/marks.hpp"
#include "sheet/measuring_strokes.hpp"

namespace portwright::sheet {
namespace {

using draw::Dash;
using draw::Hatch;
using draw::Path;
using draw::Point;
using draw::Role;

constexpr double degree = std::numbers::pi / 180;
const draw::Stroke fine{Role::ink, draw::weight::fine, Dash::solid, false};

/// Half of a head in section, left of the plug hole; `sign` -1 turns it over for the right half.
Path head_half(const Spot& s, double middle, double sign) {
  const auto at = [&](double x, double y, double bulge = 0.0) {
    return draw::Vertex{s.p(middle + sign * x, y), sign * bulge};
  };
  return {{at(-30, 44), at(-30, 9), at(-3.5, 9), at(-3.5, 15, -0.2), at(-16, 27), at(-24, 27), at(-24, 44)}, true};
}

Path piston_section(const Spot& s, double left, double right, double crown, double bottom, double dome) {
  const double bulge = 2 * dome / (right - left);
  return {{{s.p(left, crown), bulge}, {s.p(right, crown)}, {s.p(right, bottom)}, {s.p(left, bottom)}}, true};
}

}  // namespace

void Spot::number(int k, double x, double y) const { number_at(k, p(x, y)); }

void Spot::number_at(int k, draw::Point centre) const {
  draw::draw_balloon(canvas, centre, std::to_string(first + k), 2.1,
                     k == marked ? draw::Role::marking_blue : draw::Role::ink);
}

void show_head(const Spot& s) {
  const double m = 36;
  const Path left = head_half(s, m, 1.0), right = head_half(s, m, -1.0),
             piston = piston_section(s, 12.3, 59.7, 29, 44, 3.0);
  Path liquid{{{s.p(12, 29), 6.0 / 48},
               {s.p(60, 29)},
               {s.p(60, 27)},
               {s.p(52, 27), 0.2},
               {s.p(39.5, 15)},
               {s.p(39.5, 11)},
               {s.p(32.5, 11)},
               {s.p(32.5, 15), 0.2},
               {s.p(20, 27)},
               {s.p(12, 27)}},
              true};
  liquid.points[3].bulge = liquid.points[7].bulge = -0.2;
  liquid.points[7].bulge = -0.2;
  s.canvas.hatch({liquid}, {Hatch::level, Role::reason, 0.1, 1.0, s.p(0, 0)});
  s.canvas.hatch({left, right}, cylinder_metal);
  s.canvas.hatch({piston}, piston_metal);
  s.canvas.stroke({left, right}, visible);
  s.canvas.stroke(piston, edge);
  s.canvas.letter(s.p(36, 40), "piston at TDC", letters());
  level(s, 32.5, 39.5, 4.5, 9);
  upright(s, 9, 15, 52, 39.5);
  draw::draw_leader(s.canvas, s.p(36, 20), s.p(64, 4), "", {});
  s.number(0, 68, 4);
  draw::draw_leader(s.canvas, s.p(33.5, 11), s.p(14, 4), "", {});
  s.number(1, 10, 4);
  s.number(2, 28.5, 4.5);
  s.number(3, 56.5, 6.0);
  const Point dial = s.p(3.6, 18);
  s.canvas.stroke({draw::circle(dial, 3.4), draw::line(dial, dial + Point{1.7, -2.2})}, visible);
  s.canvas.stroke(Path{{{dial + Point{0, -3.4}}, {s.p(3.6, 12), 0.5}, {s.p(7.0, 10)}}, false}, visible);
  s.canvas.letter(dial + Point{0, 6}, "gauge", letters(1.9));
  s.number(4, 3.6, 28.5);
}

void show_wheel(const Spot& s) {
  const Point c = s.p(36, 23);
  s.canvas.stroke(draw::circle(c, 15), edge);
  s.canvas.stroke(draw::circle(c, 2), visible);
  std::vector<Path> ticks;
  for (int a = 0; a < 360; a += 5) {
    const double r = a % 30 == 0 ? 11.6 : a % 10 == 0 ? 13.0 : 13.8;
    const Point d{std::sin(a * degree), -std::cos(a * degree)};
    ticks.push_back(draw::line(c + 15 * d, c + r * d));
  }
  s.canvas.stroke(std::move(ticks), fine);
  const auto ray = [&](double angle, int k) {
    const Point d{std::sin(angle * degree), -std::cos(angle * degree)};
    s.canvas.stroke(draw::line(c + 4 * d, c + 18 * d), visible);
    const Point at = c + 20.4 * d;
    s.number_at(k, at);
  };
  ray(103, 0);
  ray(257, 1);
  ray(125, 2);
  ray(285, 3);
  ray(75, 4);
  s.canvas.fill({draw::polyline({c + Point{0, -15}, c + Point{-1.2, -18.5}, c + Point{1.2, -18.5}}, true)}, Role::ink);
  s.canvas.letter(c + Point{0, -19.5}, "TDC", letters());
  s.canvas.letter(c + Point{0, 10.2}, "BDC", letters(1.9));
  s.canvas.letter(c + Point{-21, 19.4}, "from a stop, both ways", letters(1.9));
}

void show_solder(const Spot& s) {
  const Path wall{
      {{s.p(2, 4)}, {s.p(2, 9), -0.25}, {s.p(18, 18)}, {s.p(36, 18)}, {s.p(36, 44)}, {s.p(46, 44)}, {s.p(46, 4)}},
      true};
  const Path piston{{{s.p(2, 24), 0.06}, {s.p(18, 22.6)}, {s.p(35, 22.6)}, {s.p(35, 44)}, {s.p(2, 44)}}, true};
  s.canvas.hatch({wall}, cylinder_metal);
  s.canvas.hatch({piston}, piston_metal);
  s.canvas.stroke(wall, visible);
  s.canvas.stroke(piston, edge);
  s.canvas.stroke(Path{{{s.p(3, 16), 0.1}, {s.p(18, 20.3)}, {s.p(22, 20.3)}}, false},
                  {Role::ink, 1.2, Dash::solid, true});
  s.canvas.fill({draw::rectangle(s.at.x + 20, s.at.y + 18.1, 15, 4.4)}, Role::ink);
  upright(s, 18, 22.6, 50.5, 36);
  s.number(0, 50.5, 11);
  level(s, 18, 36, 12.5, 18);
  s.number(2, 27, 8.5);
  s.canvas.letter(s.p(18, 36), "solder at the wall", letters());
  const Point c = s.p(60, 34);
  s.canvas.stroke(draw::circle(c, 8.5), visible);
  draw::draw_centre_line(s.canvas, c + Point{-10.5, 0}, c + Point{10.5, 0});
  s.number_at(0, c + Point{0, 6.2});
  s.number_at(1, c + Point{0, -6.2});
  s.canvas.letter(c + Point{0, 11.8}, "exhaust", letters(1.9));
  s.canvas.letter(c + Point{0, 0.9}, "pin", letters(1.9));
}

void show_section(const Spot& s) {
  const Path left = draw::polyline({s.p(10, 34), s.p(10, 4), s.p(16, 4), s.p(16, 40), s.p(13, 40), s.p(13, 34)}, true);
  const Path right = draw::polyline({s.p(58, 34), s.p(58, 4), s.p(52, 4), s.p(52, 40), s.p(55, 40), s.p(55, 34)}, true);
  const Path gasket_left = draw::rectangle(s.at.x + 4, s.at.y + 34, 9, 1.4),
             gasket_right = draw::rectangle(s.at.x + 55, s.at.y + 34, 9, 1.4);
  const Path case_left =
      draw::polyline({s.p(4, 35.4), s.p(13, 35.4), s.p(13, 41.6), s.p(18, 41.6), s.p(18, 45), s.p(4, 45)}, true);
  const Path case_right =
      draw::polyline({s.p(64, 35.4), s.p(55, 35.4), s.p(55, 41.6), s.p(50, 41.6), s.p(50, 45), s.p(64, 45)}, true);
  const Path piston = piston_section(s, 16.4, 51.6, 8, 28, 2.0);
  s.canvas.hatch({left, right}, cylinder_metal);
  s.canvas.hatch({case_left, case_right}, case_metal);
  s.canvas.hatch({piston}, piston_metal);
  s.canvas.fill({gasket_left, gasket_right}, Role::ink);
  s.canvas.stroke({left, right, case_left, case_right}, visible);
  s.canvas.stroke(piston, edge);
  s.canvas.letter(s.p(34, 22), "piston at TDC", letters());
  s.number(0, 1.5, 30.8);
  s.canvas.stroke(draw::line(s.p(2.6, 32.4), s.p(5, 34.6)), fine);
  upright(s, 34, 8, 66, 52);
  s.number(1, 66, 21);
  upright(s, 40, 41.6, 23, 16);
  s.number(2, 27.5, 36.5);
  level(s, 16, 52, 32, 32);
  s.number(3, 34, 32);
  upright(s, 35.4, 8, 71, 60);
  s.number(4, 71, 15);
}

void show_window(const Spot& s) {
  s.canvas.stroke(draw::line(s.p(2, 44), s.p(70, 44)), visible);
  s.canvas.letter(s.p(8, 43), "base face", letters(1.9, draw::Anchor::start));
  const Path window = draw::rounded_rectangle(s.at.x + 24, s.at.y + 12, 28, 16, 5);
  s.canvas.stroke(window, edge);
  draw::draw_centre_line(s.canvas, s.p(38, 6), s.p(38, 44));
  upright(s, 44, 12, 12, 28);
  s.number(0, 12, 28);
  upright(s, 44, 28, 62, 48);
  s.number(1, 62, 36);
  level(s, 24, 52, 5.5, 17);
  s.number(2, 38, 5.5);
  draw::draw_leader(s.canvas, s.p(50.5, 13.5), s.p(57, 9), "", {});
  s.number(3, 61, 9);
  draw::draw_leader(s.canvas, s.p(25.5, 26.5), s.p(20, 33), "", {});
  s.number(4, 16.6, 34);
}

void show_round(const Spot& s) {
  const Point c = s.p(36, 23);
  s.canvas.stroke(draw::circle(c, 15), edge);
  const auto ray = [&](double angle, double from, double to) {
    const Point d{std::sin(angle * degree), std::cos(angle * degree)};
    return draw::line(c + from * d, c + to * d);
  };
  // Seen from the plug with the exhaust toward the reader, clockwise runs from below to the left.
  draw::draw_centre_line(s.canvas, c + Point{0, -18}, c + Point{0, 19});
  draw::draw_centre_line(s.canvas, c + Point{-19, 0}, c + Point{19, 0});
  s.canvas.stroke(ray(-65, 0, 17.5), visible);
  const Path sweep = draw::arc(c, 9, 90 * degree, 65 * degree);
  s.canvas.stroke(sweep, {Role::ink, draw::weight::dimension, Dash::solid, false});
  const double end = 155 * degree;
  draw::draw_arrow(s.canvas, c + Point{9 * std::cos(end), 9 * std::sin(end)}, {-std::sin(end), std::cos(end)},
                   Role::ink);
  s.number_at(0, c + Point{-8.0, 9.0});
  s.number(1, 58.5, 23);
  s.number(2, 36, 3.4);
  s.canvas.stroke(draw::arc(c, 16.5, -135 * degree, 90 * degree), {Role::ink, 0.8, Dash::solid, false});
  s.canvas.fill({draw::circle(c + Point{-15 * std::sin(30 * degree), -15 * std::cos(30 * degree)}, 0.9)}, Role::ink);
  s.number_at(3, c + Point{-11.5, -18});
  s.canvas.letter(c + Point{0, 21.5}, "exhaust, 0°", letters());
  s.canvas.letter(c + Point{22, -14}, "from the plug,", letters(1.9, draw::Anchor::start));
  s.canvas.letter(c + Point{22, -10.8}, "clockwise +", letters(1.9, draw::Anchor::start));
  s.canvas.letter(c + Point{-18.6, 9.6}, "window", letters(1.9, draw::Anchor::end));
}

}  // namespace portwright::sheet
