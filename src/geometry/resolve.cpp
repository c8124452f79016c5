// Second half of the door from readings to an Engine: numbers to numbers, in the order crank, piston, cylinder, ports,
// rest.

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/edge.hpp"
#include "geometry/resolve_breathing.hpp"
#include "geometry/survey.hpp"
#include "geometry/volumes.hpp"

namespace portwright::geometry {

using base::Known;
using base::Needs;

namespace {

constexpr double turn = 2.0 * std::numbers::pi;

class Resolver {
 public:
  Resolver(const Survey& survey, std::span<const double> values, Engine& engine)
      : survey_(survey), values_(values), engine_(engine) {}

  void run() {
    engine_.bore = at(survey_.bore);
    engine_.stroke = at(survey_.stroke);
    engine_.pin_offset = at(survey_.pin_offset);
    piston();
    crown_from_readings();
    rod();
    crown_from_edges();
    cylinder();
    ports();
    rest();
  }

 private:
  double value(int input) const { return value_of(survey_, values_, input); }
  Known at(const Slot& slot) const { return known_of(survey_, values_, slot); }
  Frame frame(PortKind kind) const {
    return {engine_.slider ? &*engine_.slider : nullptr, engine_.slider_known, engine_.crown_at_tdc,
            skirt_at(engine_, kind)};
  }

  void piston();
  void crown_from_readings();
  void crown_from_edges();
  void rod();
  double rod_ratio_from_edges(double stroke, double prior) const;
  void cylinder();
  void squish();
  void ports();
  void port(const PortSlots& slots, Port& out) const;
  void edges(const PortSlots& slots, const Window& outline, Port& out) const;
  Known level(const EdgeSlot& edge, PortKind kind) const;
  Known passed(const EdgeSlot& edge, PortKind kind) const;
  Timing read_timing(const EdgeSlot& edge, OpenedBy by, const Known& missing) const;
  Known corner(const Slot& slot, const Port& port) const;
  void rest();

