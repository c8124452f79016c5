#include "geometry/engine.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace portwright::geometry {

namespace {

constexpr double turn = 2.0 * std::numbers::pi;

/// 0 when all are known, else what they wait for.
template <class... K>
Known nothing_but(const K&... known) {
  return (... + (known * Known(0.0)));
}

/// Slope as the window takes it, + toward +x; the place round the bore counts only where there is a slope.
Known slope_along_x(const Port& port) {
  if (port.roof_slope && *port.roof_slope == 0.0) return 0.0;
  return base::apply(port.roof_slope, port.centre, [](double slope, double centre) {
    const bool clockwise = centre > 0.0 && centre < std::numbers::pi;
    return clockwise ? -slope : slope;
  });
}

/// The levels a shift moves, besides `passed`.
void move_levels(Port& port, const Known& dy) {
  port.roof += dy;
  port.floor += dy;
  port.passage.lower_roof += dy;
  port.passage.lower_floor += dy;
}

Timing crown_timing(const CrankSlider& crank, const Known& passed) {
  Timing timing;
  timing.opens = base::apply(passed, [&](double drop) { return crank.angle_down(drop); });
  timing.closes = base::apply(passed, [&](double drop) { return crank.angle_up(drop); });
  timing.duration = timing.closes - timing.opens;
  return timing;
}

Timing skirt_timing(const CrankSlider& crank, const Known& passed) {
  Timing timing;
  timing.opens = base::apply(passed, [&](double drop) { return turn - crank.angle_up(drop); });
  timing.closes = base::apply(passed, [&](double drop) { return crank.angle_down(drop); });
  timing.duration = timing.opens + timing.closes;
  return timing;
}

}  // namespace

Known Engine::bore_area() const { return bore * bore * Known(0.25 * std::numbers::pi); }

Known Engine::swept() const { return bore_area() * stroke; }

namespace {

/// The largest corners that the width (half of it, less half a bridge) and the height leave.
void draw_corners_in(WindowShape& shape, double bore) {
  const double arc = bore * std::asin(std::clamp(shape.width / bore, 0.0, 1.0));
  const double most =
      0.5 * std::max(0.0, shape.bridge > 0.0 ? 0.5 * (arc - shape.bridge) - std::abs(shape.bridge_at) : arc);
  shape.corner_roof = std::clamp(shape.corner_roof, 0.0, most);
  shape.corner_floor = std::clamp(shape.corner_floor, 0.0, most);
  const double height = shape.floor - shape.roof - std::max(0.0, shape.roof_arch);
  const double corners = shape.corner_roof + shape.corner_floor;
  if (corners <= height || corners <= 0.0) return;
  const double fit = std::max(0.0, height) / corners;
  shape.corner_roof *= fit;
  shape.corner_floor *= fit;
}

}  // namespace

ShapeFault rebuild_window(Port& port, const Known& bore, Corners corners) {
  const Known slope = slope_along_x(port);
  port.window = Window();
  port.window_known = nothing_but(port.roof, port.floor, port.width, port.corner_roof, port.corner_floor,
                                  port.roof_arch, slope, port.bridge, bore);
  if (port.bridge && *port.bridge != 0.0) port.window_known += nothing_but(port.bridge_at);
  if (!port.window_known) return ShapeFault::none;
  WindowShape shape;
  shape.roof = *port.roof;
  shape.floor = *port.floor;
  shape.width = *port.width;
  shape.corner_roof = *port.corner_roof;
  shape.corner_floor = *port.corner_floor;
  shape.roof_slope = *slope;
  shape.roof_arch = *port.roof_arch;
  shape.bridge = *port.bridge;
  shape.bridge_at = port.bridge_at.value_or(0.0);
  if (corners == Corners::drawn_in) draw_corners_in(shape, *bore);
  ShapeFault fault = ShapeFault::none;
  port.window = Window::from_shape(shape, *bore, &fault);
  return fault;
}

void rebuild_slider(Engine& engine) {
  engine.slider.reset();
  engine.slider_known = nothing_but(engine.stroke, engine.rod, engine.pin_offset);
  if (!engine.slider_known) return;
  const double stroke = std::max(*engine.stroke, 1e-3);
  const double offset = std::clamp(*engine.pin_offset, -0.25 * stroke, 0.25 * stroke);
  const double rod = std::max(*engine.rod, 1.01 * (0.5 * stroke + std::abs(offset)));
  engine.slider.emplace(stroke, rod, offset);
}

void shift(Port& port, const Known& dy) {
  if (dy && *dy == 0.0) return;
  move_levels(port, dy);
  shift_timing(port, dy);
  if (!dy) {
    port.window = Window();
    port.window_known += nothing_but(dy);
  } else if (!port.window.empty()) {
    port.window = port.window.moved_down(*dy);
  }
}

void shift_timing(Port& port, const Known& dy) {
  if (dy && *dy == 0.0) return;
  port.passed += dy;
  port.read_holds = false;
}

Known skirt_at(const Engine& engine, PortKind kind) {
  if (kind == PortKind::air) return engine.piston.pocket_roof;
  if (kind == PortKind::intake) return engine.piston.skirt_intake;
  return kind == PortKind::exhaust ? engine.piston.skirt_exhaust : engine.piston.skirt_side;
}

Timing timing(const Engine& engine, const Port& port) {
  if (engine.slider && port.passed)
    return opened_by(port.kind) == OpenedBy::crown ? crown_timing(*engine.slider, port.passed)
                                                   : skirt_timing(*engine.slider, port.passed);
  if (port.read_holds) return port.read;
  const Known waiting = nothing_but(port.passed, engine.slider_known);
  return {waiting, waiting, waiting};
}

Known timed_edge(const Port& port) { return opened_by(port.kind) == OpenedBy::crown ? port.roof : port.floor; }

}  // namespace portwright::geometry
