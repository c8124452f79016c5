#include "geometry/walls.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace portwright::geometry {

namespace {

using std::numbers::pi;

double into_turn(double x, double circumference) {
  const double rest = std::fmod(x, circumference);
  return rest < 0.0 ? rest + circumference : rest;
}

Window::Extent placed_extent(const PlacedWindow& placed, double top, double bottom) {
  const Window::Extent own = placed.window->extent(top, bottom);
  if (own.empty() || !placed.mirrored) return own;
  return {-own.right, -own.left};
}

Known nothing_but(const Known& known) { return known * Known(0.0); }

void place(const Port& port, int entry, double bore, WindowMap& map) {
  const double bridge = port.traced ? 0.0 : arc_of_chord(port.bridge.value_or(0.0), bore);
  const int first = port.twin_of >= 0 ? 1 : 0;
  for (int side = first; side < first + std::clamp(port.count, 1, 2 - first); ++side) {
    const double sign = side == 0 ? 1.0 : -1.0;
    map.windows.add({&port.window, into_turn(sign * *port.centre * 0.5 * bore, map.circumference), side == 1, bridge,
                     sign * port.bridge_at.value_or(0.0), entry, side});
  }
}

const PlacedWindow* find(const WindowMap& map, int entry, int side) {
  for (const PlacedWindow& placed : map.windows)
    if (placed.entry == entry && placed.side == side) return &placed;
  return nullptr;
}

/// The part of [top, bottom] that a window has; its level nearest to them when it has none.
struct Levels {
  double top, bottom;
};
Levels levels_of(const Window& window, double top, double bottom) {
  const double from = std::clamp(top, window.roof(), window.floor());
  return {from, std::clamp(bottom, from, window.floor())};
}

double strip_gap(const WindowMap& map, const PlacedWindow& placed, const Window::Extent& extent, double x,
                 double half_width) {
  double d = into_turn(x - placed.x, map.circumference);  // strip's middle from the window's, the nearer way
  if (d > 0.5 * map.circumference) d -= map.circumference;
  return std::max(d - half_width - extent.right, extent.left - d - half_width);
}

double open_span(const PlacedWindow& placed, const Window::Extent& extent) {
  if (!(placed.bridge > 0.0)) return extent.right - extent.left;
  return std::max(placed.bridge_x - 0.5 * placed.bridge - extent.left,
                  extent.right - placed.bridge_x - 0.5 * placed.bridge);
}

/// Gap from the right side of a to the left side of b, going clockwise, at levels where both are.
struct Pair {
  const PlacedWindow* a;
  const PlacedWindow* b;
  double between;  ///< of the centres, clockwise [m]

  [[nodiscard]] double gap(double top, double bottom) const {
    const Window::Extent left = placed_extent(*a, top, bottom), right = placed_extent(*b, top, bottom);
    return between + right.left - left.right;
  }
};

/// Takes the least gap of a pair over the levels where either outline bends.
void refine(const Pair& pair, double top, double bottom, Wall& best) {
  const auto take = [&](double y) {
    const double gap = pair.gap(y, y);
    if (gap < best.width) best = {gap, y, pair.a->entry, pair.a->side, pair.b->entry, pair.b->side};
  };
  take(0.5 * (top + bottom));
  for (const PlacedWindow* placed : {pair.a, pair.b})
    for (const double y : placed->window->levels())
      if (y > top && y < bottom) take(y);
  take(top);
  take(bottom);
}

/// Part of [left, right] inside [-half, half].
double inside(double left, double right, double half) {
  return std::max(0.0, std::min(right, half) - std::max(left, -half));
}

/// Arc of one window inside the sector at a level [m]; `x` is its centre from the sector's.
double taken(const PlacedWindow& placed, double x, double half, double y) {
  if (y < placed.window->roof() || y > placed.window->floor()) return 0.0;
  const Window::Extent extent = placed_extent(placed, y, y);
  if (extent.empty()) return 0.0;
  double arc = inside(x + extent.left, x + extent.right, half);
  if (placed.bridge > 0.0)
    arc -= inside(x + placed.bridge_x - 0.5 * placed.bridge, x + placed.bridge_x + 0.5 * placed.bridge, half);
  return std::max(0.0, arc);
}

}  // namespace

double arc_of_chord(double chord, double bore) { return bore * std::asin(std::clamp(chord / bore, -1.0, 1.0)); }

double chord_of_arc(double arc, double bore) { return bore * std::sin(std::clamp(arc / bore, -0.5 * pi, 0.5 * pi)); }

WindowMap map_windows(const Engine& engine) {
  WindowMap map;
  map.known = nothing_but(engine.bore);
  if (!engine.bore) return map;
  map.circumference = pi * *engine.bore;
  for (std::size_t i = 0; i < engine.ports.size(); ++i) {
    const Port& port = engine.ports[i];
    map.known += nothing_but(port.centre) + nothing_but(port.window_known);
    if (port.centre && port.window_known && !port.window.empty()) place(port, static_cast<int>(i), *engine.bore, map);
  }
  return map;
}

