#include "plan/levels.hpp"

#include <algorithm>
#include <limits>
#include <numbers>

#include "geometry/edge.hpp"

namespace portwright::plan {

using geometry::OpenedBy;
using geometry::PortKind;

namespace {

constexpr double turn = 2.0 * std::numbers::pi;
constexpr double never = std::numeric_limits<double>::quiet_NaN();

bool joins(PortKind kind, bool exhaust) {
  return exhaust ? kind == PortKind::exhaust : kind == PortKind::transfer || kind == PortKind::boost;
}

template <class F>
Known at_drop(const Frame& frame, const Known& drop, F&& angle) {
  return base::apply(drop + frame.slider_known, [&](double y) {
    return y >= 0.0 && y <= frame.slider->stroke() ? angle(*frame.slider, y) : never;
  });
}

Known opens_at(const Frame& frame, const Known& passed, OpenedBy by) {
  return at_drop(frame, passed, [&](const geometry::CrankSlider& slider, double y) {
    return by == OpenedBy::crown ? slider.angle_down(y) : turn - slider.angle_up(y);
  });
}

Known closes_at(const Frame& frame, const Known& passed, OpenedBy by) {
  return at_drop(frame, passed, [&](const geometry::CrankSlider& slider, double y) {
    return by == OpenedBy::crown ? slider.angle_up(y) : slider.angle_down(y);
  });
}

/// Least passed drop of a kind, as what a reading is missing makes unknown.
Known first_passed(const Frame& frame, const Levels& levels, bool exhaust) {
  Known first;
  bool any = false;
  for (std::size_t i = 0; i < frame.ports; ++i) {
    if (!joins(frame.kinds[i], exhaust)) continue;
    const Known& passed = levels[level::passed + i];
    first = !any ? passed : base::apply(first, passed, [](double a, double b) { return std::min(a, b); });
    any = true;
  }
  return first;
}

Known lowest_floor(const Frame& frame, const Levels& levels, PortKind kind) {
  Known lowest;
  bool any = false;
  for (std::size_t i = 0; i < frame.ports; ++i) {
    if (frame.kinds[i] != kind) continue;
    const Known& floor = levels[level::floor + i];
    lowest = !any ? floor : base::apply(lowest, floor, [](double a, double b) { return std::max(a, b); });
    any = true;
  }
  return lowest;
}

Known bore_area(const Frame& frame) { return frame.bore * frame.bore * Known(0.25 * std::numbers::pi); }

Known ratio(const Frame& frame, const Known& drop, const Known& chamber) {
  return base::apply(bore_area(frame) * drop, chamber,
                     [](double over, double v) { return v > 0.0 ? (over + v) / v : never; });
}

Known blowdown(const Frame& frame, const Levels& levels) {
  return opens_at(frame, first_passed(frame, levels, false), OpenedBy::crown) -
         opens_at(frame, first_passed(frame, levels, true), OpenedBy::crown);
}

Known skirt_cover(const Frame& frame, const Levels& levels, bool of_intake) {
  if (!of_intake) return levels[level::skirt_exhaust] - lowest_floor(frame, levels, PortKind::exhaust);
  return levels[level::skirt_intake] + frame.stroke - lowest_floor(frame, levels, PortKind::intake);
}

}  // namespace

Levels levels_of(const geometry::Engine& engine) {
  Levels out{};
  for (std::size_t i = 0; i < std::min(most_ports, static_cast<std::size_t>(engine.ports.size())); ++i) {
    const geometry::Port& port = engine.ports[i];
    out[level::passed + i] = port.passed;
    out[level::width + i] = port.width;
    out[level::floor + i] = port.floor;
  }
  out[level::squish] = engine.squish;
  out[level::squish_least] = engine.squish_least;
  out[level::chamber] = engine.chamber;
  out[level::skirt_exhaust] = engine.piston.skirt_exhaust;
  out[level::skirt_intake] = engine.piston.skirt_intake;
  out[level::top_land] = engine.piston.rings.empty() ? Known(0.0) : engine.piston.rings[0].below_crown;
  out[level::spigot] = engine.spigot_clearance;
  return out;
}

Frame::Frame(const geometry::Engine& engine)
    : slider(engine.slider), slider_known(engine.slider_known), bore(engine.bore), stroke(engine.stroke) {
  ports = std::min(most_ports, static_cast<std::size_t>(engine.ports.size()));
  for (std::size_t i = 0; i < ports; ++i) kinds[i] = engine.ports[i].kind;
}

int first_of(const Frame& frame, const Levels& levels, bool exhaust) {
  int first = -1;
  for (std::size_t i = 0; i < frame.ports; ++i) {
    if (!joins(frame.kinds[i], exhaust) || !levels[level::passed + i]) continue;
    if (first < 0 || *levels[level::passed + i] < *levels[level::passed + static_cast<std::size_t>(first)])
      first = static_cast<int>(i);
  }
  return first;
}

Known value_of(const Frame& frame, const Levels& levels, Aspect aspect, int entry, bool of_intake) {
  const auto i = static_cast<std::size_t>(std::max(entry, 0));
  const OpenedBy by = geometry::opened_by(frame.kinds[i]);
  const Known& passed = levels[level::passed + i];
  switch (aspect) {
    case Aspect::opens:
      return opens_at(frame, passed, by);
    case Aspect::closes:
      return closes_at(frame, passed, by);
    case Aspect::duration:
      return at_drop(frame, passed, [&](const geometry::CrankSlider& slider, double y) {
        return geometry::duration_at(slider, by, y);
      });
    case Aspect::width:
      return levels[level::width + i];
    case Aspect::width_of_bore:
      return levels[level::width + i] / frame.bore;
    case Aspect::blowdown:
      return blowdown(frame, levels);
    case Aspect::squish:
      return levels[level::squish];
    case Aspect::chamber:
      return levels[level::chamber];
    case Aspect::trapped_ratio:
      return ratio(frame, first_passed(frame, levels, true), levels[level::chamber]);
    case Aspect::full_ratio:
      return ratio(frame, frame.stroke, levels[level::chamber]);
    case Aspect::skirt_cover:
      return skirt_cover(frame, levels, of_intake);
  }
  return {};
}

}  // namespace portwright::plan
