#pragma once
// One page that holds every kind of line, hatch, letter and mark: kept as a golden drawing and looked at by eye.

#include <string>

#include "draw/canvas.hpp"
#include "draw/marks.hpp"
#include "draw/ruler.hpp"
#include "draw/table.hpp"

namespace portwright::test {

inline void specimen_hatches(draw::Canvas& c, double top) {
  using namespace draw;
  struct Row {
    Hatch pattern;
    Role role;
    const char* name;
  };
  const Row rows[] = {{Hatch::piston, Role::metal, "piston"},
                      {Hatch::cylinder, Role::metal, "cylinder"},
                      {Hatch::limit, Role::metal, "case, limit"},
                      {Hatch::metal_to_go, Role::marking_blue, "metal to go"},
                      {Hatch::upright, Role::exhaust, "exhaust"},
                      {Hatch::dots, Role::transfers, "primary"},
                      {Hatch::crosses, Role::transfers, "secondary"},
                      {Hatch::level, Role::intake, "intake"},
                      {Hatch::squares, Role::ink, "third"},
                      {Hatch::rings, Role::ink, "boost"},
                      {Hatch::waves, Role::ink, "air"}};
  for (std::size_t i = 0; i < std::size(rows); ++i) {
    const double x = 15 + 30.0 * static_cast<double>(i % 6), y = top + 22.0 * static_cast<double>(i / 6);
    const Area area{rounded_rectangle(x, y, 26, 14, 4), circle({x + 20, y + 7}, 2.5)};
    const bool window = i >= 4 && i <= 7;
    if (window) c.tint(area, rows[i].role);
    c.hatch(area, {rows[i].pattern, rows[i].role, weight::fine, 1.0, {x, y}});
    c.stroke({area[0], area[1]},
             {i == 3 ? Role::marking_blue : Role::ink, i == 3 ? weight::edge : weight::visible, Dash::solid, true});
    c.words({x, y + 18}, rows[i].name, {Role::reason, 3.2});
  }
}

inline void specimen_lines(draw::Canvas& c, double top) {
  using namespace draw;
  const std::pair<Stroke, const char*> rows[] = {
      {{Role::ink, weight::edge}, "here now"},
      {{Role::ink, weight::visible}, "visible edge"},
      {{Role::ink, weight::dimension, Dash::hidden, false}, "behind the piston"},
      {{Role::ink, weight::dimension, Dash::centre, false}, "centre, travel"},
      {{Role::stock, weight::visible}, "stock"},
      {{Role::marking_blue, weight::edge}, "wanted"},
      {{Role::marking_blue, weight::visible, Dash::stop, false}, "stop and read"}};
  double y = top;
  for (const auto& [stroke, name] : rows) {
    c.stroke(line({15, y}, {45, y}), stroke);
    c.words({49, y + 1.1}, name, {Role::reason, 3.2});
    y += 5.5;
  }
}

inline void specimen_letters(draw::Canvas& c, double top) {
  using namespace draw;
  const char* rows[] = {"0123456789 103.0° 36.54 ±0.05 −1.9 ×2",
                        "ABCDEFGHIJKLMNOPQRSTUVWXYZ",
                        "abcdefghijklmnopqrstuvwxyz",
                        "äöüß éèêë çñ åøæ łŻž ÄÖÜ ÅØÆ",
                        "!\"#$%&'()*+,-./:;<=>?@[\\]^_`{|}~",
                        "π ∅ ² ³ ½ ¼ ¾ · – — ’ “ ” „ … ≤ ≥ ≈ µ σ √ ∞ → §"};
  double y = top;
  for (const char* row : rows) {
    c.letter({92, y}, row, {Role::ink, 3.0});
    y += 6.5;
  }
}

inline void specimen_dimensions(draw::Canvas& c, double top) {
  using namespace draw;
  c.stroke(rounded_rectangle(35, top + 8, 31, 11.4, 4), {Role::ink, weight::edge});
  draw_dimension_level(c, 35, 66, top + 3, "chord 31.0", {.from_first = top + 12, .from_second = top + 12});
  draw_dimension_upright(c, top + 30, top + 8, 20, "37.54", {.from_first = 30, .from_second = 39});
  draw_dimension_upright(c, top + 30, top + 19.4, 27, "25.20", {.from_first = 30, .from_second = 39});
  c.stroke(line({15, top + 30}, {105, top + 30}), {Role::ink, weight::visible});
  draw_dimension_level(c, 66, 70, top + 24, "wall 4.0", {.from_first = top + 14, .from_second = top + 20});
  draw_dimension_upright(c, top + 18.4, top + 19.4, 96, "1.00", {});
  draw_centre_line(c, {50.5, top + 1}, {50.5, top + 27});
  draw_leader(c, {60, top + 8.6}, {72, top + 5}, "wanted", {Role::ink, 2.5});
  draw_balloon(c, {43, top + 13.7}, "3");
  draw_balloon(c, {58, top + 13.7}, "12");
  const Finding kinds[] = {Finding::held, Finding::note, Finding::caution, Finding::stop};
  const char* words[] = {"Held. Skirt cover 2.2 of 1.0 mm.", "Note. Ring runs above the roof.",
                         "Caution. Solder squish 0.36.", "Stop. Case and exhaust would join."};
  for (int i = 0; i < 4; ++i) {
    draw_finding(c, {122, top + 4 + 8.5 * i}, kinds[i], i == 3 ? "E" : "C");
    c.words({128, top + 5.3 + 8.5 * i}, words[i], {Role::ink, 3.2});
  }
}

inline draw::Canvas specimen() {
  using namespace draw;
  Canvas c(210, 230);
  c.title = "Marks of a drawing";
  c.description = "Lines, hatches, letters and marks, one of each.";
  specimen_hatches(c, 12);
  specimen_lines(c, 64);
  specimen_letters(c, 66);
  specimen_dimensions(c, 106);
  draw_check_bar(c, {{15, 156}, 150, false});
  draw_check_bar(c, {{195, 220}, 50, true});
  Table table{{15, 166}};
  table.columns = {{"cut", 52, false},
                   {"now", 16, true, Anchor::start, false, Role::stock},
                   {"stop, read", 18},
                   {"then", 18},
                   {"as cut", 24, true, Anchor::start, true}};
  table.rows = {{"Exhaust roof higher", "36.54", "37.24", "37.54", ""},
                {"A cut whose name is far too long for its column", "7.29", "6.59", "6.29", ""}};
  const double below = draw_table(c, table);
  TitleBlock block{{15, below + 5}, 128};
  block.rows = {{{"saw", "Larch 70 <&> \"skirt\"", 2}, {"state", "as received", 1}},
                {{"scale", "1 : 1", 1}, {"sheet", "1 of 1", 1}}};
  draw_title_block(c, block);
  return c;
}

}  // namespace portwright::test
