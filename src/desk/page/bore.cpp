#include <cmath>
#include <memory>
#include <numbers>

#include "desk/page/bore_frame.hpp"
#include "desk/page/opened.hpp"
#include "desk/shown.hpp"

namespace portwright::desk {
namespace {

using base::Known;
using geometry::Engine;
using std::numbers::pi;

constexpr double mm_per_m = 1e3, deg_per_rad = 180.0 / pi;

std::optional<double> mm(const Known& value) { return value ? std::optional(mm_per_m * *value) : std::nullopt; }

std::vector<Engine> engines_of(const Case& opened) {
  std::vector<Engine> out = {geometry::resolve(opened.survey)};
  for (std::size_t count = 1; count <= opened.cut_list.size(); ++count) {
    out.push_back(out.front());
    cuts::apply(*opened.prepared, out.back(), count);
  }
  return out;
}

sheet::BoreView view_of(const Engine& engine, const Engine* stock) {
  sheet::BoreView view;
  view.bore = engine.bore.value_or(0.0);
  view.width = mm_per_m * pi * view.bore;
  if (engine.bore) view.seam = sheet::seam_of(engine, stock);
  return view;
}

void add_frame(const BoreFrame& frame, wire::BoreAnswer& out) {
  const Engine& engine = frame.engine;
  out.bore_mm = mm(engine.bore);
  out.stroke_mm = mm(engine.stroke);
  if (engine.bore) {
    out.around_mm = frame.view.width;
    out.seam_deg = frame.view.seam * deg_per_rad;
  }
  out.head_mm = mm(-engine.squish);
  out.base_mm = mm(engine.crown_at_tdc);
  out.bdc_mm = mm(engine.stroke);
  if (!engine.slider) return;
  out.bdc_deg = engine.slider->bdc() * deg_per_rad;
  out.drop_mm.emplace();
  constexpr int degrees = 360;
  for (int deg = 0; deg <= degrees; ++deg) {
    constexpr double parts = 1e9;
    out.drop_mm->push_back(std::round(mm_per_m * engine.slider->drop(deg / deg_per_rad) * parts) / parts);
  }
}

void add_wall(const BoreFrame& frame, wire::BoreAnswer& out) {
  const geometry::WindowMap map = geometry::map_windows(frame.engine);
  const geometry::Wall wall = geometry::least_wall(map);
  if (wall.entry < 0 || wall.other < 0) return;
  const auto find = [&](int entry, int side) {
    return std::find_if(map.windows.begin(), map.windows.end(),
                        [&](const auto& w) { return w.entry == entry && w.side == side; });
  };
  const auto left = find(wall.entry, wall.side), right = find(wall.other, wall.other_side);
  const auto own = left->window->extent(wall.y, wall.y);
  const double middle = frame.view.x(2 * pi * left->x / map.circumference);
  const auto id = [&](const geometry::PlacedWindow& w) {
    return frame.survey.ports[static_cast<std::size_t>(w.entry)].name + (w.side == 1 ? ".1" : "");
  };
  const double from = middle + frame.view.along(left->mirrored ? -own.left : own.right);
  out.wall = wire::BoreWall{id(*left),
                            id(*right),
                            from,
                            from + frame.view.along(wall.width),
                            mm_per_m * (wall.y + frame.down),
                            value_of({mm_per_m * wall.width, {}, {}}, "mm", frame.style)};
}

/// What is not drawn, each with the readings it waits for.
void add_waits(const BoreFrame& frame, wire::BoreAnswer& out) {
  const Engine& engine = frame.engine;
  const auto wait = [&](const char* what, const std::string& port, std::string text, const Known& known) {
    if (!known) out.waits.push_back({what, port, std::move(text), need_paths(frame.survey, known.needs())});
  };
  wait("bore", "", "The wall cannot be unrolled without its bore.", engine.bore);
  wait("piston", "", "The piston's place over the turn waits for readings.", engine.slider_known);
  wait("base", "", "Heights above the base face wait for readings.", engine.crown_at_tdc);
  for (std::size_t i = 0; i < engine.ports.size(); ++i) {
    const geometry::Port& port = engine.ports[i];
    const std::string name = frame.survey.ports[i].name;
    const Known all = port.centre + port.window_known;
    wait("window", name, "The " + frame.name(i) + " window waits for readings.", all);
    if (all && port.window.empty())
      out.waits.push_back({"window", name, "The " + frame.name(i) + " window has a shape that cannot be.", {}});
    if (all && geometry::opened_by(port.kind) == geometry::OpenedBy::skirt)
      wait("areas", name, "How far the " + frame.name(i) + " opens waits for readings.",
           geometry::skirt_at(engine, port.kind));
  }
}

void add_stock(const BoreFrame& now, const sheet::Plan& plan, const BoreRanges& ranges, wire::BoreAnswer& out) {
  wire::BoreStock& stock = out.stock.emplace();
  const double shift = plan.cylinder_shift();
  BoreFrame held{now.survey, plan.stock(), ranges.held, now.view, shift, now.style};
  const BoreFrame first{now.survey, plan.after.front(), ranges.first, now.view, 0.0, now.style};
  stock.shift_mm = mm_per_m * shift;
  if (plan.stock().bore && now.engine.bore) stock.windows = bore_windows(held, nullptr);
  stock.areas = bore_areas(first);
  stock.events = bore_events(first);
}

}  // namespace

base::ResultAll<wire::BoreAnswer> bore(const Opened& saw, const WhatIf& what_if) {
  auto opened = saw.with(what_if.cuts);
  if (!opened) return tl::unexpected(opened.error());
  const std::vector<Engine> after = engines_of(*opened);
  const auto plan = sheet::plan_of(after, opened->cut_list);
  if (!plan) return tl::unexpected(base::Errors{plan.error()});
  const BoreRanges ranges = bore_ranges(*opened, plan->stock_index());
  const bool has_cuts = plan->has_cuts();
  const BoreFrame frame{
      opened->survey, plan->last(), ranges.last, view_of(plan->last(), has_cuts ? &plan->stock() : nullptr), 0.0,
      what_if.style};
  wire::BoreAnswer out;
  out.head = std::move(opened->head);
  add_frame(frame, out);
  add_waits(frame, out);
  if (frame.engine.bore) {
    out.piston = bore_piston(frame, out.waits);
    out.windows = bore_windows(frame, has_cuts ? &*plan : nullptr);
    add_wall(frame, out);
  }
  out.areas = bore_areas(frame);
  out.events = bore_events(frame);
  if (has_cuts) add_stock(frame, *plan, ranges, out);
  out.sentence = bore_sentence(out.events, out.stock ? &out.stock->events : nullptr);
  return out;
}

base::ResultAll<wire::BoreAnswer> bore(const BoreRequest& request) {
  const auto saw = open_saw(request.file, request.book);
  if (!saw) return tl::unexpected(saw.error());
  return bore(**saw, request.what_if);
}

}  // namespace portwright::desk
