// From the exhaust window through its duct, a pipe where there is one, and the muffler's boxes to the outside.

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "cycle/builder.hpp"
#include "flow/profile.hpp"
#include "geometry/skirt_profile.hpp"
#include "geometry/walls.hpp"

namespace portwright::cycle {

using geometry::PortKind;

void Builder::exhaust() {
  std::vector<std::size_t> entries;
  for (std::size_t i = 0; i < engine_.ports.size(); ++i) {
    const geometry::Port& port = engine_.ports[i];
    if (port.kind != PortKind::exhaust) continue;
    entries.push_back(i);
    if (!port.window_known)
      need(port.window_known);
    else if (port.window.roof() >= net_.stroke)
      wrong("the exhaust never opens: its roof lies under the crown at BDC", "port.exhaust",
            "look at its roof and opens");
    else
      exhaust_area_ += port.window.area() * port.count;
  }
  need(!entries.empty(), "port.exhaust");
  if (!errors_.empty() || !missing_.none()) return;
  Room first;
  first.size = 1.0;
  first.behind_exhaust = true;
  const int box = add_room(first);
  muffler(box);
  for (const std::size_t i : entries) {
    const geometry::Port& port = engine_.ports[i];
    const double window = port.window.area();
    const double length = or_take(port.duct_length, "duct.length", "exhaust_length", take_.exhaust_length * scale());
    const double outlet =
        or_take(port.duct_outlet, "duct.outlet", "exhaust_outlet_share", take_.exhaust_outlet_share * window);
    std::vector<flow::Station> stations{{0.0, window}, {length, outlet}};
    for (const geometry::PipeStation& s : engine_.breathing.pipe)
      if (s.place && s.bore)
        stations.push_back({length + *s.place, 0.25 * std::numbers::pi * *s.bore * *s.bore / port.count});
    stations.back().place = std::max(stations.back().place, length);
    flow::Duct duct;
    duct.grid = grid_of(stations, fineness_.hot * scale(), port.count,
                        engine_.breathing.pipe.empty() ? "duct" : "pipe.profile");
    duct.friction = take_.friction_factor;
    duct.heat_share = 1.0;
    duct.wall_temperature = take_.exhaust_wall;
    const int from = window_opening(port, OpenedBy::crown, take_.exhaust_discharge);
    const int to = fixed_opening(duct.grid.area.back(), 1.0);
    const int d =
        add_duct(std::move(duct), {Role::exhaust, static_cast<int>(i), port.count}, {net_.cylinder, from}, {box, to});
    free_port(d);
  }
}

/// Boxes in a row with baffles between them; all outlets leave the last one.
void Builder::muffler(int first_box) {
  const geometry::Breathing& b = engine_.breathing;
  std::vector<double> boxes;
  for (const Known& box : b.boxes)
    if (box) boxes.push_back(*box);
  if (boxes.empty())
    boxes.push_back(or_take(b.boxes_known, "muffler.boxes", "muffler_share", take_.muffler_share * net_.swept));
  int box = first_box;
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    Room room;
    room.size = boxes[i];
    room.behind_exhaust = true;
    room.wall_temperature = take_.muffler_wall;
    room.film = take_.muffler_film * 6.0 * std::pow(boxes[i], 2.0 / 3.0);  // a cube's walls
    if (i == 0) {
      net_.rooms[static_cast<std::size_t>(first_box)] = room;
      continue;
    }
    const int next = add_room(room);
    const bool read = i - 1 < b.baffles.size() && b.baffles[i - 1];
    const double wide = take_.exhaust_outlet_share * exhaust_area_;
    if (!read) net_.filled.push_back({"muffler.baffles", "exhaust_outlet_share", wide});
    const double baffle = read ? *b.baffles[i - 1] : wide;
    net_.gaps.push_back({box, next, fixed_opening(baffle, take_.outlet_discharge)});
    box = next;
  }
  const double outlets =
      or_take(engine_.muffler_outlets, "muffler.outlets", "outlet_share", take_.outlet_share * exhaust_area_);
  if (!(outlets > 1e-6))
    wrong("the muffler is shut: its outlets have no area", "muffler.outlets", "give each outlet's area");
  const double screen = b.screen ? take_.screen_open : 1.0;
  net_.gaps.push_back({box, outdoors, fixed_opening(outlets, take_.outlet_discharge * screen)});
}

/// The exhaust window under the skirt's edge joins case and exhaust near TDC.
void Builder::free_port(int duct) {
  const geometry::Piston& piston = engine_.piston;
  const auto entry = static_cast<std::size_t>(net_.names[static_cast<std::size_t>(duct)].port);
  const geometry::Port& port = engine_.ports[entry];
  if (!piston.skirt_exhaust) return;
  const double skirt = *piston.skirt_exhaust;
  const geometry::SkirtProfile profile(
      {skirt, piston.skirt_side.value_or(skirt), piston.skirt_intake.value_or(skirt),
       piston.skirt_exhaust_width.value_or(0.9 * net_.bore), engine_.pin_axis.value_or(0.5 * std::numbers::pi)},
      net_.bore);
  const double x = 0.5 * net_.bore * port.centre.value_or(0.0);
  Opening o;
  o.by = OpenedBy::skirt_table;
  o.discharge = take_.free_port_discharge;
  o.count = port.count;
  o.table_step = 0.0001;
  while (o.table.size() < 200) {
    o.table.push_back(
        geometry::area_below_skirt(port.window, x, profile, o.table_step * static_cast<double>(o.table.size())));
    if (o.table.back() <= 0.0) break;
  }
  if (o.table.size() < 2) return;
  net_.side_gaps.push_back({net_.crankcase, duct, 0, add_opening(std::move(o))});
}

}  // namespace portwright::cycle
