#include "study/rivals.hpp"

#include <algorithm>
#include <cmath>

namespace portwright::study {

namespace {

using geometry::PlacedWindow;
using geometry::Wall;
using geometry::WindowMap;

bool same(const Rival& a, const Rival& b) {
  return a.wall.entry == b.wall.entry && a.wall.side == b.wall.side && a.wall.other == b.wall.other &&
         a.wall.other_side == b.wall.other_side && a.end == b.end;
}

/// Puts a rival in its place by `better`; the worst falls out of a full list.
template <class Better>
void take(const Rival& rival, const Rival& chosen, Better better, Rivals& out) {
  if (rival.wall.entry < 0 || same(rival, chosen)) return;
  if (out.size() < Rivals::capacity)
    out.add(rival);
  else if (better(rival.wall.width, out[out.size() - 1].wall.width))
    out[out.size() - 1] = rival;
  for (std::size_t i = out.size() - 1; i > 0 && better(out[i].wall.width, out[i - 1].wall.width); --i)
    std::swap(out[i], out[i - 1]);
}

constexpr auto narrower = [](double a, double b) { return a < b; };
constexpr auto wider = [](double a, double b) { return a > b; };

/// Measures the rivals as read again; false when they are yet to be found.
template <class Measure>
bool again(const Rivals* as_read, Measure wall, Rivals& out) {
  out.clear();
  if (as_read == nullptr) return false;
  for (const Rival& one : *as_read) out.add({wall(one), one.end});
  return true;
}

Wall to(const PlacedWindow& placed) { return {0.0, 0.0, placed.entry, placed.side, -1, 0}; }

bool in_way(const PlacedWindow& placed, double top, double bottom) {
  return std::max(top, placed.window->roof()) < std::min(bottom, placed.window->floor());
}

/// Whether the way from one window clockwise to the other is a wall between them, as of geometry::least_wall.
bool faces(const WindowMap& map, const PlacedWindow& a, const PlacedWindow& b) {
  double between = std::fmod(b.x - a.x, map.circumference);
  if (between < 0.0) between += map.circumference;
  return between <= 0.75 * map.circumference &&
         std::max(a.window->roof(), b.window->roof()) < std::min(a.window->floor(), b.window->floor());
}

}  // namespace

void between_windows(const WindowMap& map, const Wall& chosen, const Rivals* as_read, Rivals& out) {
  const auto wall = [&](const Rival& one) { return geometry::wall_between(map, one.wall); };
  if (again(as_read, wall, out)) return;
  for (const PlacedWindow& a : map.windows)
    for (const PlacedWindow& b : map.windows)
      if (&a != &b && faces(map, a, b))
        take({wall({{0.0, 0.0, a.entry, a.side, b.entry, b.side}}), 0}, {chosen, 0}, narrower, out);
}

void beside_strip(const WindowMap& map, const Strip& strip, const Wall& chosen, const Rivals* as_read, Rivals& out) {
  const auto wall = [&](const Rival& one) {
    return geometry::strip_wall_to(map, one.wall, strip.x, strip.half, strip.top, strip.bottom);
  };
  if (again(as_read, wall, out)) return;
  for (const PlacedWindow& placed : map.windows)
    if (in_way(placed, strip.top, strip.bottom)) take({wall({to(placed)}), 0}, {chosen, 0}, narrower, out);
}

void beside_pin(const WindowMap& map, const Strip& bore, const Rival& chosen, const Rivals* as_read, Rivals& out) {
  const auto wall = [&](const Rival& one) {
    return geometry::strip_wall_to(map, one.wall, bore.x + 0.5 * one.end * map.circumference, bore.half, bore.top,
                                   bore.bottom);
  };
  if (again(as_read, wall, out)) return;
  for (const int end : {0, 1})
    for (const PlacedWindow& placed : map.windows)
      if (in_way(placed, bore.top, bore.bottom)) take({wall({to(placed), end}), end}, chosen, narrower, out);
}

void under_ring(const WindowMap& map, double top, double bottom, const Wall& chosen, const Rivals* as_read,
                Rivals& out) {
  const auto wall = [&](const Rival& one) { return geometry::widest_gap_of(map, one.wall, top, bottom); };
  if (again(as_read, wall, out)) return;
  for (const PlacedWindow& placed : map.windows)
    if (in_way(placed, top, bottom)) take({wall({to(placed)}), 0}, {chosen, 0}, wider, out);
}

}  // namespace portwright::study
