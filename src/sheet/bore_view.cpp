#include "sheet/bore_view.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace portwright::sheet {
namespace {

using std::numbers::pi;

double into_turn(double angle) {
  const double rest = std::fmod(angle, 2 * pi);
  return rest < 0 ? rest + 2 * pi : rest;
}

/// Parts of a bent piece no longer than this turn to close to arcs even where the page is narrowed.
constexpr double part_turn = pi / 16;

void add_piece(draw::Path& path, const geometry::Piece& piece, double sign, double x, const BoreView& view) {
  const auto put = [&](double px, double py, double bulge) {
    path.points.push_back({{x + sign * view.along(px), view.y(py)}, sign * bulge});
  };
  if (piece.radius <= 0) return put(piece.from.x, piece.from.y, 0.0);
  const double a0 = std::atan2(piece.from.y - piece.centre.y, piece.from.x - piece.centre.x);
  const double a1 = std::atan2(piece.to.y - piece.centre.y, piece.to.x - piece.centre.x);
  const double sweep = piece.clockwise ? into_turn(a1 - a0) : -into_turn(a0 - a1);
  const int parts = std::max(1, static_cast<int>(std::ceil(std::abs(sweep) / part_turn)));
  for (int k = 0; k < parts; ++k) {
    const double a = a0 + sweep * k / parts;
    put(piece.centre.x + piece.radius * std::cos(a), piece.centre.y + piece.radius * std::sin(a),
        std::tan(sweep / parts / 4));
  }
}

draw::Area area_of(const geometry::PlacedWindow& placed, double x, const BoreView& view) {
  draw::Area area;
  for (const auto& chain : placed.window->chains()) {
    draw::Path path;
    path.closed = true;
    for (const geometry::Piece& piece : chain) add_piece(path, piece, placed.mirrored ? -1.0 : 1.0, x, view);
    area.push_back(std::move(path));
  }
  return area;
}

/// Arcs round the bore that windows take, from and to [rad], 0..2π at the start.
std::vector<std::pair<double, double>> taken_arcs(const geometry::Engine& engine) {
  std::vector<std::pair<double, double>> arcs;
  const geometry::WindowMap map = geometry::map_windows(engine);
  for (const geometry::PlacedWindow& placed : map.windows) {
    const auto extent = placed.window->extent();
    const double half = 0.5 * *engine.bore, sign = placed.mirrored ? -1.0 : 1.0;
    const double a = (placed.x + sign * extent.left) / half, b = (placed.x + sign * extent.right) / half;
    const double from = into_turn(std::min(a, b));
    arcs.emplace_back(from, from + std::abs(b - a));
  }
  return arcs;
}

bool is_clear(double angle, const std::vector<std::pair<double, double>>& arcs) {
  constexpr double margin = 1.5 * pi / 180;
  return std::none_of(arcs.begin(), arcs.end(), [&](const auto& arc) {
    return into_turn(angle - arc.first + margin) <= arc.second - arc.first + 2 * margin;
  });
}

}  // namespace

double BoreView::x(double angle) const { return left + width * (1 - into_turn(seam - angle) / (2 * pi)); }

double BoreView::along(double wall) const { return width * wall / (pi * bore); }

std::vector<Placed> placed_windows(const geometry::Engine& engine, const BoreView& view) {
  std::vector<Placed> out;
  const geometry::WindowMap map = geometry::map_windows(engine);
  for (const geometry::PlacedWindow& window : map.windows) {
    Placed placed;
    placed.entry = window.entry;
    placed.side = window.side;
    placed.port = &engine.ports[static_cast<std::size_t>(window.entry)];
    const double turn = 2 * pi * window.x / map.circumference;
    placed.angle = turn > pi + 1e-12 ? turn - 2 * pi : turn;
    placed.x = view.x(placed.angle);
    placed.area = area_of(window, placed.x, view);
    placed.box = draw::bounds(placed.area);
    out.push_back(std::move(placed));
  }
  std::sort(out.begin(), out.end(), [](const Placed& a, const Placed& b) { return a.x < b.x; });
  return out;
}

double seam_of(const geometry::Engine& engine, const geometry::Engine* other) {
  constexpr double usual = 1.25 * pi, step = pi / 360;
  auto arcs = taken_arcs(engine);
  if (other != nullptr && other->bore) {
    const auto more = taken_arcs(*other);
    arcs.insert(arcs.end(), more.begin(), more.end());
  }
  for (int k = 0; k <= 360; ++k) {
    for (const double angle : {usual + k * step, usual - k * step}) {
      if (is_clear(angle, arcs)) return angle;
    }
  }
  return usual;
}

WindowLook look_of(const geometry::Engine& engine, int entry) {
  using geometry::PortKind;
  const auto lead = [&](int i) {
    const int twin = engine.ports[static_cast<std::size_t>(i)].twin_of;
    return twin >= 0 ? twin : i;
  };
  const geometry::Port& port = engine.ports[static_cast<std::size_t>(lead(entry))];
  switch (port.kind) {
    case PortKind::exhaust:
      return {draw::Hatch::upright, draw::Role::exhaust};
    case PortKind::boost:
      return {draw::Hatch::rings, draw::Role::transfers};
    case PortKind::intake:
      return {draw::Hatch::level, draw::Role::intake};
    case PortKind::air:
      return {draw::Hatch::waves, draw::Role::intake};
    case PortKind::transfer:
      break;
  }
  int rank = 0;
  for (const geometry::Port& p : engine.ports) {
    const bool nearer = std::abs(p.centre.value_or(0.0)) < std::abs(port.centre.value_or(0.0));
    if (p.kind == PortKind::transfer && p.twin_of < 0 && nearer) ++rank;
  }
  constexpr draw::Hatch by_rank[] = {draw::Hatch::dots, draw::Hatch::crosses, draw::Hatch::squares};
  return {by_rank[std::min(rank, 2)], draw::Role::transfers};
}

bool Taken::is_free(const draw::Box& box) const {
  return std::none_of(boxes_.begin(), boxes_.end(), [&](const draw::Box& b) {
    return box.left < b.right && b.left < box.right && box.top < b.bottom && b.top < box.bottom;
  });
}

draw::Box Taken::take_first_free(const std::vector<draw::Box>& wanted) {
  const auto it = std::find_if(wanted.begin(), wanted.end(), [&](const draw::Box& b) { return is_free(b); });
  const draw::Box box = it != wanted.end() ? *it : wanted.front();
  add(box);
  return box;
}

}  // namespace portwright::sheet
