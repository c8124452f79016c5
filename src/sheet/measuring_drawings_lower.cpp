// The engine's lower half and what hangs on it: piston, rings, crank, passages, reed, muffler.
#include <cmath>
#include <numbers>

#include "draw/marks.hpp"
#include "sheet/measuring_strokes.hpp"

namespace portwright::sheet {
namespace {

using draw::Dash;
using draw::Hatch;
using draw::Path;
using draw::Point;
using draw::Role;

const draw::Stroke hidden{Role::ink, draw::weight::dimension, Dash::hidden, false};

}  // namespace

void show_piston(const Spot& s) {
  const Path body{{{s.p(20, 9), 0.14},
                   {s.p(52, 9)},
                   {s.p(52, 38)},
                   {s.p(44, 38)},
                   {s.p(41, 31)},
                   {s.p(31, 31)},
                   {s.p(28, 38)},
                   {s.p(20, 38)}},
                  true};
  s.canvas.hatch({body, draw::circle(s.p(36, 22), 4)}, piston_metal);
  s.canvas.stroke(body, edge);
  s.canvas.stroke(draw::circle(s.p(36, 22), 4), visible);
  for (const double y : {12.0, 15.0}) {
    s.canvas.fill({draw::rectangle(s.at.x + 20, s.at.y + y, 32, 1.2)}, Role::ground);
    s.canvas.stroke(draw::rectangle(s.at.x + 20, s.at.y + y, 32, 1.2),
                    {Role::ink, draw::weight::dimension, Dash::solid, false});
  }
  draw::draw_centre_line(s.canvas, s.p(36, 5), s.p(36, 40));
  upright(s, 9, 38, 10, 20);
  s.number(0, 10, 24);
  upright(s, 9, 38, 62, 52);
  s.number(1, 62, 24);
  upright(s, 9, 31, 69, 41);
  s.number(2, 69, 17);
  level(s, 20, 28, 43, 38);
  s.number(3, 32, 43);
  upright(s, 9, 22, 46.5, 36);
  s.number(4, 46.5, 27);
  draw::draw_leader(s.canvas, s.p(33.5, 25), s.p(27, 27), "", {});
  s.number(5, 24.5, 29.5);
  upright(s, 6.8, 9, 28, 36);
  s.number(6, 23, 4);
  s.number(7, 24.4, 33.6);
  s.canvas.letter(s.p(5.5, 6), "exhaust", letters(1.9, draw::Anchor::start));
  s.canvas.letter(s.p(57, 43.5), "intake", letters(1.9, draw::Anchor::start));
}

void show_ring(const Spot& s) {
  const Path land = draw::polyline(
      {s.p(2, 6), s.p(26, 6), s.p(26, 16), s.p(18, 16), s.p(18, 22), s.p(26, 22), s.p(26, 40), s.p(2, 40)}, true);
  s.canvas.hatch({land}, piston_metal);
  s.canvas.stroke(land, edge);
  s.canvas.fill({draw::rectangle(s.at.x + 20, s.at.y + 16.4, 7.4, 5.2)}, Role::ground);
  s.canvas.stroke(draw::rectangle(s.at.x + 20, s.at.y + 16.4, 7.4, 5.2), visible);
  upright(s, 6, 16, 31, 26);
  s.number(0, 31, 3);
  upright(s, 16.4, 21.6, 36, 27.4);
  s.number(1, 36, 28.5);
  level(s, 20, 27.4, 27, 21.6);
  s.number(2, 15, 27);
  const Point c = s.p(56, 23);
  constexpr double pi = std::numbers::pi;
  s.canvas.stroke({draw::arc(c, 12, -pi / 2 + 0.08, 2 * pi - 0.16), draw::arc(c, 10, -pi / 2 + 0.08, 2 * pi - 0.16)},
                  visible);
  s.canvas.stroke({draw::line(c + Point{0.9, -11.96}, c + Point{0.8, -9.96}),
                   draw::line(c + Point{-0.9, -11.96}, c + Point{-0.8, -9.96})},
                  visible);
  s.number(3, 40.5, 8.5);
  s.canvas.stroke(draw::line(s.p(42.5, 9.2), s.p(55.2, 12.2)), {Role::ink, draw::weight::fine, Dash::solid, false});
  s.number(4, 56, 16.4);
  s.canvas.letter(c + Point{0, 1}, "in the bore", letters(1.9));
  s.canvas.stroke(draw::arc(c, 14.5, -pi / 2 + 0.28, 2 * pi - 0.56), hidden);
  s.number(5, 62.5, 5.0);
  s.canvas.letter(c + Point{0, 18.5}, "dashed: out of the bore", letters(1.9));
}

void show_crank(const Spot& s) {
  const Point axis = s.p(24, 32), pin = s.p(24, 23), wrist = s.p(24, 4.5);
  s.canvas.stroke(draw::circle(axis, 11.5), visible);
  s.canvas.stroke({draw::circle(axis, 3), draw::circle(pin, 2), draw::circle(wrist, 1.8)}, visible);
  s.canvas.stroke({draw::line(s.p(21.6, 22), s.p(22.3, 5)), draw::line(s.p(26.4, 22), s.p(25.7, 5))}, visible);
  s.canvas.stroke(draw::circle(axis, 9), {Role::ink, draw::weight::dimension, Dash::centre, false});
  draw::draw_centre_line(s.canvas, s.p(24, 1), s.p(24, 45));
  upright(s, 23, 41, 42, 24);
  s.number(0, 42, 32);
  upright(s, 4.5, 23, 6, 24);
  s.number(1, 6, 14);
  const Path chamber{{{s.p(53, 10)}, {s.p(67, 10)}, {s.p(67, 24), 0.7}, {s.p(53, 24)}}, true};
  s.canvas.hatch({draw::polyline({s.p(53, 15), s.p(67, 15), s.p(67, 24), s.p(64, 30), s.p(56, 30), s.p(53, 24)}, true)},
                 {Hatch::level, Role::reason, 0.1, 1.0, {}});
  s.canvas.stroke(chamber, visible);
  s.number(2, 60, 22);
  s.canvas.letter(s.p(60, 7), "case, liquid", letters(1.9));
  s.canvas.letter(s.p(60, 38), "piston at", letters(1.9));
  s.number(3, 60, 42.5);
}

void show_passage(const Spot& s) {
  const Path outer =
      draw::polyline({s.p(10, 30), s.p(10, 3), s.p(32, 3), s.p(32, 9), s.p(22, 9), s.p(16, 14), s.p(16, 30)}, true);
  const Path inner = draw::polyline({s.p(24, 30), s.p(24, 19), s.p(26, 16), s.p(32, 16), s.p(32, 30)}, true);
  const Path case_outer = draw::polyline({s.p(6, 32), s.p(19, 32), s.p(19, 38), s.p(14, 45), s.p(6, 45)}, true);
  const Path case_inner = draw::polyline({s.p(24, 32), s.p(32, 32), s.p(32, 45), s.p(26, 45)}, true);
  s.canvas.hatch({outer, inner}, cylinder_metal);
  s.canvas.hatch({case_outer, case_inner}, case_metal);
  s.canvas.fill(
      {draw::rectangle(s.at.x + 8, s.at.y + 30.4, 9, 1.2), draw::rectangle(s.at.x + 24, s.at.y + 30.4, 8, 1.2)},
      Role::ink);
  s.canvas.stroke({outer, inner, case_outer, case_inner}, visible);
  draw::draw_centre_line(s.canvas, s.p(35, 2), s.p(35, 45));
  s.canvas.letter(s.p(36.5, 13.5), "bore", letters(1.9, draw::Anchor::start));
  const double y[] = {21.0, 30.0, 39.0};
  const double x[] = {20.0, 20.5, 21.5}, at[] = {28.5, 31.0, 34.0};
  const char* names[] = {"foot of the passage", "hole in the gasket", "what the case leaves"};
  for (int k = 0; k < 3; ++k) {
    draw::draw_leader(s.canvas, s.p(x[k], at[k]), s.p(39, y[k]), "", {});
    s.number(k, 43, y[k]);
    s.canvas.letter(s.p(47, y[k] + 0.9), names[k], letters(1.9, draw::Anchor::start));
  }
  upright(s, 32, 38, 2.5, 19);
  s.number(3, 2.5, 43);
}

void show_reed(const Spot& s) {
  const Path block = draw::polyline({s.p(4, 10), s.p(10, 10), s.p(34, 22), s.p(34, 24), s.p(10, 36), s.p(4, 36)}, true);
  s.canvas.hatch({block, draw::polyline({s.p(8, 13), s.p(28, 23), s.p(8, 33)}, true)}, cylinder_metal);
  s.canvas.stroke({block, draw::polyline({s.p(8, 13), s.p(28, 23), s.p(8, 33)}, true)}, visible);
  s.canvas.stroke({draw::line(s.p(11, 9.6), s.p(35, 21.4)), draw::line(s.p(11, 36.4), s.p(35, 24.6))}, edge);
  s.canvas.stroke(
      {Path{{{s.p(11, 8.6), -0.2}, {s.p(33, 10)}}, false}, Path{{{s.p(11, 37.4), 0.2}, {s.p(33, 36)}}, false}}, hidden);
  s.number(0, 20, 23);
  s.canvas.stroke(draw::line(s.p(12.5, 4.6), s.p(36.5, 16.4)),
                  {Role::ink, draw::weight::dimension, Dash::solid, false});
  draw::draw_arrow(s.canvas, s.p(12.5, 4.6), {-2.03, -1}, Role::ink);
  draw::draw_arrow(s.canvas, s.p(36.5, 16.4), {2.03, 1}, Role::ink);
  s.number(1, 25, 7.4);
  s.canvas.stroke(draw::rectangle(s.at.x + 42, s.at.y + 6, 9, 18), edge);
  level(s, 42, 51, 28, 24);
  s.number(2, 46.5, 32);
  draw::draw_leader(s.canvas, s.p(24, 31), s.p(33, 39), "", {});
  s.number(3, 37, 39);
  upright(s, 10, 21, 39, 33);
  s.number(4, 39, 26.5);
  s.canvas.stroke(
      {draw::line(s.p(55, 14), s.p(60, 14)), draw::line(s.p(55, 30), s.p(60, 30)),
       Path{{{s.p(60, 14), 0.12}, {s.p(71, 14)}}, false}, Path{{{s.p(60, 30), -0.12}, {s.p(71, 30)}}, false}},
      visible);
  upright(s, 15.3, 28.7, 65.5, 65.5);
  s.number(5, 65.5, 22);
  s.canvas.letter(s.p(63, 36.5), "venturi", letters(1.9));
}

void show_outside(const Spot& s) {
  s.canvas.stroke(draw::rounded_rectangle(s.at.x + 3, s.at.y + 6, 24, 20, 3), visible);
  s.canvas.stroke(draw::circle(s.p(20, 16), 4), edge);
  s.number(0, 10, 16);
  s.canvas.stroke(draw::line(s.p(12.1, 16), s.p(16, 16)), {Role::ink, draw::weight::fine, Dash::solid, false});
  s.canvas.letter(s.p(15, 31), "muffler outlet", letters(1.9));
  const Point c = s.p(50, 17);
  s.canvas.stroke(draw::circle(c, 11), visible);
  s.canvas.stroke({draw::line(c, c + Point{0, -13}), draw::line(c, c + Point{-5.6, -11.7})}, visible);
  s.canvas.stroke(draw::arc(c, 9, -116 * std::numbers::pi / 180, 26 * std::numbers::pi / 180),
                  {Role::ink, draw::weight::dimension, Dash::solid, false});
  s.number(1, 42.5, 3.0);
  s.canvas.letter(s.p(57, 3.8), "TDC", letters(1.9));
  s.canvas.letter(s.p(50, 31), "flywheel", letters(1.9));
  for (int k = 0; k < 5; ++k) s.canvas.stroke(draw::circle(s.p(8 + 8.0 * k, 38), 1.4), visible);
  s.canvas.stroke(draw::rounded_rectangle(s.at.x + 4, s.at.y + 35, 40, 6, 3),
                  {Role::ink, draw::weight::dimension, Dash::solid, false});
  level(s, 8, 24, 43.5, 38);
  s.number(2, 30, 43.5);
  s.canvas.stroke(draw::circle(s.p(58, 39), 5), visible);
  for (int k = 0; k < 7; ++k) {
    const double a = 2 * std::numbers::pi * k / 7;
    s.canvas.stroke(draw::circle(s.p(58 + 5 * std::cos(a), 39 + 5 * std::sin(a)), 0.9),
                    {Role::ink, draw::weight::dimension, Dash::solid, false});
  }
  s.number(3, 68, 39);
  s.canvas.stroke(draw::arc(c, 13.5, 0.2, 1.0), visible);
  draw::draw_arrow(s.canvas, c + Point{13.5 * std::cos(1.2), 13.5 * std::sin(1.2)}, {-std::sin(1.2), std::cos(1.2)},
                   Role::ink);
  s.number(4, 66, 22);
  s.number(5, 66, 27);
}

}  // namespace portwright::sheet
