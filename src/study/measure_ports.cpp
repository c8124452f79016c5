#include "study/measure_ports.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/passage.hpp"
#include "geometry/rings.hpp"

namespace portwright::study {

using base::apply;
using geometry::Engine;
using geometry::OpenedBy;
using geometry::Port;
using geometry::PortKind;

namespace {

Known nothing_but(const Known& known) { return known * Known(0.0); }

Known window_area(const Port& port, const Wants& wants) {
  if (!port.window_known) return port.window_known;
  return port.window.empty() ? Known::waits_for(wants.shape) : Known(port.window.area());
}

/// What the piston's turn over the window waits for: slider, window, and the skirt where it is the skirt that opens it.
Known turning(const Engine& engine, const Port& port, const Known& area) {
  const bool by_skirt = geometry::opened_by(port.kind) == OpenedBy::skirt;
  return nothing_but(engine.slider_known) + nothing_but(area) +
         (by_skirt ? nothing_but(geometry::skirt_at(engine, port.kind)) : Known(0.0));
}

double skirt_of(const Engine& engine, const Port& port) {
  return geometry::opened_by(port.kind) == OpenedBy::skirt ? *geometry::skirt_at(engine, port.kind) : 0.0;
}

Known degrees_per_length(const Engine& engine, const Port& port, const Known& opens, const Wants& wants) {
  const Known ready = nothing_but(engine.slider_known) + nothing_but(opens);
  if (!ready) return ready;
  const double angle = geometry::opened_by(port.kind) == OpenedBy::crown ? *opens : -*opens;
  const double speed = std::abs(engine.slider->velocity(angle));
  return speed > 1e-6 * *engine.stroke ? Known(1.0 / speed) : Known::waits_for(wants.opening);
}

Known side_chord(const Engine& engine, const Port& port) {
  return apply(port.width, port.bridge + nothing_but(port.bridge_at), engine.bore,
               [&](double width, double bridge, double bore) {
                 if (bridge <= 0.0) return width / bore;
                 const double half = 0.5 * geometry::arc_of_chord(width, bore),
                              half_bridge = 0.5 * geometry::arc_of_chord(bridge, bore);
                 const double arc = half - half_bridge + std::abs(*port.bridge_at);
                 return geometry::chord_of_arc(arc, bore) / bore;
               });
}

/// Share of the lower opening that the skirt hides at BDC, the opening taken as a rectangle.
Known lower_masked(const Engine& engine, const Port& port) {
  return apply(port.passage.lower_roof, port.passage.lower_floor, engine.piston.skirt_side + engine.stroke,
               [](double roof, double floor, double edge) {
                 return floor > roof ? std::clamp((edge - roof) / (floor - roof), 0.0, 1.0) : 0.0;
               });
}

void passage(const Port& port, const Known& area, PortMeasures& out) {
  const geometry::Passage& p = port.passage;
  const Known least = apply(p.mouth, p.gasket, p.foot, [](double a, double b, double c) {
    return std::min({a, b, c});
  });
  out.mouth_to_window = least / area;
  out.loss = apply(least, area, p.bend, [&](double smallest, double window, double bend) {
    return smallest > 0.0 ? geometry::passage_loss({*p.mouth, *p.gasket, *p.foot, window}, bend) : 0.0;
  });
}

void port_figures(const Engine& engine, const Port& port, double speed, const Wants& wants, PortMeasures& out) {
  const geometry::Timing timing = geometry::timing(engine, port);
  out.opens = timing.opens;
  out.closes = timing.closes;
  out.duration = timing.duration;
  out.drop = port.passed;
  out.width_of_bore = port.width / engine.bore;
  out.side_chord_of_bore = side_chord(engine, port);
  out.bridge_width = port.bridge;
  out.deg_per_mm = degrees_per_length(engine, port, timing.opens, wants);
  out.area = window_area(port, wants);
  const bool exhaust = port.kind == PortKind::exhaust;
  out.normal_area = apply(out.area, exhaust ? port.duct_tilt : port.passage.tilt,
                          [](double area, double tilt) { return area * std::cos(tilt); });
  out.lower_masked_at_bdc = lower_masked(engine, port);
  passage(port, out.area, out);
  const bool by_crown = geometry::opened_by(port.kind) == OpenedBy::crown;
  const Known skirt = by_crown ? Known(0.0) : geometry::skirt_at(engine, port.kind);
  out.area_at_bdc = apply(engine.stroke + skirt, out.area, [&](double level, double) {
    return by_crown ? port.window.area_above(level) : port.window.area_below(level);
  });
  out.masked_at_bdc =
      apply(engine.stroke, out.area, [&](double level, double area) { return port.window.area_below(level) / area; });
  out.time_area = apply(turning(engine, port, out.area), [&](double) {
    return geometry::angle_area(*engine.slider, port.window, geometry::opened_by(port.kind), skirt_of(engine, port)) /
           geometry::radians_per_second(speed);
  });
  out.specific_time_area = out.time_area / engine.swept();
}

void group_figures(const Engine& engine, const Wants& wants, Measures& out) {
  out.groups = {};
  for (std::size_t i = 0; i < engine.ports.size(); ++i) {
    const Port& port = engine.ports[i];
    const PortMeasures& one = out.ports[i];
    GroupMeasures& group = out.groups[static_cast<std::size_t>(port.kind)];
    const bool by_crown = geometry::opened_by(port.kind) == OpenedBy::crown;
    const auto first = [&](double a, double b) { return by_crown ? std::min(a, b) : std::max(a, b); };
    group.first_opens = group.windows == 0 ? one.opens : apply(group.first_opens, one.opens, first);
    group.area += one.area * port.count;
    group.time_area += one.time_area * port.count;
    group.windows += port.count;
  }
  for (std::size_t kind = 0; kind < out.groups.size(); ++kind) {
    GroupMeasures& group = out.groups[kind];
    if (group.windows == 0) {
      const auto k = static_cast<PortKind>(kind);
      const Known none = Known::waits_for(k == PortKind::exhaust  ? wants.exhaust
                                          : k == PortKind::intake ? wants.intake
                                                                  : wants.transfer);
      group.area = group.time_area = group.first_opens = none;
    }
    group.specific_time_area = group.time_area / engine.swept();
  }
}

/// From the first exhaust window's opening to the first that joins cylinder and case [s/m].
Known blowdown_area(const Engine& engine, double speed, const Known& until, const Known& ready) {
  double area = 0.0;
  if (!ready || !until) return nothing_but(ready) + nothing_but(until);
  for (const Port& port : engine.ports)
    if (port.kind == PortKind::exhaust)
      area += port.count * geometry::angle_area(*engine.slider, port.window, OpenedBy::crown, 0.0, 0.0, *until);
  return area / geometry::radians_per_second(speed) / engine.swept();
}

void between_groups(const Engine& engine, double speed, const Wants& wants, Measures& out) {
  Known first = Known::waits_for(wants.transfer), last = first;
  bool any = false;
  for (std::size_t i = 0; i < engine.ports.size(); ++i) {
    const PortKind kind = engine.ports[i].kind;
    if (kind != PortKind::transfer && kind != PortKind::boost) continue;
    const Known& opens = out.ports[i].opens;
    first = any ? apply(first, opens, [](double a, double b) { return std::min(a, b); }) : opens;
    last = any ? apply(last, opens, [](double a, double b) { return std::max(a, b); }) : opens;
    any = true;
  }
  const GroupMeasures& exhaust = out.groups[static_cast<std::size_t>(PortKind::exhaust)];
  out.blowdown = first - exhaust.first_opens;
  out.stagger = last - first;
  out.blowdown_specific_time_area = blowdown_area(engine, speed, first, exhaust.time_area);
}

}  // namespace

void measure_ports(const Engine& engine, double speed, const Wants& wants, Measures& out) {
  out.ports.clear();
  for (const Port& port : engine.ports) port_figures(engine, port, speed, wants, out.ports.add({}));
  group_figures(engine, wants, out);
  between_groups(engine, speed, wants, out);
}

void measure_rings(const Engine& engine, const geometry::WindowMap& map, const Wants& wants, Measures& out) {
  out.rings.clear();
  Known intake_roof = Known::waits_for(wants.intake);
  bool any = false;
  for (const Port& port : engine.ports) {
    if (port.kind != PortKind::intake) continue;
    intake_roof = any ? apply(intake_roof, port.roof, [](double a, double b) { return std::min(a, b); }) : port.roof;
    any = true;
  }
  const Known mapped = engine.ports.empty() ? Known::waits_for(wants.exhaust) + map.known : map.known;
  for (const geometry::Ring& ring : engine.piston.rings) {
    RingMeasures& one = out.rings.add({});
    const Known bottom = ring.below_crown + ring.height + engine.stroke;
    one.lowest_over_intake = intake_roof - bottom;
    const Known ready = nothing_but(mapped) + nothing_but(bottom);
    one.peg_wall = apply(ready, ring.peg, ring.end_gap, [&](double, double peg, double gap) {
      one.peg_at = geometry::strip_wall(map, 0.5 * peg * *engine.bore, 0.5 * gap, *ring.below_crown, *bottom);
      return one.peg_at.width;
    });
    const Known tension =
        apply(ring.radial, ring.free_gap - ring.end_gap, engine.ring_modulus + nothing_but(engine.bore),
              [&](double radial, double closing, double modulus) {
                return geometry::ring_tension({*engine.bore, radial, closing, modulus});
              });
    one.bow = apply(ready, tension + engine.ring_gas, [&](double, double pressure) {
      const double span = geometry::widest_gap(map, *ring.below_crown, *bottom).width;
      return geometry::ring_bow(span, pressure, *engine.ring_modulus, *ring.radial);
    });
  }
}

}  // namespace portwright::study
