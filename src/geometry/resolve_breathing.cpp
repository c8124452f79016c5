// Numbers to numbers for what a simulation needs beside the geometry.

#include "geometry/resolve_breathing.hpp"

namespace portwright::geometry {

void resolve_breathing(const Survey& survey, std::span<const double> values, Breathing& out) {
  const BreathingSlots& slots = survey.breathing;
  const auto at = [&](const Slot& slot) { return known_of(survey, values, slot); };
  const auto list = [&](const std::vector<Slot>& from, auto& to) {
    to.clear();
    for (const Slot& slot : from)
      if (to.size() < to.capacity)
        to.add(at(slot));
      else
        to[to.size() - 1] += at(slot);
  };
  out.tract_length = at(slots.tract_length);
  out.tract_bore = at(slots.tract_bore);
  out.throttle = at(slots.throttle);
  out.reed = {at(slots.petals),       at(slots.reed_length),  at(slots.reed_width),         at(slots.reed_thickness),
              at(slots.reed_modulus), at(slots.reed_density), at(slots.reed_window_length), at(slots.reed_window_width),
              at(slots.reed_stop),    at(slots.block_angle)};
  out.air_box_volume = at(slots.air_box_volume);
  out.filter_loss = at(slots.filter_loss);
  list(slots.boxes, out.boxes);
  out.boxes_known = slots.boxes.empty() && slots.boxes_need >= 0 ? Known::waits_for(slots.boxes_need) : Known(0.0);
  list(slots.baffles, out.baffles);
  list(survey.outlets, out.outlets);
  out.outlets_known =
      survey.outlets.empty() && survey.outlet_need >= 0 ? Known::waits_for(survey.outlet_need) : Known(0.0);
  out.screen = slots.screen;
  out.screen_known = slots.screen_known;
  out.pipe.clear();
  for (const PairSlots& station : slots.pipe) out.pipe.add({at(station.first), at(station.second)});
  out.advance_curve.clear();
  for (const PairSlots& point : slots.curve) out.advance_curve.add({at(point.first), at(point.second)});
  out.limiter = at(slots.limiter);
  out.air_fuel = at(slots.air_fuel);
  out.octane_scale = slots.octane_scale;
  out.altitude = at(slots.altitude);
  out.temperature = at(slots.temperature);
  out.humidity = at(slots.humidity);
  out.stock_power = at(slots.stock_power);
  out.stock_power_speed = at(slots.stock_power_speed);
  out.gauge_volume = at(slots.gauge_volume);
}

}  // namespace portwright::geometry
