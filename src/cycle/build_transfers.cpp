// Every transfer passage is a duct of its own from the case to its window; equal ones lie side by side in one.

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "cycle/builder.hpp"
#include "flow/losses.hpp"
#include "flow/profile.hpp"
#include "geometry/passage.hpp"

namespace portwright::cycle {

using geometry::PortKind;

namespace {

double radius_of(double area) { return std::sqrt(area / std::numbers::pi); }

int cause(Cause c) { return static_cast<int>(c); }

}  // namespace

void Builder::transfers() {
  bool any = false;
  for (std::size_t i = 0; i < engine_.ports.size(); ++i) {
    const geometry::Port& port = engine_.ports[i];
    if (port.kind != PortKind::transfer && port.kind != PortKind::boost) continue;
    any = true;
    if (!port.window_known) {
      need(port.window_known);
      continue;
    }
    if (port.window.roof() >= net_.stroke) {
      wrong("a transfer never opens: its roof lies under the crown at BDC", "port", "look at its roof and opens");
      continue;
    }
    transfer(port, static_cast<int>(i));
  }
  need(any, "port.transfer");
  net_.rooms[static_cast<std::size_t>(net_.crankcase)].size -= passages_;
  if (net_.rooms[static_cast<std::size_t>(net_.crankcase)].size < 1.05 * net_.swept)
    wrong("the case with its passages leaves no room under the piston", "case.volume",
          "the reading takes in the passages up to the windows");
}

void Builder::transfer(const geometry::Port& port, int entry) {
  const geometry::Passage& p = port.passage;
  const double window = port.window.area();
  const double length = or_take(p.length, "passage.length", "passage_length", take_.passage_length * scale());
  const double foot = or_take(p.foot, "passage.foot", "passage_share", take_.passage_share * window);
  const double bend = or_take(p.bend, "passage.bend", "passage_bend", take_.passage_bend);
  const double inertia = take_.end_correction * radius_of(foot);
  const std::array<flow::Station, 3> stations{{{0.0, foot}, {inertia, foot}, {inertia + length, window}}};
  flow::Duct duct;
  duct.grid = grid_of(stations, fineness_.transfer * scale(), port.count, "passage");
  duct.friction = take_.friction_factor;
  duct.heat_share = 1.0;
  duct.wall_temperature = take_.transfer_wall;
  passage_losses(port, duct, foot, bend, inertia + 0.4 * length);
  for (const double v : duct.grid.volume) passages_ += v;
  const int mouth = fixed_opening(duct.grid.area.front(), 1.0);
  const int into = window_opening(port, OpenedBy::crown, take_.transfer_discharge);
  add_duct(std::move(duct), {Role::transfer, entry, port.count}, {net_.crankcase, mouth}, {net_.cylinder, into});
}

/// What the case leaves open, the gasket's hole and the bend, each with its own K on the foot's speed.
void Builder::passage_losses(const geometry::Port& port, flow::Duct& duct, double foot, double bend,
                             double bend_at) const {
  const geometry::Passage& p = port.passage;
  const int first = 0;
  const double mouth = p.mouth.value_or(foot), gasket = p.gasket.value_or(foot);
  const auto both = [&](int cell, double in, double out, Cause why) {
    duct.losses.push_back({cell, in, out, cause(why), foot * port.count});
  };
  both(first, flow::loss_mouth(foot, std::min(mouth, foot), take_.mouth_discharge),
       flow::loss_mouth(foot, std::min(mouth, foot), 1.0), Cause::mouth);
  both(first, flow::loss_mouth(foot, std::min(gasket, foot), 1.0), flow::loss_mouth(foot, std::min(gasket, foot), 1.0),
       Cause::gasket);
  const double turn = take_.bend_share * geometry::bend_loss(bend);
  both(flow::cell_at(duct.grid, bend_at), turn, turn, Cause::bend);
}

}  // namespace portwright::cycle
