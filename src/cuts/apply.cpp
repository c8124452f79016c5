// Each cut as shifts of levels and changes of sizes. Nothing here allocates; what is unknown stays so.

#include <algorithm>
#include <cmath>
#include <numbers>

#include "cuts/prepared.hpp"
#include "geometry/volumes.hpp"

namespace portwright::cuts {

using geometry::OpenedBy;
using geometry::Port;

Known ring_area(const Known& d, const Known& w) { return Known(std::numbers::pi) * w * (d - w); }

Known dome_volume(const Known& bore, const Known& from, const Known& to) {
  return base::apply(bore, from, to, [](double d, double h0, double h1) {
    return geometry::cap_volume(0.5 * d, h0) - geometry::cap_volume(0.5 * d, h1);
  });
}

namespace {

bool opened_by_crown(const Port& port) { return geometry::opened_by(port.kind) == OpenedBy::crown; }

Known chord_of(const geometry::Window& traced, const Known& bore) {
  const geometry::Window::Extent extent = traced.extent();
  return base::apply(bore, [&](double d) { return d * std::sin((extent.right - extent.left) / d); });
}

/// One cut on one engine. Built windows whose sizes changed are marked and made anew once, at the end of the list.
class Cutter {
 public:
  explicit Cutter(Engine& engine) : engine_(engine) {}

  void cut(const Step& step);
  void finish() {
    for (std::size_t i = 0; i < engine_.ports.size(); ++i) {
      if (worked_[i] && !engine_.ports[i].traced) geometry::rebuild_window(engine_.ports[i], engine_.bore);
    }
  }

 private:
  // the cylinder against the crank
  void drop_cylinder(const Known& x);
  void set_gasket(const Known& thickness);
  // the crown and the head
  void grow_squish(const Known& x) {
    engine_.squish += x;
    engine_.squish_least += x;
  }
  void lower_crown_levels(const Known& x);
  void turn_crown_edge(const Known& x, const Known& width);
  void turn_band(const Known& x);
  void turn_dome(const Known& x);
  void change_skirt(Side side, const Known& x);
  void move_skirt_timing(geometry::PortKind kind, const Known& shorter_by);
  // windows
  void raise_roof(const Step& step, double x);
  void raise_floor(const Step& step, double x);
  void widen(const Step& step);
  void widen_to_one_side(Port& port, double x, Side side) const;
  void set_corner(const Step& step);
  void set_outline(const Step& step);
  [[nodiscard]] geometry::Window outline(const Step& step, std::size_t k);
  void settle(const Step& step, std::size_t k);
  void sleeve(const Known& bore);
  // parts
  void swap(const Step& step);
  void swap_piston(const geometry::Piston& fresh);
  void swap_cylinder(const Engine& other);
  void swap_muffler(const Engine& other);
  void set_outlets(const Step& step);

  Port& port(const Step& step, std::size_t k) { return engine_.ports[static_cast<std::size_t>(step.entries[k])]; }

