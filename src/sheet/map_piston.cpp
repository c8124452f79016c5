// The piston behind the wall, and what it leaves open of the windows.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "draw/lettering.hpp"
#include "draw/marks.hpp"
#include "sheet/map_page.hpp"

namespace portwright::sheet {
namespace {

using draw::Dash;
using draw::Role;
using std::numbers::pi;

draw::Path level(const MapPage& page, double y) { return draw::line({page.view.left, y}, {page.view.right(), y}); }

/// The skirt's lower edge from the left seam to the right one, at a crown edge's drop [m].
std::vector<draw::Point> skirt_edge(const MapPage& page, double drop) {
  const double half = 0.5 * page.view.bore, from = (page.view.seam - 2 * pi) * half, to = page.view.seam * half;
  std::vector<draw::Point> points;
  for (const geometry::Point& p : page.skirt->edge(from, to)) {
    points.push_back({page.view.left + page.view.along(p.x - from), page.view.y(drop + p.y)});
  }
  return points;
}

draw::Area above_crown(const MapPage& page) {
  const double y = page.drop ? page.view.y(*page.drop) : page.bottom + 10;
  return {draw::rectangle(page.view.left - 1, page.top - 1, page.view.width + 2, y - page.top + 1)};
}

/// From the crown edge to the skirt's edge; to the picture's end where the skirt is not known.
draw::Area piston_area(const MapPage& page) {
  const double crown = page.view.y(*page.drop);
  if (!page.skirt) return {draw::rectangle(page.view.left, crown, page.view.width, page.bottom - crown)};
  auto points = skirt_edge(page, *page.drop);
  points.push_back({page.view.right(), crown});
  points.push_back({page.view.left, crown});
  return {draw::polyline(std::move(points), true)};
}

draw::Area below_skirt(const MapPage& page) {
  auto points = skirt_edge(page, *page.drop);
  points.push_back({page.view.right(), page.bottom + 50});
  points.push_back({page.view.left, page.bottom + 50});
  return {draw::polyline(std::move(points), true)};
}

draw::Stroke edge_pen(const MapPage& page, int entry) {
  if (page.changed(entry)) return {Role::marking_blue, draw::weight::edge, Dash::solid, true};
  return {Role::ink, 0.3, Dash::solid, true};
}

void draw_open_windows(MapPage& page) {
  for (const Placed& w : page.windows) {
    const WindowLook look = look_of(page.engine, w.entry);
    page.canvas.tint(w.area, look.role);
    page.canvas.hatch(w.area, {look.pattern, look.role, draw::weight::fine, 1.0, {w.x, w.box.top}});
    page.canvas.stroke(w.area, edge_pen(page, w.entry));
  }
}

void draw_hidden_windows(MapPage& page) {
  for (const Placed& w : page.windows) {
    const bool changed = page.changed(w.entry);
    page.canvas.stroke(w.area, {changed ? Role::marking_blue : Role::ink,
                                changed ? draw::weight::visible : draw::weight::dimension, Dash::hidden, false});
  }
}

/// What comes off, between the stock outline and the wanted one, and the stock outline itself.
void draw_metal_to_go(MapPage& page) {
  for (const Placed& stock : page.stock_windows) {
    if (!page.changed(stock.entry)) continue;
    for (const Placed& w : page.windows) {
      if (w.entry != stock.entry || w.side != stock.side) continue;
      draw::Area both = w.area;
      both.insert(both.end(), stock.area.begin(), stock.area.end());
      page.canvas.fill(both, Role::ground);
      page.canvas.hatch(both, {draw::Hatch::metal_to_go, Role::marking_blue, draw::weight::fine, 1.0, {}});
    }
    page.canvas.stroke(stock.area, {Role::stock, draw::weight::visible, Dash::solid, true});
  }
  for (const Placed& w : page.windows) {
    if (page.changed(w.entry)) page.canvas.stroke(w.area, edge_pen(page, w.entry));
  }
}

void draw_peg(MapPage& page, const geometry::Ring& ring, double y) {
  if (!ring.peg) return;
  const double x = page.view.x(*ring.peg), height = 1000 * *ring.height;
  page.canvas.fill({draw::rectangle(x - 0.7, y, 1.4, height)}, Role::ink);
  const std::string text = "ring peg " + degree_text(*ring.peg, 0);
  const double width = draw::lettering_width(text, 2.4) + 4;
  std::vector<draw::Box> wanted;
  for (const double up : {6.0, 9.0, 12.0, 15.0, 19.0, -9.0, -13.0}) {
    for (const double side : {1.0, -1.0}) {
      const double left = side > 0 ? x + 1.5 : x - 1.5 - width;
      if (left < page.view.left || left + width > page.view.right() || y - up < page.top + 4) continue;
      wanted.push_back({left, y - up - 2.6, left + width, y - up + 0.8});
    }
  }
  if (wanted.empty()) return;
  const draw::Box box = page.taken.take_first_free(wanted);
  const bool to_right = box.left > x;
  draw::draw_leader(page.canvas, {x, y + height / 2}, {to_right ? box.left + 0.5 : box.right - 0.5, box.top + 1.4},
                    text, {Role::ink, 2.4, draw::Anchor::start, 0, false, 1.4, 0});
}

void draw_rings(MapPage& page) {
  for (const geometry::Ring& ring : page.engine.piston.rings) {
    if (!ring.below_crown || !ring.height) continue;
    const double y = page.view.y(*page.drop + *ring.below_crown), height = 1000 * *ring.height;
    page.canvas.fill({draw::rectangle(page.view.left, y, page.view.width, height)}, Role::ground);
    page.canvas.stroke({level(page, y), level(page, y + height)},
                       {Role::ink, draw::weight::dimension, Dash::solid, false});
  }
}

void draw_piston_windows(MapPage& page) {
  for (const geometry::PistonWindow& w : page.engine.piston.windows) {
    if (!w.centre || !w.roof || !w.floor || !w.width) continue;
    const double half = page.view.along(geometry::arc_of_chord(*w.width, page.view.bore)) / 2;
    for (int k = 0; k < std::min(w.count, 2); ++k) {
      const double x = page.view.x(k == 0 ? *w.centre : -*w.centre), y = page.view.y(*page.drop + *w.roof);
      const draw::Path hole =
          draw::rounded_rectangle(x - half, y, 2 * half, 1000 * (*w.floor - *w.roof), 1000 * w.corner.value_or(0.0));
      page.canvas.fill({hole}, Role::ground);
      page.canvas.stroke(hole, {Role::ink, draw::weight::visible, Dash::solid, true});
    }
  }
}

void draw_piston(MapPage& page) {
  const double crown = page.view.y(*page.drop);
  const draw::Area area = piston_area(page);
  page.canvas.hatch(area, {draw::Hatch::piston, Role::metal, draw::weight::fine, 1.0, {page.view.left, crown}});
  draw_rings(page);
  draw_piston_windows(page);
  if (page.skirt) {
    page.canvas.stroke(draw::polyline(skirt_edge(page, *page.drop)),
                       {Role::ink, draw::weight::visible, Dash::solid, true});
  }
  for (const double x : {page.view.left, page.view.right()}) {
    page.canvas.stroke(
        draw::line({x, crown}, {x, page.skirt ? (x < page.view.right() ? skirt_edge(page, *page.drop).front().y
                                                                       : skirt_edge(page, *page.drop).back().y)
                                              : page.bottom}),
        {Role::ink, draw::weight::dimension, Dash::solid, false});
  }
}

}  // namespace

void draw_windows_and_piston(MapPage& page) {
  page.canvas.group("windows", "windows");
  page.canvas.clip(above_crown(page));
  draw_open_windows(page);
  page.canvas.end_clip();
  if (page.drop) {
    if (page.skirt) {
      page.canvas.clip(below_skirt(page));
      draw_open_windows(page);
      page.canvas.end_clip();
    }
    draw_piston(page);
    page.canvas.clip(piston_area(page));
    draw_hidden_windows(page);
    page.canvas.end_clip();
    page.canvas.stroke(level(page, page.view.y(*page.drop)), {Role::ink, 0.6, Dash::solid, false});
  }
  draw_metal_to_go(page);
  page.canvas.end_group();
}

void draw_pegs(MapPage& page) {
  if (!page.drop) return;
  for (const geometry::Ring& ring : page.engine.piston.rings) {
    if (ring.below_crown && ring.height) draw_peg(page, ring, page.view.y(*page.drop + *ring.below_crown));
  }
}

}  // namespace portwright::sheet
