// What no engine can have, in words: shapes that close nowhere, windows that lie over each other.

#include <numbers>

#include "base/number_text.hpp"
#include "geometry/skirt_profile.hpp"
#include "geometry/survey.hpp"

namespace portwright::geometry {

using base::number_text;

namespace {

const char* fault_words(ShapeFault fault) {
  switch (fault) {
    case ShapeFault::none:
      return "";
    case ShapeFault::floor_above_roof:
      return "its floor is not below its roof";
    case ShapeFault::no_width:
      return "it has no width";
    case ShapeFault::wider_than_bore:
      return "its chord is wider than the bore";
    case ShapeFault::corners_too_large:
      return "its corners do not fit into its width and height";
    case ShapeFault::arch_too_high:
      return "its arched roof is higher than the window";
    case ShapeFault::bridge_too_wide:
      return "its bridge leaves no window";
  }
  return "";
}

const char* fault_field(ShapeFault fault) {
  switch (fault) {
    case ShapeFault::corners_too_large:
      return "corner_roof";
    case ShapeFault::arch_too_high:
      return "roof_arch";
    case ShapeFault::bridge_too_wide:
      return "bridge";
    case ShapeFault::floor_above_roof:
      return "floor";
    default:
      return "width";
  }
}

std::string port_path(const PortSlots& slots) { return "port." + slots.name + (slots.twin_of >= 0 ? ".twin" : ""); }

/// An air window may open into a transfer's.
bool may_share(PortKind a, PortKind b) {
  return (a == PortKind::air && b == PortKind::transfer) || (a == PortKind::transfer && b == PortKind::air);
}

struct Placed {
  std::size_t entry = 0;
  double x = 0.0;
};

void shapes(const Survey& survey, const Engine& engine, base::Errors& errors) {
  for (std::size_t i = 0; i < engine.ports.size(); ++i) {
    Port port = engine.ports[i];
    if (port.traced) continue;
    const ShapeFault fault = rebuild_window(port, engine.bore, Corners::as_read);
    if (fault == ShapeFault::none) continue;
    errors.push_back({base::ErrorCode::impossible,
                      "the " + survey.ports[i].name + " window cannot be drawn: " + fault_words(fault),
                      port_path(survey.ports[i]) + "." + fault_field(fault),
                      "read its sizes again",
                      {}});
  }
}

void overlaps(const Survey& survey, const Engine& engine, base::Errors& errors) {
  if (!engine.bore.known()) return;
  const double radius = 0.5 * *engine.bore;
  std::vector<Placed> placed;
  for (std::size_t i = 0; i < engine.ports.size(); ++i) {
    const Port& port = engine.ports[i];
    if (port.window.empty() || !port.centre.known()) continue;
    if (port.twin_of < 0) placed.push_back({i, *port.centre * radius});
    if (port.count > 1 || port.twin_of >= 0) placed.push_back({i, -*port.centre * radius});
  }
  for (std::size_t i = 0; i < placed.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) {
      const Placed &a = placed[j], &b = placed[i];
      if (may_share(engine.ports[a.entry].kind, engine.ports[b.entry].kind)) continue;
      const double common = overlap_area(engine.ports[a.entry].window, a.x, engine.ports[b.entry].window, b.x,
                                         2.0 * std::numbers::pi * radius);
      if (common < 1e-8) continue;
      const std::string& first = survey.ports[a.entry].name;
      const std::string& second = survey.ports[b.entry].name;
      const std::string who =
          first == second ? "the two windows of " + first : "the windows of " + first + " and " + second;
      errors.push_back({base::ErrorCode::impossible,
                        who + " lie over each other by " + number_text(common * 1e6, 1) + " mm2",
                        port_path(survey.ports[b.entry]) + ".centre",
                        "read the centres and widths again",
                        {port_path(survey.ports[a.entry]) + ".centre", port_path(survey.ports[b.entry]) + ".centre"}});
    }
}

}  // namespace

base::Errors impossibilities(const Survey& survey, const Engine& engine) {
  base::Errors errors;
  shapes(survey, engine, errors);
  overlaps(survey, engine, errors);
  return errors;
}

}  // namespace portwright::geometry
