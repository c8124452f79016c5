// From the outside through filter, carburettor and tract to the case: under the skirt, or through petals.

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "cycle/builder.hpp"
#include "flow/losses.hpp"
#include "flow/profile.hpp"

namespace portwright::cycle {

using geometry::IntakeKind;
using geometry::PortKind;

namespace {

double circle(double bore) { return 0.25 * std::numbers::pi * bore * bore; }

}  // namespace

void Builder::intake() {
  const geometry::Port* window = nullptr;
  for (const geometry::Port& port : engine_.ports)
    if (port.kind == PortKind::intake && window == nullptr) window = &port;
  const auto window_ready = [&] {
    need(window != nullptr, "port.intake");
    if (window == nullptr) return false;
    need(window->window_known);
    need(window->passed);
    if (!window->window_known || !window->passed) return false;
    if (*window->passed <= 0.0) {
      wrong("the intake never opens: the skirt covers it at TDC", "port.intake",
            "look at its floor, opens and the skirt");
      return false;
    }
    return true;
  };
  switch (engine_.intake) {
    case IntakeKind::unknown:
      need(false, "intake.kind");
      return;
    case IntakeKind::skirt:
      if (window_ready()) tract(net_.crankcase, window_opening(*window, OpenedBy::skirt, take_.intake_discharge));
      return;
    case IntakeKind::reed_into_case: {
      Room cage;
      cage.by = SizedBy::reed_cage;
      cage.size = reed_cage();
      const int before = add_room(cage);
      reed(before, net_.crankcase);
      tract(before, -1);
      return;
    }
    case IntakeKind::reed_behind_window: {
      if (!window_ready()) return;
      Room cage;
      cage.by = SizedBy::reed_cage;
      cage.size = reed_cage();
      const int before = add_room(cage), behind = add_room(cage);
      reed(before, behind);
      net_.gaps.push_back({behind, net_.crankcase, window_opening(*window, OpenedBy::skirt, take_.intake_discharge)});
      tract(before, -1);
      return;
    }
  }
}

/// Gas before the petals: seats in pairs enclose a wedge as deep as the petals are long.
double Builder::reed_cage() {
  const geometry::ReedBlock& r = engine_.breathing.reed;
  const double length = need(r.length), angle = r.block_angle.value_or(take_.reed_angle);
  const double wedge = length * length * std::sin(angle) * std::cos(angle);
  return take_.reed_cage * 0.5 * need(r.petals) * need(r.width) * wedge;
}

/// Petals between two rooms.
void Builder::reed(int cage, int behind) {
  const geometry::ReedBlock& r = engine_.breathing.reed;
  flow::ReedShape shape;
  shape.petals = static_cast<int>(std::lround(need(r.petals)));
  shape.length = need(r.length);
  shape.width = need(r.width);
  shape.thickness = need(r.thickness);
  shape.modulus = or_take(r.modulus, "intake.reed.material", "reed_modulus", take_.reed_modulus);
  shape.density = or_take(r.density, "intake.reed.material", "reed_density", take_.reed_density);
  shape.window_length = or_take(r.window_length, "intake.reed.window.length", "reed_window", 0.80 * shape.length);
  shape.window_width = or_take(r.window_width, "intake.reed.window.width", "reed_window", 0.85 * shape.width);
  shape.stop_lift = or_take(r.stop, "intake.reed.stop", "reed_stop", take_.reed_stop * shape.length);
  shape.block_angle = or_take(r.block_angle, "intake.reed.block_angle", "reed_angle", take_.reed_angle);
  shape.loss_ratio = take_.reed_loss_ratio;
  shape.gap = take_.reed_gap;
  if (!missing_.none()) return;
  net_.has_reed = true;
  net_.reed = flow::make_reed(shape);
  net_.reed_from = cage;
  net_.reed_to = behind;
  Opening o;
  o.by = OpenedBy::reed;
  o.discharge = take_.reed_discharge;
  net_.gaps.push_back({cage, behind, add_opening(std::move(o)), false, true});
}

/// The box behind the filter.
int Builder::air_box() {
  const geometry::Breathing& b = engine_.breathing;
  Room box;
  box.size = or_take(b.air_box_volume, "air_box.volume", "air_box", take_.air_box);
  box.before_fuel = true;
  const int room = add_room(box);
  const double loss = or_take(b.filter_loss, "air_box.filter", "filter_loss", take_.filter_loss);
  // An opening that costs `loss` at 20 l/s: Q = A sqrt(2 dp / rho), at the density of 1.2 kg/m³ at which it is read.
  const double area = 0.020 * std::sqrt(1.2 / (2.0 * std::max(1.0, loss)));
  net_.gaps.push_back({outdoors, room, fixed_opening(area, 1.0)});
  return room;
}

/// Carburettor and tract in one duct. What is drawn in takes up its fuel at the mouth; what is spat back out of it
/// carries its fuel into the box, and takes up only what it lacks when it comes again.
void Builder::tract(int to_room, int opening) {
  const geometry::Breathing& b = engine_.breathing;
  const double venturi = need(engine_.venturi);
  const double throttle = or_take(b.throttle, "carburettor.throttle", "throttle_share", take_.throttle_share * venturi);
  const double bore = or_take(b.tract_bore, "intake.tract.bore", "tract_share", take_.tract_share * venturi);
  const double length = or_take(b.tract_length, "intake.tract.length", "tract_length", take_.tract_length * scale());
  if (!missing_.none()) return;
  if (!(venturi > 0.002)) wrong("the carburettor's venturi has no bore", "carburettor.venturi", "a bore in mm");
  if (!errors_.empty()) return;
  const int box = air_box();
  const double body = take_.carburettor_length * scale(), wide = std::max(throttle, venturi);
  const double front = take_.end_correction * 0.5 * wide;
  double at = 0.0;
  const std::array<flow::Station, 7> stations{{{at, circle(wide)},
                                               {at += front + 0.25 * body, circle(wide)},
                                               {at += 0.20 * body, circle(venturi)},
                                               {at += 0.10 * body, circle(venturi)},
                                               {at += 0.25 * body, circle(wide)},
                                               {at += 0.20 * body, circle(wide)},
                                               {at += length, circle(bore)}}};
  flow::Duct duct;
  duct.grid = grid_of(stations, fineness_.tract * scale(), 1.0, "intake.tract");
  duct.friction = take_.friction_factor;
  duct.heat_share = 1.0;
  duct.wall_temperature = take_.tract_wall;
  duct.losses.push_back({0, flow::loss_mouth(1.0, 1.0, take_.entry_discharge), 0.0, static_cast<int>(Cause::entry)});
  // The losses behind the venturi stand where the bore no longer changes; each counts on the speed in its own bore.
  const int plate = flow::cell_at(duct.grid, front + 0.90 * body);
  const double k_venturi = take_.venturi_loss, k_throttle = take_.throttle_loss;
  duct.losses.push_back({plate, k_venturi, k_venturi, static_cast<int>(Cause::venturi), circle(venturi)});
  duct.losses.push_back({plate, k_throttle, k_throttle, static_cast<int>(Cause::throttle), circle(throttle)});
  // Into a reed block the stream turns round its wedge and bars; back out of it, round the tract's edge as well.
  if (opening < 0)
    duct.losses.push_back({static_cast<int>(duct.grid.volume.size()) - 1, take_.reed_block_loss,
                           take_.reed_block_loss + flow::loss_entrance(0.0), static_cast<int>(Cause::block)});
  const int mouth = fixed_opening(duct.grid.area.front(), 1.0);
  const int end = opening >= 0 ? opening : fixed_opening(duct.grid.area.back(), 1.0);
  add_duct(std::move(duct), {Role::tract, -1, 1}, {box, mouth, true, false}, {to_room, end, false, opening >= 0});
}

}  // namespace portwright::cycle