  Engine& engine_;
  std::array<bool, Few<Port, 16>::capacity> worked_{};
};

void Cutter::drop_cylinder(const Known& x) {
  for (Port& p : engine_.ports) geometry::shift(p, x);
  grow_squish(-x);
  engine_.chamber -= engine_.bore_area() * x;
  engine_.spigot_clearance -= x;
}

void Cutter::set_gasket(const Known& thickness) {
  const Known x = engine_.base_gasket - thickness;
  drop_cylinder(x);
  engine_.crown_at_tdc += x;
  engine_.base_gasket = thickness;
}

/// The crown edge sinks on its piston. A window that the skirt opens is passed at the same drop as before: its level
/// and the skirt's length, both counted from the crown edge, shrink alike.
void Cutter::lower_crown_levels(const Known& x) {
  for (Port& p : engine_.ports) {
    const Known passed = p.passed;
    const bool holds = p.read_holds;
    geometry::shift(p, -x);
    if (opened_by_crown(p)) continue;
    p.passed = passed;
    p.read_holds = holds;
  }
  engine_.crown_at_tdc -= x;
  grow_squish(x);
}

void Cutter::turn_crown_edge(const Known& x, const Known& width) {
  lower_crown_levels(x);
  geometry::Piston& piston = engine_.piston;
  for (Known* length :
       {&piston.skirt_exhaust, &piston.skirt_intake, &piston.skirt_side, &piston.pocket_roof, &piston.pin_below_crown})
    *length -= x;
  for (geometry::Ring& ring : piston.rings) ring.below_crown -= x;
  for (geometry::PistonWindow& window : piston.windows) {
    window.roof -= x;
    window.floor -= x;
  }
  piston.dome += x;
  engine_.chamber += ring_area(engine_.bore, width) * x;
}

void Cutter::turn_band(const Known& x) {
  grow_squish(x);
  engine_.chamber += ring_area(engine_.bore, engine_.squish_band) * x;
}

void Cutter::turn_dome(const Known& x) {
  const Known lower = engine_.piston.dome - x;
  engine_.chamber += dome_volume(engine_.bore, engine_.piston.dome, lower);
  engine_.piston.dome = lower;
}

/// A shorter skirt passes the floors it opens at a greater drop.
void Cutter::move_skirt_timing(geometry::PortKind kind, const Known& shorter_by) {
  for (Port& p : engine_.ports) {
    if (p.kind == kind) geometry::shift_timing(p, shorter_by);
  }
}

void Cutter::change_skirt(Side side, const Known& x) {
  if (side == Side::exhaust) engine_.piston.skirt_exhaust += x;
  if (side == Side::side) engine_.piston.skirt_side += x;
  if (side != Side::intake) return;
  engine_.piston.skirt_intake += x;
  move_skirt_timing(geometry::PortKind::intake, -x);
}

/// The outline of entry k after this cut, stretched by as much as the window was that is cut.
geometry::Window Cutter::outline(const Step& step, std::size_t k) {
  const geometry::Window& now = port(step, k).window;
  return now.empty() ? step.traced[k] : step.traced[k].stretched_like(now);
}

/// After an edge or the outline of entry k changed: a traced window is set down at its roof, a built one made anew
/// later.
void Cutter::settle(const Step& step, std::size_t k) {
  Port& p = port(step, k);
  worked_[static_cast<std::size_t>(step.entries[k])] = true;
  if (!p.traced || step.traced[k].empty()) return;
  p.window_known = p.roof * Known(0.0);
  p.window = p.roof ? outline(step, k).moved_down(*p.roof) : geometry::Window();
}

void Cutter::raise_roof(const Step& step, double x) {
  for (std::size_t k = 0; k < step.entries.size(); ++k) {
    Port& p = port(step, k);
    p.roof -= x;
    if (opened_by_crown(p)) geometry::shift_timing(p, -x);
    settle(step, k);
  }
}

void Cutter::raise_floor(const Step& step, double x) {
  for (std::size_t k = 0; k < step.entries.size(); ++k) {
    Port& p = port(step, k);
    p.floor -= x;
    if (!opened_by_crown(p)) geometry::shift_timing(p, -x);
    settle(step, k);
  }
}

/// The other side's edge stays where it is, so the centre line moves by the change of the half angle; the bridge stays
/// too.
void Cutter::widen_to_one_side(Port& p, double x, Side side) const {
  const auto half_angle = [](double width, double bore) { return std::asin(std::clamp(width / bore, -1.0, 1.0)); };
  const Known turn = base::apply(p.width, engine_.bore, [&](double width, double bore) {
    const double grown = half_angle(width + x, bore) - half_angle(width, bore);
    return side == Side::right ? grown : -grown;
  });
  p.centre += turn;
  if (!(p.bridge && *p.bridge == 0.0)) p.bridge_at -= turn * Known(0.5) * engine_.bore;
  p.width += x;
}

void Cutter::widen(const Step& step) {
  for (std::size_t k = 0; k < step.entries.size(); ++k) {
    Port& p = port(step, k);
    if (p.traced)
      p.width = chord_of(outline(step, k), engine_.bore);
    else if (step.side == Side::none)
      p.width += 2.0 * step.amount;
    else
      widen_to_one_side(p, step.amount, step.side);
    settle(step, k);
  }
}

void Cutter::set_corner(const Step& step) {
  for (std::size_t k = 0; k < step.entries.size(); ++k) {
    Port& p = port(step, k);
    (step.side == Side::roof ? p.corner_roof : p.corner_floor) = step.amount;
    settle(step, k);
  }
}

/// The roof stays where it is; floor and width are the outline's.
void Cutter::set_outline(const Step& step) {
  for (std::size_t k = 0; k < step.entries.size(); ++k) {
    Port& p = port(step, k);
    const geometry::Window& traced = step.traced[k];
    const Known floor = p.roof + (traced.floor() - traced.roof());
    p.window = geometry::Window();
    if (!opened_by_crown(p)) geometry::shift_timing(p, floor - p.floor);
    p.floor = floor;
    p.width = chord_of(traced, engine_.bore);
    p.traced = true;
    settle(step, k);
  }
}

/// Crown, gap and windows keep their places and chords; of the chamber the ring between the two bores is closed or
/// opened.
void Cutter::sleeve(const Known& bore) {
  const Known narrower = (engine_.bore - bore) * Known(0.5);
  engine_.chamber -= ring_area(engine_.bore, narrower) * engine_.squish;
  engine_.squish_band -= narrower;
  engine_.bore = bore;
  worked_.fill(true);
}

void Cutter::swap_piston(const geometry::Piston& fresh) {
  const geometry::Piston& old = engine_.piston;
  const Known lower = old.pin_below_crown - fresh.pin_below_crown;
  const Known intake_later = old.skirt_intake - fresh.skirt_intake - lower;
  const Known air_later = old.pocket_roof - fresh.pocket_roof - lower;
  engine_.chamber += engine_.bore_area() * lower + dome_volume(engine_.bore, old.dome, fresh.dome);
  lower_crown_levels(lower);
  move_skirt_timing(geometry::PortKind::intake, intake_later);
  move_skirt_timing(geometry::PortKind::air, air_later);
  engine_.piston = fresh;
}

/// The other cylinder is set on this crank and piston: its windows, gap and chamber count from this crown's place.
void Cutter::swap_cylinder(const Engine& other) {
  const Known x = engine_.crown_at_tdc - other.crown_at_tdc;
  engine_.bore = other.bore;
  engine_.squish_band = other.squish_band;
  engine_.squish_tilt = other.squish_tilt;
  engine_.squish = other.squish - x;
  engine_.squish_least = other.squish_least - x;
  engine_.chamber =
      other.chamber - other.bore_area() * x + dome_volume(other.bore, other.piston.dome, engine_.piston.dome);
  engine_.spigot_clearance = other.spigot_clearance;
  engine_.ports = other.ports;
  for (Port& p : engine_.ports) {
    geometry::shift(p, x);
    p.read_holds = false;
    if (!opened_by_crown(p)) p.passed = p.floor - geometry::skirt_at(engine_, p.kind);
  }
}

/// Boxes, baffles, outlets, screen and the pipe behind them come as one.
void Cutter::swap_muffler(const Engine& other) {
  geometry::Breathing& here = engine_.breathing;
  const geometry::Breathing& there = other.breathing;
  engine_.muffler_outlets = other.muffler_outlets;
  here.outlets = there.outlets;
  here.outlets_known = there.outlets_known;
  here.boxes = there.boxes;
  here.boxes_known = there.boxes_known;
  here.baffles = there.baffles;
  here.screen = there.screen;
  here.screen_known = there.screen_known;
  here.pipe = there.pipe;
}

void Cutter::set_outlets(const Step& step) {
  engine_.muffler_outlets = step.amount;
  auto& outlets = engine_.breathing.outlets;
  outlets.clear();
  for (const double area : step.amounts)
    if (outlets.size() < outlets.capacity)
      outlets.add(area);
    else
      outlets[outlets.size() - 1] += area;
  engine_.breathing.outlets_known = 0.0;
}

void Cutter::swap(const Step& step) {
  const Engine& other = *step.swapped;
  if (step.part == Part::piston) swap_piston(other.piston);
  if (step.part == Part::cylinder) swap_cylinder(other);
  if (step.part == Part::reed) engine_.breathing.reed = other.breathing.reed;
  if (step.part == Part::carburettor) {
    engine_.venturi = other.venturi;
    engine_.breathing.throttle = other.breathing.throttle;
  }
  if (step.part == Part::muffler) swap_muffler(other);
}

void Cutter::cut(const Step& step) {
  const double x = step.amount;
  switch (step.act) {
    case Act::gasket_out:
      return set_gasket(0.0);
    case Act::gasket_to:
      return set_gasket(x);
    case Act::base:
      return drop_cylinder(-x);
    case Act::band:
      return turn_band(-x);
    case Act::crown_edge:
      return turn_crown_edge(-x, step.width);
    case Act::dome:
      return turn_dome(-x);
    case Act::roof:
      return raise_roof(step, x);
    case Act::floor:
      return raise_floor(step, x);
    case Act::weld:
      return step.side == Side::roof ? raise_roof(step, -x) : raise_floor(step, x);
    case Act::widen:
      return widen(step);
    case Act::corner:
      return set_corner(step);
    case Act::outline:
      return set_outline(step);
    case Act::skirt:
      return change_skirt(step.side, x);
    case Act::mouth:
      for (std::size_t k = 0; k < step.entries.size(); ++k) port(step, k).passage.mouth = x;
      return;
    case Act::case_volume:
      engine_.case_at_tdc += x;
      return;
    case Act::stuff:
      engine_.case_at_tdc -= x;
      return;
    case Act::swap:
      return swap(step);
    case Act::venturi:
      engine_.venturi = x;
      return;
    case Act::outlets:
      return set_outlets(step);
    case Act::advance:
      engine_.advance += x;
      engine_.advance_added += x;
      return;
    case Act::octane:
      engine_.octane = x;
      engine_.breathing.octane_scale = step.scale;
      return;
    case Act::sleeve:
      return sleeve(x);
    case Act::petal:
      engine_.breathing.reed.thickness = x;
      return;
  }
}

}  // namespace

void apply(const Prepared& cuts, Engine& engine) { apply(cuts, engine, cuts.steps.size()); }

void apply(const Prepared& cuts, Engine& engine, std::size_t count) {
  Cutter cutter(engine);
  for (std::size_t i = 0; i < std::min(count, cuts.steps.size()); ++i) cutter.cut(cuts.steps[i]);
  cutter.finish();
}

}  // namespace portwright::cuts
