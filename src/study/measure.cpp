#include "study/measure.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/skirt_profile.hpp"
#include "geometry/squish.hpp"
#include "geometry/volumes.hpp"
#include "study/measure_ports.hpp"

namespace portwright::study {

using base::apply;
using geometry::Engine;
using geometry::Port;
using geometry::PortKind;
using std::numbers::pi;

namespace {

Known nothing_but(const Known& known) { return known * Known(0.0); }

/// The least or greatest of a level over the ports that `pick` names; what `without` says when there are none.
template <class Pick, class Level, class Better>
Known extreme(const Engine& engine, const base::Needs& without, Pick pick, Level level, Better better) {
  Known best;
  bool any = false;
  for (const Port& port : engine.ports) {
    if (!pick(port.kind)) continue;
    const Known one = level(port);
    best = any ? apply(best, one, [&](double a, double b) { return better(a, b) ? a : b; }) : one;
    any = true;
  }
  return any ? best : Known::waits_for(without);
}

constexpr auto lower = [](double a, double b) { return a > b; };  // y runs down
constexpr auto higher = [](double a, double b) { return a < b; };

Known lowest_floor(const Engine& engine, PortKind kind, const base::Needs& without) {
  return extreme(
      engine, without, [&](PortKind k) { return k == kind; }, [](const Port& p) { return p.floor; }, lower);
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
      engine, wants.exhaust, [](PortKind k) { return k == PortKind::exhaust; }, [](const Port& p) { return p.passed; },
      higher);
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
Known free_port_area(const Engine& engine, const geometry::WindowMap& map, const Wants& wants) {
  const geometry::Piston& piston = engine.piston;
  Known ready = nothing_but(piston.skirt_exhaust) + nothing_but(piston.skirt_side) +
                nothing_but(piston.skirt_exhaust_width) + nothing_but(engine.pin_axis) + nothing_but(engine.bore) +
                nothing_but(lowest_floor(engine, PortKind::exhaust, wants.exhaust));
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
  out.skirt_cover_exhaust = piston.skirt_exhaust - lowest_floor(engine, PortKind::exhaust, wants.exhaust);
  out.skirt_cover_intake = piston.skirt_intake + engine.stroke - lowest_floor(engine, PortKind::intake, wants.intake);
  out.free_port_area = free_port_area(engine, map, wants);
  out.crown_over_floors = extreme(
                              engine, wants.exhaust, crown_opened, [](const Port& p) { return p.floor; }, lower) -
                          engine.stroke;
  out.crown_over_intake_roof = extreme(
                                   engine, wants.intake, intake, [](const Port& p) { return p.roof; }, higher) -
                               engine.stroke;
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

void walls(const Engine& engine, const geometry::WindowMap& map, Measures& out) {
  const geometry::Piston& piston = engine.piston;
  const Known mapped = map.known + nothing_but(engine.ports.empty() ? out.crown_over_floors : Known(0.0));
  out.wall_least = out.pin_hole_wall = out.thrust_share = mapped;
  if (!mapped) {
    out.pin_hole_wall += nothing_but(piston.pin_below_crown) + nothing_but(piston.pin_diameter) +
                         nothing_but(engine.pin_axis) + nothing_but(engine.stroke);
    out.thrust_share += nothing_but(engine.pin_axis) + nothing_but(engine.stroke) + nothing_but(piston.skirt_side);
    return;
  }
  out.wall_least_at = geometry::least_wall(map);
  out.wall_least = out.wall_least_at.width;
  out.pin_hole_wall = apply(piston.pin_below_crown + nothing_but(engine.pin_axis), piston.pin_diameter, engine.stroke,
                            [&](double pin, double diameter, double stroke) {
                              const double half = 0.5 * geometry::arc_of_chord(diameter, *engine.bore),
                                           x = 0.5 * *engine.pin_axis * *engine.bore;
                              const double top = pin - 0.5 * diameter, bottom = pin + 0.5 * diameter + stroke;
                              out.pin_at = geometry::strip_wall(map, x, half, top, bottom);
                              const geometry::Wall other =
                                  geometry::strip_wall(map, x + 0.5 * map.circumference, half, top, bottom);
                              if (other.width < out.pin_at.width) out.pin_at = other;
                              return out.pin_at.width;
                            });
  out.thrust_share =
      apply(engine.pin_axis, engine.stroke, piston.skirt_side, [&](double pin, double stroke, double skirt) {
        out.thrust_at = geometry::pressed_share(map, pin + 0.5 * pi, 0.0, skirt + stroke);
        const geometry::Wall other = geometry::pressed_share(map, pin - 0.5 * pi, 0.0, skirt + stroke);
        if (other.width < out.thrust_at.width) out.thrust_at = other;
        return out.thrust_at.width;
      });
}

}  // namespace

void measure(const Engine& engine, double speed, const Wants& wants, Measures& out) {
  const geometry::WindowMap map = geometry::map_windows(engine);
  crank(engine, speed, out);
  measure_ports(engine, speed, wants, out);
  volumes(engine, wants, out);
  squish(engine, speed, wants, out);
  piston(engine, map, wants, out);
  measure_rings(engine, map, wants, out);
  walls(engine, map, out);
  out.outlet_to_window = engine.muffler_outlets / out.groups[static_cast<std::size_t>(PortKind::exhaust)].area;
}

}  // namespace portwright::study
