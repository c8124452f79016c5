// Windows and piston in the unrolled frame.
#include <cmath>
#include <numbers>

#include "desk/page/bore_frame.hpp"
#include "desk/shown.hpp"
#include "geometry/skirt_profile.hpp"
#include "study/figures.hpp"

namespace portwright::desk {
namespace {

using base::Known;
using geometry::Engine;
using geometry::OpenedBy;
using geometry::PortKind;
using std::numbers::pi;

constexpr double mm_per_m = 1e3, deg_per_rad = 180.0 / pi;
constexpr double same_level = 5e-6;  // [m]

std::string point(double x, double y) { return path_number(x) + ' ' + path_number(y); }

/// The outline with its centre line at x [mm]; a mirrored window is turned over.
std::string outline_path(const geometry::PlacedWindow& placed, double x, const BoreFrame& frame) {
  const double sign = placed.mirrored ? -1.0 : 1.0;
  const auto at = [&](const geometry::Point& p) {
    return point(x + sign * frame.view.along(p.x), mm_per_m * (p.y + frame.down));
  };
  std::string path;
  for (const auto& chain : placed.window->chains()) {
    if (chain.empty()) continue;
    path += (path.empty() ? "M" : " M") + at(chain.front().from);
    for (const geometry::Piece& piece : chain) {
      if (piece.radius <= 0.0) {
        path += " L" + at(piece.to);
        continue;
      }
      const std::string radius = path_number(frame.view.along(piece.radius));
      path +=
          " A" + radius + ' ' + radius + " 0 0 " + (piece.clockwise != placed.mirrored ? "1 " : "0 ") + at(piece.to);
    }
    path += " Z";
  }
  return path;
}

/// Crank angle at which the piston's edge passes a level on opening [deg].
std::optional<double> passed_at(const Engine& engine, const geometry::Port& port, const Known& level, bool timed) {
  const bool by_crown = geometry::opened_by(port.kind) == OpenedBy::crown;
  if (timed) {
    const Known opens = geometry::timing(engine, port).opens;
    if (!opens) return std::nullopt;
    return by_crown ? *opens * deg_per_rad : 360.0 - *opens * deg_per_rad;
  }
  const Known drop = by_crown ? level : level - geometry::skirt_at(engine, port.kind);
  if (!drop || !engine.slider || *drop < 0.0 || *drop > engine.slider->stroke()) return std::nullopt;
  return (by_crown ? engine.slider->angle_down(*drop) : engine.slider->angle_up(*drop)) * deg_per_rad;
}

bool is_moved(const sheet::Plan& plan, std::size_t entry, double level) {
  if (entry >= plan.stock().ports.size()) return false;
  const geometry::Port& stock = plan.stock().ports[entry];
  const auto lies_at = [&](const Known& edge) {
    return edge && std::abs(*edge + plan.cylinder_shift() - level) < same_level;
  };
  return !lies_at(stock.roof) && !lies_at(stock.floor);
}

wire::BoreEdge edge_of(const BoreFrame& frame, std::size_t entry, bool roof, const sheet::Plan* plan) {
  const geometry::Port& port = frame.engine.ports[entry];
  const Known& level = roof ? port.roof : port.floor;
  wire::BoreEdge out;
  const base::Spread drop = frame.spread(entry, roof ? Of::roof : Of::floor, mm_per_m);
  const double down = mm_per_m * frame.down;
  out.at_mm = drop.value + down;
  if (drop.low) out.low = *drop.low + down;
  if (drop.high) out.high = *drop.high + down;
  out.text = base::value_text(drop, "mm", frame.style);
  if (frame.engine.crown_at_tdc) out.height = frame.length(entry, roof ? Of::roof_height : Of::floor_height);
  out.timed = roof == (geometry::opened_by(port.kind) == OpenedBy::crown);
  out.at_deg = passed_at(frame.engine, port, level, out.timed);
  out.act = std::string(roof ? "roof " : "floor ") + frame.survey.ports[entry].name;
  out.moved = plan != nullptr && is_moved(*plan, entry, *level);
  return out;
}

/// Ends of the window round the bore, from its centre line [mm].
std::pair<double, double> sides_of(const geometry::PlacedWindow& placed, const BoreFrame& frame) {
  const auto extent = placed.window->extent();
  const double left = frame.view.along(extent.left), right = frame.view.along(extent.right);
  return placed.mirrored ? std::pair{-right, -left} : std::pair{left, right};
}

wire::BoreWindow window_of(const geometry::PlacedWindow& placed, const BoreFrame& frame, const sheet::Plan* plan,
                           double circumference) {
  const auto entry = static_cast<std::size_t>(placed.entry);
  const Engine& engine = frame.engine;
  const geometry::Port& port = engine.ports[entry];
  wire::BoreWindow out;
  out.port = frame.survey.ports[entry].name;
  out.side = placed.side;
  out.id = out.port + (placed.side == 1 ? ".1" : "");
  out.label = frame.name(entry);
  out.kind = study::kind_name(port.kind);
  out.rank = rank_of(engine, entry);
  out.opened_by = geometry::opened_by(port.kind) == OpenedBy::crown ? "crown" : "skirt";
  const double turn = 2 * pi * placed.x / circumference;
  out.centre_deg = (turn > pi + 1e-12 ? turn - 2 * pi : turn) * deg_per_rad;
  out.middle_mm = frame.view.x(turn);
  out.path = outline_path(placed, out.middle_mm, frame);
  const auto [left, right] = sides_of(placed, frame);
  out.x_mm = out.middle_mm + left;
  out.w_mm = right - left;
  out.y_mm = mm_per_m * (placed.window->roof() + frame.down);
  out.h_mm = mm_per_m * (placed.window->floor() - placed.window->roof());
  if (const auto open = open_turn(engine, entry)) {
    out.opens_deg = open->opens;
    out.closes_deg = open->closes;
  }
  if (port.width) out.chord = frame.length(entry, Of::width);
  out.roof = edge_of(frame, entry, true, plan);
  out.floor = edge_of(frame, entry, false, plan);
  out.free_port = port.kind == PortKind::exhaust && area_under_skirt(engine, entry, 0.0).value_or(0.0) > 0.0;
  if (plan != nullptr && entry < plan->stock().ports.size()) {
    out.changed = sheet::is_changed(plan->stock().ports[entry], port, plan->cylinder_shift());
    out.cut = out.changed ? plan->first_cut_on(entry) : 0;
  }
  return out;
}

void add_skirt(const BoreFrame& frame, wire::BorePiston& out, std::vector<wire::Waiting>& waits) {
  const geometry::Piston& p = frame.engine.piston;
  const Known all = p.skirt_exhaust + p.skirt_intake + p.skirt_side + p.skirt_exhaust_width + frame.engine.pin_axis;
  if (!all) {
    waits.push_back({"skirt", "", "The skirt's edge waits for readings.", need_paths(frame.survey, all.needs())});
    return;
  }
  const geometry::SkirtProfile profile(
      {*p.skirt_exhaust, *p.skirt_side, *p.skirt_intake, *p.skirt_exhaust_width, *frame.engine.pin_axis},
      *frame.engine.bore);
  const double half = 0.5 * *frame.engine.bore, from = (frame.view.seam - 2 * pi) * half, to = frame.view.seam * half;
  std::string edge;
  for (const geometry::Point& p_at : profile.edge(from, to)) {
    const std::string at = point(frame.view.along(p_at.x - from), mm_per_m * p_at.y);
    edge += (edge.empty() ? "M" : " L") + at;
  }
  out.height_mm = mm_per_m * profile.reach(from, to).greatest;
  out.skirt_path = edge;
  out.outline_path = "M" + point(0, 0) + edge.replace(0, 1, " L") + " L" + point(frame.view.width, 0) + " Z";
}

void add_holes(const BoreFrame& frame, wire::BorePiston& out) {
  const Engine& engine = frame.engine;
  for (const geometry::PistonWindow& w : engine.piston.windows) {
    if (!w.centre || !w.roof || !w.floor || !w.width) continue;
    const double half = frame.view.along(geometry::arc_of_chord(*w.width, *engine.bore)) / 2, top = mm_per_m * *w.roof,
                 bottom = mm_per_m * *w.floor,
                 r = std::clamp(mm_per_m * w.corner.value_or(0.0), 0.0, std::min(half, 0.5 * (bottom - top)));
    for (int k = 0; k < std::min(w.count, 2); ++k) {
      const double x = frame.view.x(k == 0 ? *w.centre : -*w.centre);
      const std::string arc = " A" + path_number(r) + ' ' + path_number(r) + " 0 0 1 ";
      out.window_paths.push_back(
          "M" + point(x - half + r, top) + " L" + point(x + half - r, top) + arc + point(x + half, top + r) + " L" +
          point(x + half, bottom - r) + arc + point(x + half - r, bottom) + " L" + point(x - half + r, bottom) + arc +
          point(x - half, bottom - r) + " L" + point(x - half, top + r) + arc + point(x - half + r, top) + " Z");
    }
  }
  const Known pin = engine.piston.pin_below_crown + engine.piston.pin_diameter + engine.pin_axis;
  if (!pin) return;
  for (const double turned : {0.0, pi})
    out.pin_ends.push_back({frame.view.x(*engine.pin_axis + turned), mm_per_m * *engine.piston.pin_below_crown,
                            mm_per_m * *engine.piston.pin_diameter});
}

}  // namespace

std::vector<wire::BoreWindow> bore_windows(const BoreFrame& frame, const sheet::Plan* plan) {
  std::vector<wire::BoreWindow> out;
  const geometry::WindowMap map = geometry::map_windows(frame.engine);
  for (const geometry::PlacedWindow& placed : map.windows)
    out.push_back(window_of(placed, frame, plan, map.circumference));
  std::sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.middle_mm < b.middle_mm; });
  return out;
}

wire::BorePiston bore_piston(const BoreFrame& frame, std::vector<wire::Waiting>& waits) {
  wire::BorePiston out;
  add_skirt(frame, out, waits);
  add_holes(frame, out);
  for (const geometry::Ring& ring : frame.engine.piston.rings) {
    if (!ring.below_crown || !ring.height) continue;
    wire::BoreRing one{mm_per_m * *ring.below_crown, mm_per_m * (*ring.below_crown + *ring.height), {}, {}};
    if (ring.peg) {
      one.pin_x_mm = frame.view.x(*ring.peg);
      one.pin_deg = *ring.peg * deg_per_rad;
    }
    out.rings.push_back(one);
  }
  if (frame.engine.thrust) out.pressed_deg = *frame.engine.thrust * deg_per_rad;
  return out;
}

}  // namespace portwright::desk
