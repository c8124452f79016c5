// First half of the door from readings to an Engine: which reading fills which place.

#include "geometry/survey.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/number_text.hpp"
#include "geometry/edge_angles.hpp"
#include "geometry/outline_floor.hpp"
#include "geometry/survey_breathing.hpp"
#include "geometry/survey_edges.hpp"
#include "geometry/surveyor.hpp"
#include "tables/box.hpp"

namespace portwright::geometry {

using base::Dimension;

namespace {

PortKind kind_of(const std::string& word) {
  if (word == "transfer") return PortKind::transfer;
  if (word == "boost") return PortKind::boost;
  if (word == "intake") return PortKind::intake;
  if (word == "air") return PortKind::air;
  return PortKind::exhaust;
}

bool any(const saw::Edges& e) {
  return e.opens.taken() || e.closes.taken() || e.duration.taken() || e.roof.taken() || e.floor.taken() ||
         e.drop.taken() || e.width.taken();
}

void crank(Surveyor& s, Survey& out, const saw::Readings& r) {
  out.bore = s.slot("crank.bore", r.crank.bore, Dimension::length);
  out.stroke = s.slot("crank.stroke", r.crank.stroke, Dimension::length);
  out.rod.input = s.input_of("crank.rod", r.crank.rod, Dimension::length);
  out.pin_offset = s.slot_or("crank.pin_offset", r.crank.pin_offset, Dimension::length, "pin_offset");
  if (out.rod.input >= 0 && out.stroke.input >= 0) {
    const tables::BoxRow* row = tables::box_ratio_of("crank.rod");
    const double ratio = out.inputs[static_cast<std::size_t>(out.rod.input)].value /
                         out.inputs[static_cast<std::size_t>(out.stroke.input)].value;
    if (row != nullptr && (ratio < row->least || ratio > row->greatest)) {
      s.error(
          base::ErrorCode::out_of_range,
          "a rod of " + typed_text(r.crank.rod) + " is " + base::number_text(ratio, 2) + " strokes of " +
              typed_text(r.crank.stroke) + "; one of the two is a wrong reading",
          "crank.rod",
          "a rod is " + row->least_text + " to " + row->greatest_text + " strokes; without it a usual ratio is taken");
      out.rod.input = -1;
    }
  }
  if (out.rod.input < 0) out.rod_ratio.input = s.assume("rod_ratio");
  if (out.rod.input < 0) out.rod.need = s.need("crank.rod");
  if (out.bore.input >= 0 && out.stroke.input >= 0) {
    const double bore = out.inputs[static_cast<std::size_t>(out.bore.input)].value;
    const double swept =
        0.25 * std::numbers::pi * bore * bore * out.inputs[static_cast<std::size_t>(out.stroke.input)].value;
    const tables::BoxRow* row = tables::box_of("crank.displacement");
    if (row != nullptr && (swept < row->least || swept > row->greatest))
      s.error(base::ErrorCode::out_of_range,
              "bore " + typed_text(r.crank.bore) + " and stroke " + typed_text(r.crank.stroke) + " make " +
                  base::number_text(swept * 1e6, 1) + " cm3",
              "crank.bore", "allowed: " + row->least_text + " to " + row->greatest_text);
  }
}

void piston(Surveyor& s, Survey& out, const saw::Readings& r) {
  const saw::Piston& p = r.piston;
  out.skirt_exhaust = s.slot("piston.skirt_exhaust", p.skirt_exhaust, Dimension::length);
  out.skirt_intake = s.slot("piston.skirt_intake", p.skirt_intake, Dimension::length);
  out.skirt_side = s.slot("piston.skirt_side", p.skirt_side, Dimension::length);
  out.skirt_exhaust_width = s.slot("piston.skirt_exhaust_width", p.skirt_exhaust_width, Dimension::length);
  out.pin_below_crown = s.slot("piston.pin_below_crown", p.pin_below_crown, Dimension::length);
  out.pin_diameter = s.slot("piston.pin_diameter", p.pin_diameter, Dimension::length);
  out.dome = s.slot("piston.dome", p.dome, Dimension::length);
  out.mass = s.slot("piston.mass", p.mass, Dimension::mass);
  if (p.ring.size() > Few<Ring, 4>::capacity)
    s.error(base::ErrorCode::out_of_range, "more than four rings", "piston.ring", "the first four are taken");
  const std::size_t rings = std::clamp<std::size_t>(p.ring.size(), 1, Few<Ring, 4>::capacity);
  for (std::size_t k = 0; k < rings; ++k) {
    const saw::Ring ring = k < p.ring.size() ? p.ring[k] : saw::Ring{};
    const std::string path = "piston.ring." + std::to_string(k + 1) + ".";
    out.rings.push_back({s.slot(path + "below_crown", ring.below_crown, Dimension::length),
                         s.slot(path + "height", ring.height, Dimension::length),
                         s.slot(path + "radial", ring.radial, Dimension::length),
                         s.slot(path + "peg", ring.peg, Dimension::angle),
                         s.slot_or_constant(path + "end_gap", ring.end_gap, Dimension::length, 0.0),
                         s.slot(path + "free_gap", ring.free_gap, Dimension::length)});
  }
  out.piston_window_need = s.need("piston.window");
  if (p.window.size() > Few<PistonWindow, 6>::capacity)
    s.error(base::ErrorCode::out_of_range, "more than six windows in the piston", "piston.window",
            "the first six are taken");
  for (std::size_t k = 0; k < std::min<std::size_t>(p.window.size(), 6); ++k) {
    const saw::PistonWindow& w = p.window[k];
    const std::string path = "piston.window." + std::to_string(k + 1) + ".";
    out.piston_windows.push_back({s.slot(path + "centre", w.centre, Dimension::angle),
                                  s.slot(path + "roof_below_crown", w.roof_below_crown, Dimension::length),
                                  s.slot(path + "floor_below_crown", w.floor_below_crown, Dimension::length),
                                  s.slot(path + "width", w.width, Dimension::length),
                                  s.slot_or_constant(path + "corner", w.corner, Dimension::length, 0.0),
                                  w.mirrored.value_or(false) ? 2 : 1});
  }
}

void cylinder(Surveyor& s, Survey& out, const saw::Readings& r) {
  const saw::Cylinder& c = r.cylinder;
  out.crown_at_tdc = s.slot("cylinder.crown_at_tdc", c.crown_at_tdc, Dimension::length);
  out.crown_above_deck = s.slot("cylinder.crown_above_deck", c.crown_above_deck, Dimension::length);
  out.base_gasket = s.slot("cylinder.base_gasket", c.base_gasket, Dimension::length);
  for (const auto& [place, reading] : c.squish.places) {
    Slot slot;
    slot.input = s.input_of("cylinder.squish" + (place.empty() ? "" : "." + place), reading, Dimension::length);
    if (slot.input >= 0) out.squish.push_back(slot);
  }
  const auto clearance = [&](std::size_t k) { return out.inputs[static_cast<std::size_t>(out.squish[k].input)].value; };
  for (std::size_t k = 1; k < out.squish.size(); ++k) {
    if (clearance(k) < clearance(out.squish_least)) out.squish_least = k;
    if (clearance(k) > clearance(out.squish_greatest)) out.squish_greatest = k;
  }
  out.squish_need = s.need("cylinder.squish");
  out.squish_stretch.input = s.assume("squish_stretch");
  out.squish_band = s.slot("cylinder.squish_band", c.squish_band, Dimension::length);
  out.chamber = s.slot("cylinder.chamber", c.chamber, Dimension::volume);
  out.filled_to_plug_seat = c.chamber_filled_to == "plug seat";
  if (out.filled_to_plug_seat) {
    out.plug_thread = s.slot_or("cylinder.plug_thread", c.plug_thread, Dimension::length, "plug_thread");
    out.plug_reach = s.slot_or("cylinder.plug_reach", c.plug_reach, Dimension::length, "plug_reach");
  }
  out.bowl = s.slot("cylinder.bowl", c.bowl, Dimension::volume);
  out.decompression = s.slot_or_constant("cylinder.decompression", c.decompression, Dimension::volume, 0.0);
  out.spigot_clearance = s.slot("cylinder.spigot_clearance", c.spigot_clearance, Dimension::length);
  out.pin_axis = s.slot("cylinder.pin_axis", c.pin_axis, Dimension::angle);
  out.thrust = s.slot("cylinder.thrust", c.thrust, Dimension::angle);
  out.case_volume = s.slot("case.volume", r.crankcase.volume, Dimension::volume);
  out.case_volume_at = s.slot("case.volume_at", r.crankcase.volume_at, Dimension::angle);
}

void passage(Surveyor& s, PassageSlots& out, const saw::Passage& p, const std::string& path, const std::string& kind) {
  out = {s.slot(path + "length", p.length, Dimension::length, kind),
         s.slot(path + "bend", p.bend, Dimension::angle, kind),
         s.slot(path + "tilt", p.tilt, Dimension::angle, kind),
         s.slot(path + "aim", p.aim, Dimension::angle, kind),
         s.slot(path + "foot", p.foot, Dimension::area, kind),
         s.slot(path + "gasket", p.gasket, Dimension::area, kind),
         s.slot(path + "mouth", p.mouth, Dimension::area, kind),
         s.slot(path + "case_step", p.case_step, Dimension::length, kind),
         s.slot(path + "lower.roof", p.lower.roof, Dimension::length, kind),
         s.slot(path + "lower.floor", p.lower.floor, Dimension::length, kind),
         s.slot(path + "lower.width", p.lower.width, Dimension::length, kind),
         p.lower.open.value_or(p.lower.roof.taken())};
}

Slot corner(Surveyor& s, const std::string& path, const saw::Reading& reading, const std::string& kind,
            const std::string& of) {
  Slot slot;
  slot.input = s.input_of(path, reading, Dimension::length, kind);
  if (slot.input >= 0) return slot;
  slot.input = s.assume("corner_share", of);
  slot.share_of_half = true;
  return slot;
}

Window traced(Surveyor& s, const saw::Port& port, const std::string& path) {
  std::vector<Point> points;
  double highest = 1e9;
  for (const auto& [x, y] : port.outline.rows) {
    if (!x.value || !y.value) return {};
    points.push_back({port.seen == "wall side" ? -x.value->si : x.value->si, y.value->si});
    highest = std::min(highest, y.value->si);
  }
  if (points.empty()) return {};
  for (Point& point : points) point.y -= highest;
  base::Result<Window> window = Window::from_outline(points, 0.0);
  if (window) return *std::move(window);
  s.error(window.error().code, window.error().message, path + "outline", window.error().hint);
  return {};
}

/// How far the outline lies too far out: all round alike where it was read how true it is, else as rubbings do.
void outline_lines(Surveyor& s, PortSlots& out, const saw::Port& port, const std::string& path) {
  out.line_across.input = s.input_within(path + "outline_within", port.outline_within, Dimension::length);
  out.line_down = out.line_across;
  if (out.line_across.input >= 0) return;
  out.line_across.input = s.assume("outline_line", port.name + ".across");
  out.line_down.input = s.assume("outline_line", port.name + ".down");
}

PortSlots port_slots(Surveyor& s, Survey& survey, const saw::Port& port, const std::string& path) {
  PortSlots out;
  const std::string& name = port.name;
  const std::string& kind = port.kind;
  out.name = name;
  out.kind = kind_of(kind);
  out.centre = out.kind == PortKind::exhaust
                   ? s.slot_or_constant(path + "centre", port.centre, Dimension::angle, 0.0, kind)
                   : s.slot(path + "centre", port.centre, Dimension::angle, kind);
  out.traced = traced(s, port, path);
  if (!out.traced.empty()) outline_lines(s, out, port, path);
  out.width = s.slot(path + "width", port.edges.width, Dimension::length, kind);
  out.corner_roof = corner(s, path + "corner_roof", port.corner_roof, kind, name + ".roof");
  out.corner_floor = corner(s, path + "corner_floor", port.corner_floor, kind, name + ".floor");
  out.roof_slope = s.slot_or_constant(path + "roof_slope", port.roof_slope, Dimension::angle, 0.0, kind);
  out.roof_arch = s.slot_or_constant(path + "roof_arch", port.roof_arch, Dimension::length, 0.0, kind);
  out.bridge = s.slot_or_constant(path + "bridge", port.bridge, Dimension::length, 0.0, kind);
  out.bridge_at = s.slot_or_constant(path + "bridge_at", port.bridge_at, Dimension::length, 0.0, kind);
  out.duct_length = s.slot(path + "duct.length", port.duct.length, Dimension::length, kind);
  out.duct_outlet = s.slot(path + "duct.outlet", port.duct.outlet, Dimension::area, kind);
  out.duct_tilt = s.slot(path + "duct.tilt", port.duct.tilt, Dimension::angle, kind);
  passage(s, out.passage, port.passage, path + "passage.", kind);
  read_edges(s, survey, out, port.edges, path, kind);
  return out;
}

/// The mirrored side: what its `twin` says, and for the rest the very readings of the first side.
PortSlots other_side(Surveyor& s, Survey& out, const saw::Port& port, const PortSlots& first, int entry) {
  PortSlots other = first;
  PortSlots own;
  own.kind = first.kind;
  const std::string path = "port." + port.name + ".twin.";
  read_edges(s, out, own, port.twin, path, port.kind);
  other.twin_of = entry;
  other.own_edge = opened_by(first.kind) == OpenedBy::crown ? !own.roof.readings.empty() : !own.floor.readings.empty();
  if (!own.roof.readings.empty()) other.roof = own.roof;
  if (!own.floor.readings.empty()) other.floor = own.floor;
  if (port.twin.width.taken()) other.width = s.slot(path + "width", port.twin.width, Dimension::length, port.kind);
  return other;
}

void ports(Surveyor& s, Survey& out, const saw::Readings& r) {
  for (std::size_t i = 0; i < r.ports.size(); ++i) {
    const saw::Port& port = r.ports[i];
    if (out.ports.size() + 2 > Few<Port, 16>::capacity) {
      s.error(base::ErrorCode::out_of_range, "more ports than a saw has; this one and those after it are left out",
              "port." + port.name);
      return;
    }
    const std::string path = "port." + port.name + ".";
    PortSlots slots = port_slots(s, out, port, path);
    slots.index = static_cast<int>(i);
    const bool mirrored = port.mirrored.value_or(false) || any(port.twin);
    const bool twin = any(port.twin);
    slots.count = mirrored && !twin ? 2 : 1;
    out.ports.push_back(slots);
    if (!twin) continue;
    const int entry = static_cast<int>(out.ports.size()) - 1;
    out.ports.push_back(other_side(s, out, port, slots, entry));
  }
}

void rest(Surveyor& s, Survey& out, const saw::Readings& r) {
  const std::string& intake = r.intake.kind;
  out.intake = intake == "skirt"                  ? IntakeKind::skirt
               : intake == "reed into case"       ? IntakeKind::reed_into_case
               : intake == "reed behind a window" ? IntakeKind::reed_behind_window
                                                  : IntakeKind::unknown;
  const std::string& impulse = r.impulse.where;
  out.impulse = impulse == "base"   ? ImpulseFrom::base
                : impulse == "case" ? ImpulseFrom::crankcase
                : impulse == "none" ? ImpulseFrom::none
                                    : ImpulseFrom::unknown;
  out.outlet_need = s.need("muffler.outlets");
  for (std::size_t k = 0; k < r.muffler.outlets.items.size(); ++k) {
    Slot slot;
    slot.input = s.input_of("muffler.outlets", k, r.muffler.outlets.items[k], Dimension::area);
    if (slot.input < 0) slot.need = out.outlet_need;  // a sum without one of them would mislead
    out.outlets.push_back(slot);
  }
  out.shaft = s.slot("ignition.shaft", r.ignition.shaft, Dimension::length);
  out.advance = s.slot("ignition.advance", r.ignition.advance, Dimension::angle);
  out.octane = s.number("fuel.octane", r.fuel.octane.number);
  out.venturi = s.slot("carburettor.venturi", r.carburettor.venturi, Dimension::length);
  out.chain_pitch = s.slot("drive.chain_pitch", r.drive.chain_pitch, Dimension::length);
  out.teeth = s.number("drive.teeth", r.drive.teeth);
  out.in_cut = s.slot("readings.in_cut", r.evidence.in_cut, Dimension::speed);
  out.no_load = s.slot("readings.no_load", r.evidence.no_load, Dimension::speed);
  out.gauge_compression = s.slot("readings.gauge_compression", r.evidence.gauge_compression, Dimension::pressure);
  out.ring_modulus.input = s.assume("ring_modulus");
  out.ring_gas.input = s.assume("ring_gas_pressure");
  out.exhaust_need = s.need("port.exhaust");
  out.transfer_need = s.need("port.transfer");
  out.intake_need = s.need("port.intake");
}

/// The direction pressed on the power stroke is square to the pin.
void thrust_against_pin(Surveyor& s, const Survey& out) {
  if (out.thrust.input < 0 || out.pin_axis.input < 0) return;
  const double between = out.inputs[static_cast<std::size_t>(out.thrust.input)].value -
                         out.inputs[static_cast<std::size_t>(out.pin_axis.input)].value;
  const double off = std::abs(std::abs(std::remainder(between, 2.0 * std::numbers::pi)) - 0.5 * std::numbers::pi);
  if (off > 10.0 * std::numbers::pi / 180.0)
    s.error(base::ErrorCode::contradiction, "the pressed side is not square to the piston pin", "cylinder.thrust",
            "thrust is pin_axis plus or minus 90 deg");
}

}  // namespace

std::vector<double> Survey::values() const {
  std::vector<double> values;
  values.reserve(inputs.size());
  for (const Input& input : inputs) values.push_back(input.value);
  return values;
}

int Survey::find_port(std::string_view name) const {
  for (std::size_t i = 0; i < ports.size(); ++i)
    if (ports[i].name == name && ports[i].twin_of < 0) return static_cast<int>(i);
  return -1;
}

Survey survey(const saw::Readings& readings) {
  Survey out;
  Surveyor s(out);
  crank(s, out, readings);
  piston(s, out, readings);
  cylinder(s, out, readings);
  rest(s, out, readings);
  ports(s, out, readings);
  thrust_against_pin(s, out);
  settle_edges(s, out);
  hold_angles(s, out);
  hold_outlines(s, out);
  // last, so that the errors of the geometry are drawn in the same order without it
  survey_breathing(s, out, readings);
  return out;
}

}  // namespace portwright::geometry
