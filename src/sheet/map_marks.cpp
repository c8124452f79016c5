// What stands round the windows: cylinder, names, heights, walls, the scale, pressed sides.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/number_text.hpp"
#include "draw/lettering.hpp"
#include "draw/marks.hpp"
#include "draw/ruler.hpp"
#include "geometry/walls.hpp"
#include "sheet/map_page.hpp"

namespace portwright::sheet {
namespace {

using draw::Anchor;
using draw::Dash;
using draw::Role;
using std::numbers::pi;

constexpr double wall_band = 2.4;       // of hatched cylinder at both sides [mm]
constexpr double head_band = 3.0;       // of hatched head [mm]
constexpr double dimension_step = 5.5;  // between dimension lines [mm]
constexpr double degree = pi / 180;

draw::Path level(const MapPage& page, double y) { return draw::line({page.view.left, y}, {page.view.right(), y}); }

draw::TextStyle letters(double size, Role role = Role::ink, Anchor anchor = Anchor::middle) {
  return {role, size, anchor, 0.0, false, 0.0, 0.0};
}
draw::TextStyle haloed(double size, Role role = Role::ink) { return {role, size, Anchor::start, 0.0, false, 1.4, 0.0}; }

std::string name_of(const MapPage& page, int entry) {
  const auto& names = page.input.labels.ports;
  const auto i = static_cast<std::size_t>(entry);
  return i < names.size() ? names[i] : "port";
}

/// One edge that gets a height: its level, where its extension line starts, whether a cut moved it.
struct Level {
  double drop = 0.0;  ///< [m]
  double from = 0.0;  ///< x of the window's side [mm]
  bool changed = false;
};

/// Different levels of the windows opened by crown or skirt, lowest height first.
std::vector<Level> levels_of(const MapPage& page, geometry::OpenedBy by, bool leftmost) {
  std::vector<Level> found;
  for (const Placed& w : page.windows) {
    if (geometry::opened_by(w.port->kind) != by) continue;
    for (const geometry::Known& drop : {w.port->roof, w.port->floor}) {
      if (!drop) continue;
      const double side = leftmost ? w.box.left : w.box.right;
      const auto same =
          std::find_if(found.begin(), found.end(), [&](const Level& l) { return std::abs(l.drop - *drop) < 5e-6; });
      if (same == found.end())
        found.push_back({*drop, side, page.is_moved(*drop, w.entry)});
      else
        same->from = leftmost ? std::min(same->from, side) : std::max(same->from, side);
    }
  }
  std::sort(found.begin(), found.end(), [](const Level& a, const Level& b) { return a.drop > b.drop; });
  return found;
}

/// Heights from the base face; from the crown edge's TDC place down where that is not known.
void draw_heights(MapPage& page, const std::vector<Level>& levels, bool on_left) {
  const geometry::Known crown = page.engine.crown_at_tdc;
  double x = on_left ? page.view.left - wall_band - 4.5 : page.view.right() + wall_band + 4.5;
  for (const Level& l : levels) {
    draw::DimensionStyle style;
    style.role = l.changed ? Role::marking_blue : Role::ink;
    style.from_second = l.from;
    const double zero = crown ? page.base : page.view.top;
    const std::string text = crown ? mm_text(*crown - l.drop) : mm_text(l.drop) + " under TDC";
    draw::draw_dimension_upright(page.canvas, zero, page.view.y(l.drop), x, text, style);
    x += on_left ? -dimension_step : dimension_step;
  }
  if (!on_left || !crown) return;
  draw::DimensionStyle style;
  style.from_second = page.view.left - wall_band;
  draw::draw_dimension_upright(page.canvas, page.base, page.view.top, x, mm_text(*crown), style);
}

/// Extension of the base face out to the dimension lines.
void draw_base_ends(MapPage& page, std::size_t left_count, std::size_t right_count) {
  if (!page.engine.crown_at_tdc) return;
  const auto reach = [](std::size_t n) {
    return wall_band + 4.5 + dimension_step * (static_cast<double>(n) - 1) + 1.5;
  };
  const draw::Stroke fine{Role::ink, draw::weight::fine, Dash::solid, false}, edge{Role::ink, 0.7, Dash::solid, false};
  page.canvas.stroke(draw::line({page.view.left - reach(left_count + 1), page.base}, {page.view.left, page.base}),
                     fine);
  if (right_count > 0)
    page.canvas.stroke(draw::line({page.view.right(), page.base}, {page.view.right() + reach(right_count), page.base}),
                       fine);
  page.canvas.stroke({draw::line({page.view.left - wall_band, page.base}, {page.view.left, page.base}),
                      draw::line({page.view.right(), page.base}, {page.view.right() + wall_band, page.base})},
                     edge);
}

/// The widest window of each way of opening gets its chord.
void draw_chords(MapPage& page) {
  for (const geometry::OpenedBy by : {geometry::OpenedBy::crown, geometry::OpenedBy::skirt}) {
    const Placed* widest = nullptr;
    for (const Placed& w : page.windows) {
      const bool fits = geometry::opened_by(w.port->kind) == by && w.port->width;
      if (fits && (widest == nullptr || w.box.width() > widest->box.width() + 1e-9)) widest = &w;
    }
    if (widest == nullptr) continue;
    const draw::Box& b = widest->box;
    const double y = b.bottom + 6.0;
    draw::DimensionStyle style;
    style.role = page.is_widened(widest->entry) ? Role::marking_blue : Role::ink;
    style.from_first = style.from_second = b.bottom - 2;
    draw::draw_dimension_level(page.canvas, b.left, b.right, y, "chord " + mm_text(*widest->port->width, 1), style);
    page.taken.add({b.left, y - 4, b.right, y + 1});
  }
}

/// Page x of a placed window's side at a level.
double side_at(const MapPage& page, const Placed& w, double drop, bool right_side) {
  const auto extent = w.port->window.extent(drop, drop);
  if (extent.empty()) return right_side ? w.box.right : w.box.left;
  const bool flipped = w.side == 1;
  const double x = flipped ? -(right_side ? extent.left : extent.right) : (right_side ? extent.right : extent.left);
  return w.x + page.view.along(x);
}

void draw_least_wall(MapPage& page) {
  const geometry::Wall wall = geometry::least_wall(geometry::map_windows(page.engine));
  if (wall.entry < 0 || wall.other < 0) return;
  const Placed *a = nullptr, *b = nullptr;
  for (const Placed& w : page.windows) {
    if (w.entry == wall.entry && w.side == wall.side) a = &w;
    if (w.entry == wall.other && w.side == wall.other_side) b = &w;
  }
  if (a == nullptr || b == nullptr || a->x > b->x) return;
  const double x1 = side_at(page, *a, wall.y, true), x2 = side_at(page, *b, wall.y, false);
  const double y = std::min(a->box.top, b->box.top) - 8.0, at = page.view.y(wall.y);
  draw::DimensionStyle style;
  style.from_first = style.from_second = at;
  style.text_outside = true;
  draw::draw_dimension_level(page.canvas, x1, x2, y, "wall " + mm_text(wall.width, 1), style);
  page.taken.add({x1 - 4, y - 4, x2 + 20, y + 1});
}

/// Where a window opens: over the roof of one that the crown opens, inside one that the skirt opens.
void draw_timing(MapPage& page) {
  std::vector<int> done;
  for (const Placed& w : page.windows) {
    if (std::count(done.begin(), done.end(), w.entry) > 0) continue;
    const geometry::Known opens = geometry::timing(page.engine, *w.port).opens;
    if (!opens) continue;
    done.push_back(w.entry);
    const bool by_crown = geometry::opened_by(w.port->kind) == geometry::OpenedBy::crown;
    const std::string text = degree_text(*opens) + (by_crown ? "" : " before TDC");
    const double width = draw::lettering_width(text, 2.4);
    const auto spot = [&](double baseline) {
      return draw::Box{w.x - width / 2, baseline - 2.6, w.x + width / 2, baseline + 0.4};
    };
    const bool inside = !by_crown && w.box.height() > 5 && w.box.width() > width + 2;
    const draw::Box box =
        inside ? spot(w.box.bottom - 1.6)
               : page.taken.take_first_free({spot(w.box.top - 1.6), spot(w.box.top - 5.2), spot(w.box.top - 8.8)});
    draw::TextStyle style = haloed(2.4, page.changed(w.entry) ? Role::marking_blue : Role::ink);
    page.canvas.letter({box.left, box.bottom - 0.4}, text, style);
  }
}

void draw_edge_names(MapPage& page) {
  const geometry::Engine& e = page.engine;
  page.place_text("crown edge at TDC", page.view.top + 3.6, haloed(2.4, Role::reason), true);
  if (page.drop && *page.drop > 0.005) {
    const std::string height = e.crown_at_tdc ? "crown edge " + mm_text(*e.crown_at_tdc - *page.drop) : "crown edge";
    page.place_text(height, page.view.y(*page.drop) - 1.3, haloed(2.5), true);
  }
  if (e.crown_at_tdc) page.place_text("base face", page.base - 1.2, haloed(2.4, Role::reason), false);
  if (page.drop) {
    draw::TextStyle style = haloed(2.4, Role::reason);
    style.anchor = Anchor::middle;
    page.canvas.letter({page.view.x(0.0), page.base + 4.4}, page.skirt ? "skirt" : "skirt not read", style);
  }
}

void draw_balloons(MapPage& page) {
  std::vector<int> done;
  for (const Placed& w : page.windows) {
    const int cut = page.changed(w.entry) ? page.plan.first_cut_on(static_cast<std::size_t>(w.entry)) : 0;
    if (cut == 0 || std::count(done.begin(), done.end(), w.entry) > 0) continue;
    done.push_back(w.entry);
    const bool by_crown = geometry::opened_by(w.port->kind) == geometry::OpenedBy::crown;
    const double middle = (w.box.top + w.box.bottom) / 2;
    draw::draw_balloon(page.canvas, {w.x, by_crown ? middle : std::min(middle, w.box.bottom - 7.5)},
                       std::to_string(cut), 2.6, Role::marking_blue);
  }
}

/// A bracket over an arc of the bore, parted where it runs over the seam.
void draw_bracket(MapPage& page, double middle, double half, double y, const std::string& text, Role role) {
  const draw::Stroke pen{role, draw::weight::visible, Dash::solid, false};
  const double x1 = page.view.x(middle - half), x2 = page.view.x(middle + half);
  const auto tick = [&](double x) { page.canvas.stroke(draw::line({x, y - 1.2}, {x, y + 1.2}), pen); };
  double from = x1, to = x2;
  if (x1 < x2) {
    page.canvas.stroke(draw::line({x1, y}, {x2, y}), pen);
  } else {
    page.canvas.stroke({draw::line({x1, y}, {page.view.right(), y}), draw::line({page.view.left, y}, {x2, y})}, pen);
    if (page.view.right() - x1 >= x2 - page.view.left)
      to = page.view.right();
    else
      from = page.view.left;
  }
  tick(x1);
  tick(x2);
  const double width = draw::lettering_width(text, 2.4);
  const double x = std::clamp((from + to) / 2, page.view.left + width / 2, page.view.right() - width / 2);
  page.canvas.letter({x, y + 4.2}, text, letters(2.4, role));
}

}  // namespace

void draw_cylinder(MapPage& page) {
  const BoreView& v = page.view;
  const double height = page.base - page.top;
  const draw::HatchStyle metal{draw::Hatch::cylinder, Role::metal, draw::weight::fine, 1.0, {}};
  page.canvas.hatch({draw::rectangle(v.left - wall_band, page.top - head_band, wall_band, height + head_band)}, metal);
  page.canvas.hatch({draw::rectangle(v.right(), page.top - head_band, wall_band, height + head_band)}, metal);
  page.canvas.hatch({draw::rectangle(v.left, page.top - head_band, v.width, head_band)}, metal);
  const draw::Stroke edge{Role::ink, 0.3, Dash::solid, false};
  page.canvas.stroke({draw::line({v.left, page.base}, {v.left, page.top}), level(page, page.top),
                      draw::line({v.right(), page.top}, {v.right(), page.base})},
                     edge);
  draw::draw_centre_line(page.canvas, {v.left, v.top}, {v.right(), v.top},
                         page.plan.has_cuts() ? Role::marking_blue : Role::ink);
  if (page.engine.crown_at_tdc)
    page.canvas.stroke(level(page, page.base), {Role::ink, draw::weight::dimension, Dash::solid, false});
}

void draw_names(MapPage& page) {
  double ends[2] = {-1e9, -1e9};  // where the last name of each row ends
  const double foot = page.top - head_band;
  for (const Placed& w : page.windows) {
    const std::string name = name_of(page, w.entry), place = degree_text(w.angle, 0);
    const double width = std::max(draw::lettering_width(name, 2.7), draw::lettering_width(place, 2.3));
    const int row = w.x - width / 2 > ends[0] + 1.5 || w.x - width / 2 <= ends[1] + 1.5 ? 0 : 1;
    ends[row] = w.x + width / 2;
    const double base = foot - 2.6 - 7.4 * row;
    page.canvas.letter({w.x, base}, place, letters(2.3, Role::reason));
    page.canvas.letter({w.x, base - 3.5}, name, letters(2.7));
    page.canvas.stroke(draw::line({w.x, base + 0.8}, {w.x, foot}), {Role::ink, draw::weight::fine, Dash::solid, false});
  }
}

void draw_sizes(MapPage& page) {
  const auto left = levels_of(page, geometry::OpenedBy::crown, true),
             right = levels_of(page, geometry::OpenedBy::skirt, false);
  draw_heights(page, left, true);
  draw_heights(page, right, false);
  draw_base_ends(page, left.size(), right.size());
  draw_chords(page);
  draw_least_wall(page);
  draw_timing(page);
  draw_balloons(page);
  draw_edge_names(page);
}

void draw_round(MapPage& page) {
  const double y = page.bottom + 1.0;
  page.canvas.stroke(level(page, y), {Role::ink, draw::weight::dimension, Dash::solid, false});
  std::vector<draw::Tick> ticks;
  const int first = static_cast<int>(std::ceil((page.view.seam / degree - 360) / 5)),
            last = static_cast<int>(std::floor(page.view.seam / degree / 5));
  for (int k = first; k <= last; ++k) {
    const int at = 5 * k;
    const std::string text = at % 30 == 0 ? base::number_text(at, 0) + "°" : "";
    ticks.push_back({page.view.width * (1 - (page.view.seam / degree - at) / 360),
                     at % 30 == 0   ? 2.4
                     : at % 15 == 0 ? 1.8
                                    : 1.0,
                     text});
  }
  draw::draw_ticks_level(page.canvas, {page.view.left, y}, ticks, false, letters(2.2));
  const geometry::Engine& e = page.engine;
  if (e.thrust) {
    draw_bracket(page, *e.thrust, pi / 4, y + 10.5, "pressed on the power stroke", Role::ink);
    draw_bracket(page, *e.thrust + pi, pi / 4, y + 10.5, "pressed on compression", Role::reason);
  }
}

void draw_findings(MapPage& page) {
  char letter = 'A';
  for (const study::Finding& f : page.input.findings) {
    if (f.state == study::State::ok || letter > 'Z') continue;
    const std::string name(1, letter++);
    const Placed* at = nullptr;
    for (const Placed& w : page.windows) {
      if (at == nullptr && name_of(page, w.entry) == f.where.port) at = &w;
    }
    if (at == nullptr && !f.where.angle_deg) continue;
    double x = f.where.angle_deg ? page.view.x(*f.where.angle_deg * degree) : at->x;
    double y = at != nullptr ? at->box.bottom : page.base - 6;
    if (f.where.height_mm && page.engine.crown_at_tdc) y = page.base - *f.where.height_mm;
    std::vector<draw::Box> wanted;
    for (const double dy : {0.0, -6.0, 6.0, -12.0, 12.0}) {
      for (const double dx : {0.0, 6.0, -6.0})
        wanted.push_back({x + dx - 2.4, y + dy - 2.4, x + dx + 2.4, y + dy + 2.4});
    }
    const draw::Box box = page.taken.take_first_free(wanted);
    const draw::Point c{(box.left + box.right) / 2, (box.top + box.bottom) / 2};
    page.canvas.fill({draw::circle(c, 2.5)}, Role::ground);
    draw::draw_finding(page.canvas, c, finding_shape(f), name, 4.2);
  }
}

}  // namespace portwright::sheet
