#include "sheet/rubbing_page.hpp"

#include <algorithm>
#include <string>

#include "draw/marks.hpp"
#include "draw/ruler.hpp"
#include "draw/table.hpp"
#include "draw/words.hpp"

namespace portwright::sheet {
namespace {

using draw::Anchor;
using draw::Role;

constexpr double left = 14.0, right = 14.0, top = 13.0;
constexpr double square_top = 92.0;  // of the white inside, on both papers

draw::TextStyle words(double size, Role role = Role::ink, bool bold = false, Anchor anchor = Anchor::start) {
  return {role, size, anchor, 0, bold, 0, 0};
}

// What is to be done, in the order of the work: one column of numbered steps.
double draw_steps(draw::Canvas& page, double y, double width) {
  const char* const steps[] = {
      "Press thin paper into the bore over the window and rub its edge with the side of a soft pencil until a closed "
      "line stands. Not wet: wet paper grows. Pencil, not ink. Draw a short line along the bore beside it.",
      "Cut the strip so that it lies inside the frame with white all round it, the roof toward the triangle. Tape it "
      "flat by all its edges. Nothing may lie over the black frame.",
      "Measure the frame’s white inside both ways with a caliper and write it below: every printer is a little off.",
      "Photograph it from straight above, the whole frame and the triangle in the picture and as large as they will "
      "go, in even light, without a shadow of the hand."};
  int number = 1;
  for (const char* step : steps) {
    draw::draw_balloon(page, {left + 2.3, y - 0.9}, std::to_string(number++), 2.1);
    y = draw::draw_paragraph(page, {left + 7, y}, step, words(2.7), width - 7, 3.9) + 1.7;
  }
  return y;
}

void draw_frame(draw::Canvas& page, const draw::Box& in) {
  const double f = rubbing_frame;
  page.group("rubbing-frame", "frame of known size");
  page.fill({draw::rectangle(in.left - f, in.top - f, in.width() + 2 * f, in.height() + 2 * f),
             draw::rectangle(in.left, in.top, in.width(), in.height())});
  page.fill({draw::polyline({{in.left - 13, in.top - 1}, {in.left - 7.5, in.top + 10}, {in.left - 18.5, in.top + 10}},
                            true)});
  page.end_group();
  page.words({in.left - 13, in.top - 7.2}, "roof side,", words(2.5, Role::ink, false, Anchor::middle));
  page.words({in.left - 13, in.top - 3.8}, "plug", words(2.5, Role::ink, false, Anchor::middle));
}

// Words, a line to write on, and the unit.
void draw_entry(draw::Canvas& page, double x, double to, double y, const char* what, const char* unit) {
  page.words({x, y}, what, words(2.8));
  const double unit_room = *unit == 0 ? 0.0 : 7.0;
  page.stroke(draw::line({x + draw::words_width(what, 2.8) + 2, y + 1.0}, {to - unit_room, y + 1.0}),
              {Role::ink, draw::weight::fine, draw::Dash::solid, false});
  page.words({to - unit_room + 1.5, y}, unit, words(2.5, Role::reason));
}

}  // namespace

draw::Box rubbing_inside(const Paper& paper) {
  const double x = 0.5 * (paper.width - rubbing_square);
  return {x, square_top, x + rubbing_square, square_top + rubbing_square};
}

draw::Canvas draw_rubbing_page(const Paper& paper) {
  draw::Canvas page(paper.width, paper.height);
  page.title = "Rubbing";
  page.description = "A square in a black frame to lay a window's rubbing in and to photograph, with how it is done.";
  const double width = paper.width - left - right, middle = paper.width / 2, end = paper.width - right;
  page.words({left, top + 4.5}, "Rubbing", words(5.4, Role::ink, true));
  page.words({left + 29, top + 4.5}, "a window’s outline from a photo of this page", words(3.1, Role::reason));
  draw_steps(page, top + 14, width);
  const draw::Box in = rubbing_inside(paper);
  draw_frame(page, in);
  const double below = in.bottom + rubbing_frame + 11.5;
  draw_entry(page, left, middle - 4, below, "white inside, across", "mm");
  draw_entry(page, middle + 4, end, below, "white inside, down", "mm");
  draw_entry(page, left, middle - 4, below + 8.5, "saw and window", "");
  draw_entry(page, middle + 4, end, below + 8.5, "rubbed from inside or at the wall side", "");
  draw::draw_check_bar(page, {{middle - 0.5 * check_bar_length, below + 19.5}, check_bar_length, false});
  return page;
}

}  // namespace portwright::sheet
