#include "study/measure.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/skirt_profile.hpp"
#include "geometry/squish.hpp"
#include "geometry/volumes.hpp"
#include "study/measure_ports.hpp"
#include "study/rivals.hpp"
#include "study/rules_of_thumb.hpp"

namespace portwright::study {

using base::apply;
using geometry::Engine;
using geometry::Port;
using geometry::PortKind;
using std::numbers::pi;

namespace {

Known nothing_but(const Known& known) { return known * Known(0.0); }

constexpr auto lower = [](double a, double b) { return a > b; };  // y runs down
constexpr auto higher = [](double a, double b) { return a < b; };

Known lowest_floor(const Engine& engine, PortKind kind, const base::Needs& without, int& chosen) {
  return extreme(
      engine, without, [&](PortKind k) { return k == kind; }, [&](std::size_t i) { return engine.ports[i].floor; },
      lower, chosen);
}

void crank(const Engine& engine, double speed, Measures& out) {
  out.displacement = engine.swept();
  out.rod_ratio = engine.rod / engine.stroke;
  out.mean_piston_speed = engine.stroke * (2.0 * speed);
  const double omega = geometry::radians_per_second(speed);
  out.peak_acceleration =
      apply(engine.slider_known, [&](double) { return engine.slider->acceleration(0.0) * omega * omega; });
  out.no_load = engine.no_load;
  out.in_cut = engine.in_cut;
  out.chain_speed = engine.chain_pitch * engine.teeth * (2.0 * speed);
  out.advance_added = engine.advance_added;
  out.key_offset = engine.advance_added && *engine.advance_added == 0.0
                       ? Known(0.0)
                       : engine.advance_added * engine.ignition_shaft * 0.5;
}

Known above_nothing(const Known& value, const base::Needs& want) {
  return value && !(*value > 0.0) ? Known::waits_for(want) : value;
}

void volumes(const Engine& engine, const Wants& wants, Measures& out) {
  out.chamber = engine.chamber;
  const Known chamber = above_nothing(engine.chamber, wants.chamber);
  out.full_ratio = geometry::ratio_over(engine.swept(), chamber);
  const Known closes_at = extreme(
      engine, wants.exhaust, [](PortKind k) { return k == PortKind::exhaust; },
      [&](std::size_t i) { return engine.ports[i].passed; }, higher, out.chosen.exhaust_closes);
  out.trapped_ratio = geometry::ratio_over(geometry::volume_at(engine, closes_at), chamber);
  const Known at_bdc = above_nothing(engine.case_at_tdc - engine.swept(), wants.crankcase);
  out.case_ratio = nothing_but(at_bdc) + geometry::case_ratio(engine);
  out.gauge_compression = engine.gauge_compression;
}

void squish(const Engine& engine, double speed, const Wants& wants, Measures& out) {
  out.squish_clearance = engine.squish;
  out.squish_tilt = engine.squish_tilt;
  out.squish_working = engine.squish_least - engine.squish_stretch;
  out.squish_band_share = apply(engine.bore, engine.squish_band, geometry::band_share);
  const Known clearance = above_nothing(engine.squish, wants.clearance),
              chamber = above_nothing(engine.chamber, wants.chamber);
  const Known ready = nothing_but(clearance) + nothing_but(chamber) + nothing_but(out.squish_band_share) +
                      nothing_but(engine.slider_known);
  out.squish_velocity = out.squish_velocity_angle = ready;
  if (!ready) return;
  const geometry::SquishGap gap{*engine.bore, *engine.squish_band, *clearance, *chamber};
  const geometry::SquishPeak peak = geometry::squish_peak(*engine.slider, gap, geometry::radians_per_second(speed));
  out.squish_velocity = peak.velocity;
  out.squish_velocity_angle = peak.angle;
}

/// Exhaust windows below the skirt's edge with the piston at TDC [m²].
Known free_port_area(const Engine& engine, const geometry::WindowMap& map, const Known& floors) {
  const geometry::Piston& piston = engine.piston;
  Known ready = nothing_but(piston.skirt_exhaust) + nothing_but(piston.skirt_side) +
                nothing_but(piston.skirt_exhaust_width) + nothing_but(engine.pin_axis) + nothing_but(engine.bore) +
                nothing_but(floors);
  for (const Port& port : engine.ports)
    if (port.kind == PortKind::exhaust) ready += nothing_but(port.centre) + nothing_but(port.window_known);
  if (!ready) return ready;
  const geometry::SkirtProfile profile(
      {*piston.skirt_exhaust, *piston.skirt_side, piston.skirt_intake.value_or(*piston.skirt_exhaust),
       *piston.skirt_exhaust_width, *engine.pin_axis},
      *engine.bore);
  double area = 0.0;
  for (const geometry::PlacedWindow& placed : map.windows)
    if (engine.ports[static_cast<std::size_t>(placed.entry)].kind == PortKind::exhaust)
      area += geometry::area_below_skirt(*placed.window, placed.x, profile, 0.0);
  return area;
}

void piston(const Engine& engine, const geometry::WindowMap& map, const Wants& wants, Measures& out) {
  const geometry::Piston& piston = engine.piston;
  const auto crown_opened = [](PortKind k) { return geometry::opened_by(k) == geometry::OpenedBy::crown; };
  const auto intake = [](PortKind k) { return k == PortKind::intake; };
  const Known exhaust_floor = lowest_floor(engine, PortKind::exhaust, wants.exhaust, out.chosen.exhaust_floor);
  out.skirt_cover_exhaust = piston.skirt_exhaust - exhaust_floor;
  out.skirt_cover_intake = piston.skirt_intake + engine.stroke -
                           lowest_floor(engine, PortKind::intake, wants.intake, out.chosen.intake_floor);
  out.free_port_area = free_port_area(engine, map, exhaust_floor);
  const auto floor = [&](std::size_t i) { return engine.ports[i].floor; };
  const auto roof = [&](std::size_t i) { return engine.ports[i].roof; };
  out.crown_over_floors =
      extreme(engine, wants.exhaust, crown_opened, floor, lower, out.chosen.crown_floor) - engine.stroke;
  out.crown_over_intake_roof =
      extreme(engine, wants.intake, intake, roof, higher, out.chosen.intake_roof) - engine.stroke;
  out.top_land = piston.rings.empty() ? Known(0.0) : piston.rings[0].below_crown;
  out.spigot_clearance = engine.spigot_clearance;
  switch (engine.impulse) {
    case geometry::ImpulseFrom::unknown:
      out.impulse_covered = Known::waits_for(wants.impulse);
      break;
    case geometry::ImpulseFrom::base:
      out.impulse_covered = apply(engine.base_gasket, [](double g) { return g < 1e-5 ? 1.0 : 0.0; });
      break;
    default:
      out.impulse_covered = 0.0;
  }
}

/// From the end of the pin bore that is `end` half turns round.
geometry::Wall pin_wall(const geometry::WindowMap& map, const Strip& bore, int end, const geometry::Wall& held) {
  const double at = bore.x + 0.5 * end * map.circumference;
  return held.entry < 0 ? geometry::strip_wall(map, at, bore.half, bore.top, bore.bottom)
                        : geometry::strip_wall_to(map, held, at, bore.half, bore.top, bore.bottom);
}

/// The lesser of two walls, or the one that was the lesser as read.
template <class Wall>
geometry::Wall lesser(Wall wall, int& chosen) {
  if (chosen >= 0) return wall(chosen);
  const geometry::Wall first = wall(0), second = wall(1);
  chosen = second.width < first.width ? 1 : 0;
  return chosen == 0 ? first : second;
}

void walls(const Engine& engine, const geometry::WindowMap& map, const Wants& wants, const Measures* as_read,
           Measures& out) {
  const geometry::Piston& piston = engine.piston;
  const Known mapped = map.known + nothing_but(engine.ports.empty() ? out.crown_over_floors : Known(0.0));
  out.wall_least = out.pin_hole_wall = out.thrust_share = mapped;
  if (!mapped) {
    out.pin_hole_wall += nothing_but(piston.pin_below_crown) + nothing_but(piston.pin_diameter) +
                         nothing_but(engine.pin_axis) + nothing_but(engine.stroke);
    out.thrust_share += nothing_but(engine.pin_axis) + nothing_but(engine.stroke) + nothing_but(piston.skirt_side);
    return;
  }
  const geometry::Wall least = as_read ? as_read->wall_least_at : geometry::Wall();
  out.wall_least_at = least.entry < 0 ? geometry::least_wall(map) : geometry::wall_between(map, least);
  out.wall_least = met(out.wall_least_at, least, wants);
  between_windows(map, out.wall_least_at, as_read ? &as_read->wall_rivals : nullptr, out.wall_rivals);
  const Known pin_bore =
      piston.pin_below_crown + piston.pin_diameter + nothing_but(engine.pin_axis) + nothing_but(engine.stroke);
  out.pin_hole_wall = nothing_but(pin_bore);
  if (pin_bore) {
    const geometry::Wall held = as_read ? as_read->pin_at : geometry::Wall();
    const double radius = 0.5 * *piston.pin_diameter, pin = *piston.pin_below_crown;
    const Strip bore{0.5 * *engine.pin_axis * *engine.bore,
                     0.5 * geometry::arc_of_chord(*piston.pin_diameter, *engine.bore), pin - radius,
                     pin + radius + *engine.stroke};
    out.pin_at = lesser([&](int end) { return pin_wall(map, bore, end, held); }, out.chosen.pin_end);
    out.pin_hole_wall = met(out.pin_at, held, wants);
    beside_pin(map, bore, {out.pin_at, out.chosen.pin_end}, as_read ? &as_read->pin_rivals : nullptr, out.pin_rivals);
  }
  out.thrust_share =
      apply(engine.pin_axis, engine.stroke, piston.skirt_side, [&](double pin, double stroke, double skirt) {
        out.thrust_at = lesser(
            [&](int side) {
              return geometry::pressed_share(map, pin + (side == 0 ? 0.5 : -0.5) * pi, 0.0, skirt + stroke);
            },
            out.chosen.thrust_side);
        return out.thrust_at.width;
      });
}

void rules_of_thumb(const Engine& engine, double speed, Measures& out) {
  out.venturi = engine.venturi;
  out.carburettor_factor = apply(engine.venturi, engine.swept(), [&](double bore, double displacement) {
    return carburettor_factor(bore, displacement, speed);
  });
  out.intake_pressure =
      apply(out.groups[static_cast<std::size_t>(PortKind::intake)].specific_time_area, mean_pressure_of_intake);
}

}  // namespace

void measure(const Engine& engine, double speed, const Wants& wants, Measures& out, const Measures* as_read) {
  const geometry::WindowMap map = geometry::map_windows(engine);
  out.chosen = as_read ? as_read->chosen : Chosen();
  crank(engine, speed, out);
  measure_ports(engine, speed, wants, as_read, out);
  volumes(engine, wants, out);
  squish(engine, speed, wants, out);
  piston(engine, map, wants, out);
  measure_rings(engine, map, wants, as_read, out);
  walls(engine, map, wants, as_read, out);
  rules_of_thumb(engine, speed, out);
  out.outlet_to_window = engine.muffler_outlets / out.groups[static_cast<std::size_t>(PortKind::exhaust)].area;
}

}  // namespace portwright::study