  const Survey& survey_;
  std::span<const double> values_;
  Engine& engine_;
};

void Resolver::piston() {
  Piston& piston = engine_.piston;
  piston.skirt_exhaust = at(survey_.skirt_exhaust);
  piston.skirt_intake = at(survey_.skirt_intake);
  piston.skirt_side = at(survey_.skirt_side);
  piston.skirt_exhaust_width = at(survey_.skirt_exhaust_width);
  piston.pin_below_crown = at(survey_.pin_below_crown);
  piston.pin_diameter = at(survey_.pin_diameter);
  piston.dome = at(survey_.dome);
  piston.mass = at(survey_.mass);
  piston.rings.clear();
  for (const RingSlots& r : survey_.rings)
    piston.rings.add({at(r.below_crown), at(r.height), at(r.radial), at(r.peg), at(r.end_gap), at(r.free_gap)});
  piston.windows.clear();
  for (const PistonWindowSlots& w : survey_.piston_windows)
    piston.windows.add({at(w.centre), at(w.roof), at(w.floor), at(w.width), at(w.corner), w.count});
  piston.pocket_roof = piston.windows.empty() ? Known::waits_for(survey_.piston_window_need) : piston.windows[0].roof;
}

void Resolver::crown_from_readings() {
  engine_.base_gasket = at(survey_.base_gasket);
  const Known direct = at(survey_.crown_at_tdc);
  const Known by_deck = at(survey_.crown_above_deck) - engine_.base_gasket;
  const double w = survey_.crown_weight;
  engine_.crown_at_tdc = direct.known() && by_deck.known()     ? w * direct + (1.0 - w) * by_deck
                         : direct.known()                      ? direct
                         : by_deck.known()                     ? by_deck
                         : survey_.crown_above_deck.input >= 0 ? by_deck
                                                               : direct;
  if (survey_.crown_stretch >= 0) engine_.crown_at_tdc += Known(value(survey_.crown_stretch));
}

void Resolver::rod() {
  engine_.rod = at(survey_.rod);
  if (survey_.rod.input < 0 && survey_.rod_ratio.input >= 0) {
    const double prior = value(survey_.rod_ratio.input);
    engine_.rod = apply(engine_.stroke, [&](double stroke) { return stroke * rod_ratio_from_edges(stroke, prior); });
  }
  rebuild_slider(engine_);
}

/// Least squares over the rod's ratio and the wheel's zero: edges known both ways against the prior of each.
/// Gauss-Newton; three steps bring the ratio to 1e-9 where edges tell anything at all.
double Resolver::rod_ratio_from_edges(double stroke, double prior) const {
  const double ratio_sigma = survey_.inputs[static_cast<std::size_t>(survey_.rod_ratio.input)].sigma;
  double ratio = prior, zero = 0.0;
  for (int step = 0; step < 3; ++step) {
    double a = 1.0 / (ratio_sigma * ratio_sigma), b = 0.0, c = 0.0, u = (prior - ratio) * a, v = 0.0;
    if (survey_.zero_sigma > 0.0) c = 1.0 / (survey_.zero_sigma * survey_.zero_sigma), v = -zero * c;
    int used = 0;
    for (const BothWays& edge : survey_.both_ways) {
      const double offset = engine_.pin_offset.value_or(0.0);
      const CrankSlider here(stroke, ratio * stroke, offset), longer(stroke, (ratio + 1e-4) * stroke, offset);
      const auto frame_of = [&](const CrankSlider& s) {
        return Frame{&s, 0.0, engine_.crown_at_tdc, skirt_at(engine_, edge.kind)};
      };
      const bool before = edge.angle.form == EdgeForm::opens && opened_by(edge.kind) == OpenedBy::skirt;
      const double sign = edge.takes_zero ? (before ? 1.0 : -1.0) : 0.0;
      const double angle = value(edge.angle.input) + sign * zero;
      const Known by_angle = passed_from(edge.angle.form, angle, opened_by(edge.kind), frame_of(here));
      const Known level = passed_from(edge.level.form, value(edge.level.input), opened_by(edge.kind), frame_of(here));
      if (!by_angle.known() || !level.known()) continue;
      const double nudge = 1e-6;
      const double per_ratio =
          (*passed_from(edge.angle.form, angle, opened_by(edge.kind), frame_of(longer)) - *by_angle) / 1e-4;
      const double per_zero =
          sign * (*passed_from(edge.angle.form, angle + nudge, opened_by(edge.kind), frame_of(here)) - *by_angle) /
          nudge;
      const double weight = 1.0 / (edge.sigma * edge.sigma), left = *level - *by_angle;
      a += weight * per_ratio * per_ratio;
      b += weight * per_ratio * per_zero;
      c += weight * per_zero * per_zero;
      u += weight * per_ratio * left;
      v += weight * per_zero * left;
      ++used;
    }
    if (used == 0) return prior;
    const double determinant = survey_.zero_sigma > 0.0 ? a * c - b * b : a;
    const double d_ratio = survey_.zero_sigma > 0.0 ? (c * u - b * v) / determinant : u / a;
    if (survey_.zero_sigma > 0.0) zero += (a * v - b * u) / determinant;
    ratio = std::clamp(ratio + d_ratio, 1.3, 2.6);
  }
  return ratio;
}

void Resolver::crown_from_edges() {
  if (engine_.crown_at_tdc.known() || !engine_.slider) return;
  double sum = 0.0, weights = 0.0;
  for (const BothWays& edge : survey_.both_ways) {
    if (edge.level.form != EdgeForm::height) continue;
    const Known y = level_from(edge.angle.form, value(edge.angle.input), opened_by(edge.kind), frame(edge.kind));
    if (!y.known()) continue;
    const double weight = 1.0 / (edge.sigma * edge.sigma);
    sum += weight * (*y + value(edge.level.input));
    weights += weight;
  }
  if (weights > 0.0) engine_.crown_at_tdc = sum / weights;
}

void Resolver::squish() {
  if (survey_.squish.empty()) {
    engine_.squish = engine_.squish_tilt = engine_.squish_least = Known::waits_for(survey_.squish_need);
    return;
  }
  double sum = 0.0;
  for (const Slot& place : survey_.squish) sum += value(place.input);
  // The places that are least and greatest as read, not the least of each sample: that would lie below every reading.
  const double least = value(survey_.squish[survey_.squish_least].input),
               greatest = value(survey_.squish[survey_.squish_greatest].input);
  engine_.squish = sum / static_cast<double>(survey_.squish.size());
  engine_.squish_least = least;
  engine_.squish_tilt =
      survey_.squish.size() > 1 ? Known(std::max(0.0, greatest - least)) : Known::waits_for(survey_.squish_need);
}

void Resolver::cylinder() {
  squish();
  engine_.squish_stretch = at(survey_.squish_stretch);
  engine_.squish_band = at(survey_.squish_band);
  engine_.spigot_clearance = at(survey_.spigot_clearance);
  engine_.thrust = at(survey_.thrust);
  const Known axis = survey_.pin_axis.input < 0 && engine_.thrust ? engine_.thrust - 0.25 * turn : at(survey_.pin_axis);
  engine_.pin_axis = apply(axis, [](double angle) { return angle - 0.5 * turn * std::floor(angle / (0.5 * turn)); });
  const Known liquid = at(survey_.chamber);
  const Known built = built_chamber(engine_.bore, engine_.squish, engine_.squish_band, at(survey_.bowl),
                                    engine_.piston.dome, at(survey_.decompression));
  if (liquid.known())
    engine_.chamber =
        survey_.filled_to_plug_seat ? liquid - plug_hole(at(survey_.plug_thread), at(survey_.plug_reach)) : liquid;
  else
    engine_.chamber = built.known() ? built : liquid;
  const Known drop = apply(at(survey_.case_volume_at), engine_.slider_known, [&](double angle, double) {
    const double into = std::fmod(angle, turn);
    return engine_.slider->drop(into < 0.0 ? into + turn : into);
  });
  const bool at_top = survey_.case_volume_at.input >= 0 && value(survey_.case_volume_at.input) == 0.0;
  const Known volume = at(survey_.case_volume);
  engine_.case_at_tdc = at_top ? volume : volume + engine_.bore_area() * drop;
}

Known Resolver::passed(const EdgeSlot& edge, PortKind kind) const {
  if (edge.readings.empty()) return Known::waits_for(edge.need);
  double sum = 0.0, weights = 0.0;
  Needs needs;
  for (const EdgeReading& reading : edge.readings) {
    const Known one = passed_from(reading.form, value(reading.input), opened_by(kind), frame(kind));
    if (one.known())
      sum += reading.weight * *one, weights += reading.weight;
    else
      needs = needs | one.needs();
  }
  if (weights <= 0.0) return Known::waits_for(needs);
  return sum / weights + (edge.stretch >= 0 ? value(edge.stretch) : 0.0);
}

/// For a crown-opened edge the same as passed(); the place of a skirt-opened floor is known without the skirt where its
/// height was read.
Known Resolver::level(const EdgeSlot& edge, PortKind kind) const {
  if (edge.readings.empty()) return Known::waits_for(edge.need);
  double sum = 0.0, weights = 0.0;
  Needs needs;
  for (const EdgeReading& reading : edge.readings) {
    const Known one = level_from(reading.form, value(reading.input), opened_by(kind), frame(kind));
    if (one.known())
      sum += reading.level_weight * *one, weights += reading.level_weight;
    else
      needs = needs | one.needs();
  }
  if (weights <= 0.0) return Known::waits_for(needs);
  return sum / weights + (edge.stretch >= 0 ? value(edge.stretch) : 0.0);
}

/// Without stroke or rod: what the wheel said, symmetrical about the dead centres (a pin offset moves them by
/// hundredths).
Timing Resolver::read_timing(const EdgeSlot& edge, OpenedBy by, const Known& missing) const {
  double opens = 0.0;
  int angles = 0;
  for (const EdgeReading& reading : edge.readings) {
    const double v = value(reading.input);
    const double implied = by == OpenedBy::crown ? (reading.form == EdgeForm::opens    ? v
                                                    : reading.form == EdgeForm::closes ? turn - v
                                                                                       : 0.5 * (turn - v))
                                                 : (reading.form == EdgeForm::duration ? 0.5 * v : v);
    if (reading.form == EdgeForm::height || reading.form == EdgeForm::drop) continue;
    opens += implied;
    ++angles;
  }
  if (angles == 0) return {missing, missing, missing};
  opens /= angles;
  const double mirrored = by == OpenedBy::crown ? turn - opens : opens;
  return {opens, mirrored, by == OpenedBy::crown ? turn - 2.0 * opens : 2.0 * opens};
}

void Resolver::edges(const PortSlots& slots, const Window& outline, Port& out) const {
  const OpenedBy by = opened_by(slots.kind);
  const bool crown = by == OpenedBy::crown;
  const EdgeSlot &timed = crown ? slots.roof : slots.floor, &other = crown ? slots.floor : slots.roof;
  out.passed = passed(timed, slots.kind);
  out.roof = level(slots.roof, slots.kind);
  out.floor = level(slots.floor, slots.kind);
  if (!outline.empty()) {
    // The timed edge places the outline; where only the other one was read, that one does.
    const double height = outline.floor() - outline.roof();
    const bool by_other = timed.readings.empty() && !other.readings.empty();
    if (crown != by_other)
      out.floor = out.roof + height;
    else
      out.roof = out.floor - height;
    if (by_other) out.passed = crown ? out.roof : out.floor - skirt_at(engine_, slots.kind);
  }
  out.read = read_timing(timed, by, out.passed * 0.0 + engine_.slider_known * 0.0);
}

Known Resolver::corner(const Slot& slot, const Port& port) const {
  const Known radius = at(slot);
  if (!slot.share_of_half) return radius;
  return radius * apply(port.width, port.floor - port.roof,
                        [](double width, double height) { return std::max(0.0, 0.5 * std::min(width, height)); });
}

void Resolver::port(const PortSlots& slots, Port& out) const {
  out.kind = slots.kind;
  out.index = slots.index;
  out.count = slots.count;
  out.twin_of = slots.twin_of;
  out.centre = apply(at(slots.centre), [](double angle) { return std::remainder(angle, turn); });
  out.width = at(slots.width);
  const Window outline = outline_of(slots, values_);
  edges(slots, outline, out);
  out.corner_roof = corner(slots.corner_roof, out);
  out.corner_floor = corner(slots.corner_floor, out);
  out.roof_arch = at(slots.roof_arch);
  out.roof_slope = at(slots.roof_slope);
  out.bridge = at(slots.bridge);
  out.bridge_at = at(slots.bridge_at);
  out.duct_length = at(slots.duct_length);
  out.duct_outlet = at(slots.duct_outlet);
  out.duct_tilt = at(slots.duct_tilt);
  const PassageSlots& p = slots.passage;
  out.passage = {at(p.length),
                 at(p.bend),
                 at(p.tilt),
                 at(p.aim),
                 at(p.foot),
                 at(p.gasket),
                 at(p.mouth),
                 at(p.case_step),
                 engine_.crown_at_tdc - at(p.lower_roof),
                 engine_.crown_at_tdc - at(p.lower_floor),
                 at(p.lower_width),
                 p.lower_open};
  out.traced = !outline.empty();
  if (!out.traced) {
    rebuild_window(out, engine_.bore);
    return;
  }
  out.window_known = out.roof * 0.0;
  out.window = out.roof.known() ? outline.moved_down(*out.roof - outline.roof()) : Window();
  const Window::Extent extent = outline.extent();
  if (!out.width.known())
    out.width = apply(engine_.bore, [&](double bore) { return bore * std::sin((extent.right - extent.left) / bore); });
}

void Resolver::ports() {
  engine_.ports.clear();
  for (const PortSlots& slots : survey_.ports) port(slots, engine_.ports.add({}));
}

void Resolver::rest() {
  engine_.intake = survey_.intake;
  engine_.impulse = survey_.impulse;
  engine_.muffler_outlets = survey_.outlets.empty() ? Known::waits_for(survey_.outlet_need) : Known(0.0);
  for (const Slot& outlet : survey_.outlets) engine_.muffler_outlets += at(outlet);
  engine_.ignition_shaft = at(survey_.shaft);
  engine_.advance = at(survey_.advance);
  engine_.advance_added = 0.0;
  engine_.octane = at(survey_.octane);
  engine_.venturi = at(survey_.venturi);
  engine_.chain_pitch = at(survey_.chain_pitch);
  engine_.teeth = at(survey_.teeth);
  engine_.in_cut = at(survey_.in_cut);
  engine_.no_load = at(survey_.no_load);
  engine_.gauge_compression = at(survey_.gauge_compression);
  engine_.ring_modulus = at(survey_.ring_modulus);
  engine_.ring_gas = at(survey_.ring_gas);
  resolve_breathing(survey_, values_, engine_.breathing);
}

}  // namespace

Window outline_of(const PortSlots& slots, std::span<const double> values) {
  if (slots.traced.empty()) return {};
  constexpr double least = 0.5;  // a line that would lie beyond the middle is drawn in
  const auto stretch = [&](const Slot& line, double size) {
    return std::max(least, 1.0 - 2.0 * values[static_cast<std::size_t>(line.input)] / size);
  };
  const Window::Extent extent = slots.traced.extent();
  return slots.traced.stretched(stretch(slots.line_across, extent.right - extent.left),
                                stretch(slots.line_down, slots.traced.floor() - slots.traced.roof()));
}

void resolve(const Survey& survey, std::span<const double> values, Engine& engine) {
  Resolver(survey, values, engine).run();
}

Engine resolve(const Survey& survey) {
  Engine engine;
  const std::vector<double> values = survey.values();
  resolve(survey, values, engine);
  return engine;
}

}  // namespace portwright::geometry
