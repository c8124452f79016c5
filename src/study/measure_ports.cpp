#include "study/measure_ports.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <numbers>

#include "geometry/passage.hpp"
#include "geometry/rings.hpp"
#include "study/rivals.hpp"

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

/// Chord of the half that is the wider as read; `wider` says which, and is chosen when it is 0.
Known side_chord(const Engine& engine, const Port& port, double& wider) {
  if (wider == 0.0 && port.bridge_at) wider = *port.bridge_at < 0.0 ? -1.0 : 1.0;
  return apply(port.width, port.bridge + nothing_but(port.bridge_at), engine.bore,
               [&](double width, double bridge, double bore) {
                 if (bridge <= 0.0) return width / bore;
                 const double half = 0.5 * geometry::arc_of_chord(width, bore),
                              half_bridge = 0.5 * geometry::arc_of_chord(bridge, bore);
                 const double arc = half - half_bridge + wider * *port.bridge_at;
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
  out.ways = {p.mouth, p.gasket, p.foot};
  const Known least = apply(p.mouth, p.gasket, p.foot, [&](double mouth, double gasket, double foot) {
    const std::array ways{mouth, gasket, foot};
    if (out.narrowest < 0) out.narrowest = static_cast<int>(std::min_element(ways.begin(), ways.end()) - ways.begin());
    return ways[static_cast<std::size_t>(out.narrowest)];
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
  out.roof = port.roof;
  out.floor = port.floor;
  out.width_of_bore = port.width / engine.bore;
  out.side_chord_of_bore = side_chord(engine, port, out.wider_half);
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

void group_figures(const Engine& engine, const Wants& wants, const Measures* as_read, Measures& out) {
  out.groups = {};
  for (std::size_t i = 0; i < engine.ports.size(); ++i) {
    const Port& port = engine.ports[i];
    const PortMeasures& one = out.ports[i];
    GroupMeasures& group = out.groups[static_cast<std::size_t>(port.kind)];
    group.area += one.area * port.count;
    group.time_area += one.time_area * port.count;
    group.windows += port.count;
  }
  for (std::size_t kind = 0; kind < out.groups.size(); ++kind) {
    GroupMeasures& group = out.groups[kind];
    const auto k = static_cast<PortKind>(kind);
    const base::Needs none = k == PortKind::exhaust  ? wants.exhaust
                             : k == PortKind::intake ? wants.intake
                                                     : wants.transfer;
    if (group.windows == 0) group.area = group.time_area = Known::waits_for(none);
    group.first = as_read ? as_read->groups[kind].first : -1;
    const bool by_crown = geometry::opened_by(k) == OpenedBy::crown;
    group.first_opens = extreme(
        engine, none, [&](PortKind one) { return one == k; }, [&](std::size_t i) { return out.ports[i].opens; },
        [&](double a, double b) { return by_crown ? a < b : a > b; }, group.first);
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
  const auto joins = [](PortKind kind) { return kind == PortKind::transfer || kind == PortKind::boost; };
  const auto opens = [&](std::size_t i) { return out.ports[i].opens; };
  const Known first = extreme(engine, wants.transfer, joins, opens, std::less<>(), out.chosen.transfer_first),
              last = extreme(engine, wants.transfer, joins, opens, std::greater<>(), out.chosen.transfer_last);
  const GroupMeasures& exhaust = out.groups[static_cast<std::size_t>(PortKind::exhaust)];
  out.blowdown = first - exhaust.first_opens;
  out.stagger = last - first;
  out.blowdown_specific_time_area = blowdown_area(engine, speed, first, exhaust.time_area);
}

}  // namespace

void measure_ports(const Engine& engine, double speed, const Wants& wants, const Measures* as_read, Measures& out) {
  out.ports.clear();
  for (std::size_t i = 0; i < engine.ports.size(); ++i) {
    PortMeasures& one = out.ports.add({});
    if (as_read) {
      one.narrowest = as_read->ports[i].narrowest;
      one.wider_half = as_read->ports[i].wider_half;
    }
    port_figures(engine, engine.ports[i], speed, wants, one);
  }
  group_figures(engine, wants, as_read, out);
  between_groups(engine, speed, wants, out);
}

void measure_rings(const Engine& engine, const geometry::WindowMap& map, const Wants& wants, const Measures* as_read,
                   Measures& out) {
  out.rings.clear();
  const Known intake_roof = extreme(
      engine, wants.intake, [](PortKind kind) { return kind == PortKind::intake; },
      [&](std::size_t i) { return engine.ports[i].roof; }, std::less<>(), out.chosen.intake_roof);
  const Known mapped = engine.ports.empty() ? Known::waits_for(wants.exhaust) + map.known : map.known;
  for (const geometry::Ring& ring : engine.piston.rings) {
    const RingMeasures none;
    const RingMeasures& held = as_read ? as_read->rings[out.rings.size()] : none;
    RingMeasures& one = out.rings.add({});
    const Known bottom = ring.below_crown + ring.height + engine.stroke;
    one.lowest_over_intake = intake_roof - bottom;
    const Known ready = nothing_but(mapped) + nothing_but(bottom);
    one.peg_wall = nothing_but(ready) + nothing_but(ring.peg) + nothing_but(ring.end_gap);
    if (one.peg_wall) {
      const double x = 0.5 * *ring.peg * *engine.bore, half = 0.5 * *ring.end_gap;
      one.peg_at = held.peg_at.entry < 0
                       ? geometry::strip_wall(map, x, half, *ring.below_crown, *bottom)
                       : geometry::strip_wall_to(map, held.peg_at, x, half, *ring.below_crown, *bottom);
      one.peg_wall = met(one.peg_at, held.peg_at, wants);
      beside_strip(map, {x, half, *ring.below_crown, *bottom}, one.peg_at, as_read ? &held.peg_rivals : nullptr,
                   one.peg_rivals);
    }
    const Known tension =
        apply(ring.radial, ring.free_gap - ring.end_gap, engine.ring_modulus + nothing_but(engine.bore),
              [&](double radial, double closing, double modulus) {
                return geometry::ring_tension({*engine.bore, radial, closing, modulus});
              });
    one.bow = apply(ready, tension + engine.ring_gas, [&](double, double pressure) {
      one.widest_at = held.widest_at.entry < 0
                          ? geometry::widest_gap(map, *ring.below_crown, *bottom)
                          : geometry::widest_gap_of(map, held.widest_at, *ring.below_crown, *bottom);
      under_ring(map, *ring.below_crown, *bottom, one.widest_at, as_read ? &held.bow_rivals : nullptr, one.bow_rivals);
      return geometry::ring_bow(one.widest_at.width, pressure, *engine.ring_modulus, *ring.radial);
    });
  }
}

}  // namespace portwright::study
