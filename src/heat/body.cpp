#include "heat/body.hpp"

#include <algorithm>

#include "geometry/walls.hpp"

namespace portwright::heat {

namespace {

// Usual sizes, of bore or stroke. @source{memory}
constexpr double ring_below = 0.06, ring_height = 0.03, skirt_length = 0.95, mass_of_bore3 = 900.0;

double lowest_floor(const geometry::Engine& engine) {
  double out = *engine.stroke;
  for (const geometry::Port& port : engine.ports)
    if (port.window_known && !port.window.empty()) out = std::max(out, port.window.floor());
  return out;
}

void note_exhaust(const geometry::Engine& engine, Body& out) {
  for (const geometry::PlacedWindow& placed : geometry::map_windows(engine).windows) {
    const geometry::Port& port = engine.ports[static_cast<std::size_t>(placed.entry)];
    if (port.kind != geometry::PortKind::exhaust || out.exhaust_half > 0.0) continue;
    const auto extent = placed.window->extent();
    out.exhaust_roof = placed.window->roof();
    out.exhaust_floor = placed.window->floor();
    out.exhaust_half = 0.5 * (extent.right - extent.left) / out.shell.radius;
    out.bridged = placed.bridge > 0.0;
    out.bridge_angle = (placed.x + placed.bridge_x) / out.shell.radius;
  }
}

}  // namespace

Body body_of(const geometry::Engine& engine, int around, int rows) {
  Body out;
  out.bore = *engine.bore;
  out.stroke = *engine.stroke;
  out.swept = *engine.swept();
  const auto or_usual = [&](const base::Known& reading, const char* path, double usual) {
    if (reading) return *reading;
    out.stood_in.emplace_back(path);
    return usual;
  };
  const double floor = lowest_floor(engine);
  const double base = or_usual(engine.crown_at_tdc, "cylinder.crown_at_tdc", floor + 0.15 * out.stroke);
  out.shell = plain_shell(0.5 * out.bore, std::max(base, floor + 0.05 * out.stroke), around, rows);
  cut_windows(out.shell, engine);
  for (const geometry::Port& port : engine.ports) out.exhaust.push_back(port.kind == geometry::PortKind::exhaust);
  for (const geometry::Ring& ring : engine.piston.rings)
    if (ring.below_crown && ring.height) out.rings.push_back({*ring.below_crown, *ring.height});
  if (out.rings.empty()) {
    out.stood_in.emplace_back("piston.ring");
    out.rings.push_back({ring_below * out.bore, ring_height * out.bore});
  }
  for (const RingSize& ring : out.rings) out.skirt_begins = std::max(out.skirt_begins, ring.below_crown + ring.height);
  out.skirt = or_usual(engine.piston.skirt_side, "piston.skirt_side", skirt_length * out.stroke);
  out.skirt = std::max(out.skirt, out.skirt_begins + 0.1 * out.stroke);
  const double usual_mass = mass_of_bore3 * out.bore * out.bore * out.bore;
  out.piston_mass = or_usual(engine.piston.mass, "piston.mass", usual_mass);
  note_exhaust(engine, out);
  return out;
}

}  // namespace portwright::heat