Wall least_wall(const WindowMap& map) {
  Wall best{map.circumference, 0.0, -1, 0, -1, 0};
  Few<Window::Extent, 32> whole;
  for (const PlacedWindow& placed : map.windows)
    whole.add(placed_extent(placed, placed.window->roof(), placed.window->floor()));
  for (std::size_t i = 0; i < map.windows.size(); ++i) {
    for (std::size_t j = 0; j < map.windows.size(); ++j) {
      if (i == j) continue;
      const PlacedWindow &a = map.windows[i], &b = map.windows[j];
      const double top = std::max(a.window->roof(), b.window->roof()),
                   bottom = std::min(a.window->floor(), b.window->floor());
      if (!(top < bottom)) continue;
      // Windows that overlap count as such only from the nearer side, so a gap lies within half a turn of the centres.
      const double between = into_turn(b.x - a.x, map.circumference);
      if (between + whole[j].left - whole[i].right >= best.width || between > 0.75 * map.circumference) continue;
      refine({&a, &b, between}, top, bottom, best);
    }
  }
  return best;
}

Wall wall_between(const WindowMap& map, const Wall& held) {
  const PlacedWindow *a = find(map, held.entry, held.side), *b = find(map, held.other, held.other_side);
  if (a == nullptr || b == nullptr) return {};
  double between = into_turn(b->x - a->x, map.circumference);
  if (between > 0.75 * map.circumference) between -= map.circumference;
  const double top = std::max(a->window->roof(), b->window->roof()),
               bottom = std::min(a->window->floor(), b->window->floor());
  Wall best{2.0 * map.circumference, 0.0, -1, 0, -1, 0};
  if (top < bottom) {
    refine({a, b, between}, top, bottom, best);
    return best;
  }
  // One lies below the other: the corner of each that is nearest.
  const double level_a = levels_of(*a->window, top, top).top, level_b = levels_of(*b->window, bottom, bottom).top;
  const Window::Extent left = placed_extent(*a, level_a, level_a), right = placed_extent(*b, level_b, level_b);
  return {between + right.left - left.right, level_a, a->entry, a->side, b->entry, b->side};
}

Wall strip_wall(const WindowMap& map, double x, double half_width, double top, double bottom) {
  Wall best{0.5 * map.circumference - half_width, top, -1, 0, -1, 0};
  for (const PlacedWindow& placed : map.windows) {
    const double from = std::max(top, placed.window->roof()), to = std::min(bottom, placed.window->floor());
    if (!(from < to)) continue;
    const Window::Extent extent = placed_extent(placed, from, to);
    if (extent.empty()) continue;
    const double gap = strip_gap(map, placed, extent, x, half_width);
    if (gap < best.width) best = {gap, from, placed.entry, placed.side, -1, 0};
  }
  return best;
}

Wall strip_wall_to(const WindowMap& map, const Wall& held, double x, double half_width, double top, double bottom) {
  const PlacedWindow* placed = find(map, held.entry, held.side);
  if (placed == nullptr) return {};
  const Levels levels = levels_of(*placed->window, top, bottom);
  const Window::Extent extent = placed_extent(*placed, levels.top, levels.bottom);
  return {strip_gap(map, *placed, extent, x, half_width), levels.top, placed->entry, placed->side, -1, 0};
}

Wall pressed_share(const WindowMap& map, double direction, double top, double bottom) {
  const double half = map.circumference / 8.0, middle = direction / (2.0 * pi) * map.circumference;
  struct Near {
    const PlacedWindow* placed;
    double x;
  };
  Few<Near, 32> near;
  for (const PlacedWindow& placed : map.windows) {
    double x = into_turn(placed.x - middle, map.circumference);
    if (x > 0.5 * map.circumference) x -= map.circumference;
    const Window::Extent extent = placed_extent(placed, placed.window->roof(), placed.window->floor());
    if (inside(x + extent.left, x + extent.right, half) > 0.0) near.add({&placed, x});
  }
  Wall best{1.0, top, -1, 0, -1, 0};
  for (const Near& one : near) {
    for (const double y : one.placed->window->levels()) {
      if (y < top || y > bottom) continue;
      double arc = 0.0;
      for (const Near& other : near) arc += taken(*other.placed, other.x, half, y);
      const double share = std::max(0.0, 1.0 - arc / (2.0 * half));
      if (share < best.width) best = {share, y, one.placed->entry, one.placed->side, -1, 0};
    }
  }
  return best;
}

double pressed_share_at(const WindowMap& map, double direction, double y) {
  const double half = map.circumference / 8.0, middle = direction / (2.0 * pi) * map.circumference;
  double arc = 0.0;
  for (const PlacedWindow& placed : map.windows) {
    double x = into_turn(placed.x - middle, map.circumference);
    if (x > 0.5 * map.circumference) x -= map.circumference;
    arc += taken(placed, x, half, y);
  }
  return std::max(0.0, 1.0 - arc / (2.0 * half));
}

Wall widest_gap(const WindowMap& map, double top, double bottom) {
  Wall best;
  for (const PlacedWindow& placed : map.windows) {
    const double from = std::max(top, placed.window->roof()), to = std::min(bottom, placed.window->floor());
    if (!(from < to)) continue;
    const Window::Extent extent = placed_extent(placed, from, to);
    if (extent.empty()) continue;
    const double span = open_span(placed, extent);
    if (span > best.width) best = {span, from, placed.entry, placed.side, -1, 0};
  }
  return best;
}

Wall widest_gap_of(const WindowMap& map, const Wall& held, double top, double bottom) {
  const PlacedWindow* placed = find(map, held.entry, held.side);
  if (placed == nullptr) return {};
  const Levels levels = levels_of(*placed->window, top, bottom);
  const Window::Extent extent = placed_extent(*placed, levels.top, levels.bottom);
  return {open_span(*placed, extent), levels.top, placed->entry, placed->side, -1, 0};
}

}  // namespace portwright::geometry
