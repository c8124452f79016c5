// The strip's windows: as they are now, where to stop, and as wanted, in one view.
#include <algorithm>
#include <cmath>

#include "sheet/template_page.hpp"

namespace portwright::sheet {
namespace {

const Placed* same_window(const std::vector<Placed>& list, const Placed& w) {
  const auto it =
      std::find_if(list.begin(), list.end(), [&](const Placed& p) { return p.entry == w.entry && p.side == w.side; });
  return it != list.end() ? &*it : nullptr;
}

/// The engine with every changed window short of its size.
geometry::Engine stopped(const Plan& plan) {
  geometry::Engine engine = plan.last();
  const geometry::Engine& stock = plan.stock();
  for (std::size_t i = 0; i < engine.ports.size() && i < stock.ports.size(); ++i) {
    geometry::Port& p = engine.ports[i];
    const geometry::Port& s = stock.ports[i];
    if (p.traced || !is_changed(s, p, plan.cylinder_shift())) continue;
    const auto creep = [](const geometry::Known& from, geometry::Known& to, double sides) {
      const geometry::Known d = to - from;
      if (d && std::abs(*d) > 1e-7) to = *to - std::copysign(sides * short_of(*d / sides), *d);
    };
    const geometry::Known shift = plan.cylinder_shift();
    creep(s.roof + shift, p.roof, 1.0);
    creep(s.floor + shift, p.floor, 1.0);
    creep(s.width, p.width, 2.0);
    geometry::rebuild_window(p, engine.bore);
  }
  return engine;
}

}  // namespace

BoreView TemplateJob::view(double left, double base) const {
  BoreView v;
  v.left = left;
  v.width = strip.length;
  v.bore = *engine().bore;
  v.top = base - 1000 * *engine().crown_at_tdc;
  v.seam = seam_of(engine(), plan.has_cuts() ? &plan.stock() : nullptr);
  return v;
}

std::vector<StripWindow> TemplateJob::windows(const BoreView& view) const {
  BoreView stock_view = view;
  stock_view.top += 1000 * plan.cylinder_shift();
  const auto wanted = placed_windows(engine(), view);
  const geometry::Engine stop_engine = stopped(plan);
  const auto stop = placed_windows(stop_engine, view);
  const auto now = plan.stock().bore ? placed_windows(plan.stock(), stock_view) : std::vector<Placed>{};
  const double base = view.top + 1000 * *engine().crown_at_tdc;
  std::vector<StripWindow> out;
  for (const Placed& w : wanted) {
    StripWindow one;
    one.wanted = w;
    one.roof = base - w.box.top;
    one.floor = base - w.box.bottom;
    one.chord = one.now_chord = 1000 * w.port->width.value_or(0.0);
    const auto i = static_cast<std::size_t>(w.entry);
    const bool changed = plan.has_cuts() && i < plan.stock().ports.size() &&
                         is_changed(plan.stock().ports[i], engine().ports[i], plan.cylinder_shift());
    if (const Placed* n = changed ? same_window(now, w) : nullptr) {
      one.now = *n;
      one.now_chord = 1000 * plan.stock().ports[i].width.value_or(0.0);
      one.now_roof = base - n->box.top;
      one.now_floor = base - n->box.bottom;
      one.cut = plan.first_cut_on(i);
      if (const Placed* s = w.port->traced ? nullptr : same_window(stop, w)) one.stop = *s;
    }
    out.push_back(std::move(one));
  }
  for (StripWindow& w : out) {
    w.wanted.port = &engine().ports[static_cast<std::size_t>(w.wanted.entry)];
    if (w.stop) w.stop->port = w.wanted.port;
  }
  return out;
}

}  // namespace portwright::sheet
