#include "draw/ruler.hpp"

#include <cmath>
#include <string>

namespace portwright::draw {
namespace {

constexpr double inch = 25.4;  // [mm], exact

std::vector<Tick> millimetres(double length) {
  std::vector<Tick> ticks;
  for (int k = 0; k <= static_cast<int>(length + 1e-9); ++k) {
    const bool full = k % 10 == 0;
    ticks.push_back({static_cast<double>(k),
                     full         ? 3.0
                     : k % 5 == 0 ? 2.2
                                  : 1.3,
                     k % 50 == 0 ? std::to_string(k) : ""});
  }
  return ticks;
}

std::vector<Tick> sixteenths(double length) {
  std::vector<Tick> ticks;
  for (int k = 0; k * inch / 16 <= length + 1e-9; ++k) {
    const double size = k % 16 == 0 ? 3.0 : k % 8 == 0 ? 2.2 : k % 4 == 0 ? 1.7 : 1.1;
    ticks.push_back({k * inch / 16, size, k % 16 == 0 ? std::to_string(k / 16) : ""});
  }
  return ticks;
}

void stroke_ticks(Canvas& canvas, std::vector<Path> marks) {
  canvas.stroke(std::move(marks), {Role::ink, weight::fine, Dash::solid, false});
}

}  // namespace

void draw_ticks_level(Canvas& canvas, Point from, const std::vector<Tick>& ticks, bool upward,
                      const TextStyle& letters) {
  const double sense = upward ? -1.0 : 1.0;
  std::vector<Path> marks;
  for (const Tick& t : ticks) {
    const Point foot{from.x + t.at, from.y}, end{foot.x, from.y + sense * t.length};
    marks.push_back(line(foot, end));
    TextStyle style = letters;
    style.anchor = Anchor::middle;
    if (!t.text.empty()) canvas.letter({end.x, end.y + (upward ? -0.9 : letters.size + 0.9)}, t.text, style);
  }
  stroke_ticks(canvas, std::move(marks));
}

void draw_ticks_upright(Canvas& canvas, Point from, const std::vector<Tick>& ticks, bool leftward,
                        const TextStyle& letters) {
  const double sense = leftward ? -1.0 : 1.0;
  std::vector<Path> marks;
  for (const Tick& t : ticks) {
    const Point foot{from.x, from.y - t.at}, end{from.x + sense * t.length, foot.y};
    marks.push_back(line(foot, end));
    TextStyle style = letters;
    style.anchor = leftward ? Anchor::end : Anchor::start;
    if (!t.text.empty()) canvas.letter({end.x + sense * 0.9, end.y + letters.size / 2}, t.text, style);
  }
  stroke_ticks(canvas, std::move(marks));
}

void draw_check_bar(Canvas& canvas, const CheckBar& bar) {
  const Point z = bar.zero;
  const TextStyle letters{Role::ink, 2.3, Anchor::middle, 0.0, false, 0.0, 0.0};
  const Stroke pen{Role::ink, weight::visible, Dash::solid, false};
  if (bar.standing) {
    canvas.stroke(line(z, {z.x, z.y - bar.length}), pen);
    draw_ticks_upright(canvas, z, millimetres(bar.length), true, letters);
    draw_ticks_upright(canvas, z, sixteenths(bar.length), false, letters);
    canvas.letter({z.x - 3.9, z.y + letters.size + 2.4}, "mm", {Role::ink, 2.3, Anchor::end, 0.0, false, 0.0, 0.0});
    canvas.letter({z.x + 3.9, z.y + letters.size + 2.4}, "in", {Role::ink, 2.3, Anchor::start, 0.0, false, 0.0, 0.0});
    return;
  }
  canvas.stroke(line(z, {z.x + bar.length, z.y}), pen);
  draw_ticks_level(canvas, z, millimetres(bar.length), true, letters);
  draw_ticks_level(canvas, z, sixteenths(bar.length), false, letters);
  canvas.letter({z.x + bar.length + 4.2, z.y - 3.9}, "mm", {Role::ink, 2.3, Anchor::start, 0.0, false, 0.0, 0.0});
  canvas.letter({z.x + bar.length + 4.2, z.y + 3.9 + letters.size}, "in",
                {Role::ink, 2.3, Anchor::start, 0.0, false, 0.0, 0.0});
}

}  // namespace portwright::draw
