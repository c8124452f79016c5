// What is open at each degree, from when to when, and the sentence of it.
#include <cmath>
#include <numbers>
#include <utility>

#include "desk/page/bore_frame.hpp"
#include "geometry/skirt_profile.hpp"
#include "study/figures.hpp"

namespace portwright::desk {
namespace {

using base::Known;
using geometry::Engine;
using geometry::OpenedBy;
using geometry::PortKind;
using std::numbers::pi;

constexpr double mm2_per_m2 = 1e6, deg_per_rad = 180.0 / pi;
constexpr int degrees = 360;

bool belongs(const Engine& engine, std::size_t entry, std::size_t lead) {
  return entry == lead || engine.ports[entry].twin_of == static_cast<int>(lead);
}

/// Whether the areas of a port can be told: crank, every window of it, and the skirt where it opens them.
bool has_areas(const Engine& engine, std::size_t lead) {
  if (!engine.slider) return false;
  for (std::size_t i = 0; i < engine.ports.size(); ++i) {
    if (!belongs(engine, i, lead)) continue;
    const geometry::Port& port = engine.ports[i];
    const bool by_skirt = geometry::opened_by(port.kind) == OpenedBy::skirt;
    if (!port.window_known || port.window.empty() || (by_skirt && !geometry::skirt_at(engine, port.kind))) return false;
  }
  return true;
}

double open_at(const Engine& engine, std::size_t lead, double angle) {
  double area = 0.0;
  for (std::size_t i = 0; i < engine.ports.size(); ++i) {
    if (!belongs(engine, i, lead)) continue;
    const geometry::Port& port = engine.ports[i];
    const OpenedBy by = geometry::opened_by(port.kind);
    const double skirt = by == OpenedBy::skirt ? *geometry::skirt_at(engine, port.kind) : 0.0;
    area += port.count * geometry::open_area(*engine.slider, port.window, by, skirt, angle);
  }
  return area;
}

double shortened(double mm2) {
  constexpr double parts = 1e9;  // beyond any use, and half as long to send
  return std::round(mm2 * parts) / parts;
}

std::optional<wire::BoreEvent> port_event(const BoreFrame& frame, std::size_t entry) {
  const auto open = open_turn(frame.engine, entry);
  if (!open || open->duration <= 0.0) return std::nullopt;
  const geometry::Port& port = frame.engine.ports[entry];
  wire::BoreEvent out;
  out.port = frame.survey.ports[entry].name;
  out.id = out.port + (port.twin_of >= 0 ? ".twin" : "");
  out.kind = study::kind_name(port.kind);
  out.label = frame.name(entry);
  out.opens_deg = open->opens;
  out.closes_deg = open->closes;
  out.duration_deg = open->duration;
  const std::string lasts = frame.angle(entry, Of::duration), opens = frame.angle(entry, Of::opens),
                    closes = frame.angle(entry, Of::closes);
  out.short_text = out.label + " open " + lasts;
  const bool by_crown = geometry::opened_by(port.kind) == OpenedBy::crown;
  out.text = out.label + " opens " + opens + (by_crown ? " after TDC, shuts " : " before TDC, shuts ") + closes +
             (by_crown ? "" : " after it") + ", open for " + lasts;
  return out;
}

/// Entry that opens first among kinds; none when none opens.
template <class IsKind>
std::optional<std::size_t> first_open(const Engine& engine, IsKind is_kind) {
  std::optional<std::size_t> first;
  for (std::size_t i = 0; i < engine.ports.size(); ++i) {
    const Known opens = geometry::timing(engine, engine.ports[i]).opens;
    if (!is_kind(engine.ports[i].kind) || !opens) continue;
    if (!first || *opens < *geometry::timing(engine, engine.ports[*first]).opens) first = i;
  }
  return first;
}

std::optional<wire::BoreEvent> blowdown(const BoreFrame& frame) {
  const Engine& engine = frame.engine;
  const auto exhaust = first_open(engine, [](PortKind k) { return k == PortKind::exhaust; });
  const auto transfer = first_open(engine, [](PortKind k) { return k == PortKind::transfer || k == PortKind::boost; });
  if (!exhaust || !transfer) return std::nullopt;
  const double from = open_turn(engine, *exhaust)->opens, to = open_turn(engine, *transfer)->opens;
  base::Spread turn{to - from, {}, {}};
  const auto range = study::range_of(
      study::difference(frame.ranges.column(*exhaust, Of::opens), frame.ranges.column(*transfer, Of::opens)));
  if (range) {
    turn.low = std::min(range->low * deg_per_rad, turn.value);
    turn.high = std::max(range->high * deg_per_rad, turn.value);
  }
  const std::string text = angle_text(turn, frame.style);
  wire::BoreEvent out{"blowdown", "", "blowdown", "blowdown", from, to, to - from, "blowdown " + text, ""};
  out.text = turn.value > 0.0 ? "the exhaust opens " + text + " before the " + frame.name(*transfer)
                              : "the exhaust does not open before the " + frame.name(*transfer);
  return out;
}

/// Crown edge's drop at which the skirt has covered a port wholly [m].
double covered_at(const Engine& engine, std::size_t entry) {
  double open = 0.0, shut = *engine.stroke;
  constexpr int halvings = 50;
  for (int k = 0; k < halvings; ++k) {
    const double middle = 0.5 * (open + shut);
    (area_under_skirt(engine, entry, middle).value_or(0.0) > 0.0 ? open : shut) = middle;
  }
  return shut;
}

std::optional<wire::BoreEvent> free_port(const BoreFrame& frame, std::size_t entry) {
  const Engine& engine = frame.engine;
  if (engine.ports[entry].kind != PortKind::exhaust || !engine.slider) return std::nullopt;
  const double area = area_under_skirt(engine, entry, 0.0).value_or(0.0);
  if (!(area > 0.0)) return std::nullopt;
  const double drop = covered_at(engine, entry);
  const double before = 360.0 - engine.slider->angle_up(drop) * deg_per_rad,
               after = engine.slider->angle_down(drop) * deg_per_rad;
  const std::string port = frame.survey.ports[entry].name, lasts = angle_text({before + after, {}, {}}, frame.style);
  wire::BoreEvent out{port + ".free_port",
                      port,
                      "free_port",
                      frame.name(entry) + " under the skirt",
                      360.0 - before,
                      after,
                      before + after,
                      "open to the case " + lasts,
                      ""};
  out.text = "at TDC the skirt leaves the " + frame.name(entry) + " open to the case by " +
             base::value_text({area * mm2_per_m2, {}, {}}, "mm2", frame.style) + ", for " + lasts + " of the turn";
  return out;
}

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

const wire::BoreEvent* find(const std::vector<wire::BoreEvent>& events, const std::string& id) {
  for (const wire::BoreEvent& event : events)
    if (event.id == id) return &event;
  return nullptr;
}

/// "Exhaust opens 1.9° sooner than stock"; empty where it does not move.
std::string moved_text(const wire::BoreEvent& event, const wire::BoreEvent& stock) {
  const double later = event.opens_deg - stock.opens_deg;
  constexpr double told = 0.05;
  if (event.kind == "blowdown") {
    const double longer = event.duration_deg - stock.duration_deg;
    if (std::abs(longer) < told) return {};
    return "blowdown is " + base::number_text(std::abs(longer), 1) + "\u00B0 " + (longer > 0 ? "longer" : "shorter");
  }
  if (std::abs(later) < told) return {};
  return "the " + event.label + " opens " + base::number_text(std::abs(later), 1) + "\u00B0 " +
         (later < 0 ? "sooner" : "later");
}

std::string listed(const std::vector<std::string>& parts) {
  std::string out;
  for (std::size_t i = 0; i < parts.size(); ++i)
    out += (i == 0 ? "" : i + 1 == parts.size() ? " and " : ", ") + parts[i];
  return out;
}

}  // namespace

std::optional<double> area_under_skirt(const Engine& engine, std::size_t entry, double drop) {
  const geometry::Piston& piston = engine.piston;
  const Known all =
      piston.skirt_exhaust + piston.skirt_side + piston.skirt_exhaust_width + engine.pin_axis + engine.bore;
  if (!all) return std::nullopt;
  const geometry::SkirtProfile profile(
      {*piston.skirt_exhaust, *piston.skirt_side, piston.skirt_intake.value_or(*piston.skirt_exhaust),
       *piston.skirt_exhaust_width, *engine.pin_axis},
      *engine.bore);
  double area = 0.0;
  for (const geometry::PlacedWindow& placed : geometry::map_windows(engine).windows)
    if (placed.entry == static_cast<int>(entry))
      area += geometry::area_below_skirt(*placed.window, placed.x, profile, drop);
  return area;
}

std::vector<wire::BoreArea> bore_areas(const BoreFrame& frame) {
  std::vector<wire::BoreArea> out;
  const Engine& engine = frame.engine;
  for (std::size_t lead = 0; lead < engine.ports.size(); ++lead) {
    if (engine.ports[lead].twin_of >= 0 || !has_areas(engine, lead)) continue;
    wire::BoreArea one;
    one.port = frame.survey.ports[lead].name;
    one.label = frame.name(lead);
    one.kind = study::kind_name(engine.ports[lead].kind);
    one.rank = rank_of(engine, lead);
    one.windows = 0;
    for (std::size_t i = 0; i < engine.ports.size(); ++i)
      if (belongs(engine, i, lead)) one.windows += engine.ports[i].count;
    for (int deg = 0; deg <= degrees; ++deg)
      one.mm2.push_back(shortened(open_at(engine, lead, deg / deg_per_rad) * mm2_per_m2));
    out.push_back(std::move(one));
  }
  return out;
}

std::vector<wire::BoreEvent> bore_events(const BoreFrame& frame) {
  std::vector<wire::BoreEvent> out;
  const auto add = [&](std::optional<wire::BoreEvent> event) {
    if (event) out.push_back(*std::move(event));
  };
  for (std::size_t i = 0; i < frame.engine.ports.size(); ++i) add(port_event(frame, i));
  add(blowdown(frame));
  for (std::size_t i = 0; i < frame.engine.ports.size(); ++i) add(free_port(frame, i));
  return out;
}

std::string bore_sentence(const std::vector<wire::BoreEvent>& events, const std::vector<wire::BoreEvent>* stock) {
  if (stock != nullptr) {
    std::vector<std::string> moved;
    bool transfers_told = false;  // the first of them speaks for all
    for (const wire::BoreEvent& event : events) {
      const bool transfer = event.kind == "transfer" || event.kind == "boost";
      const wire::BoreEvent* before = find(*stock, event.id);
      if (before == nullptr || event.kind == "free_port" || (transfer && std::exchange(transfers_told, true))) continue;
      if (std::string text = moved_text(event, *before); !text.empty()) moved.push_back(std::move(text));
    }
    std::string out =
        moved.empty() ? "Against stock nothing opens sooner or later." : "Against stock " + listed(moved) + '.';
    for (const wire::BoreEvent& event : events)
      if (event.kind == "free_port" && find(*stock, event.id) == nullptr) out += ' ' + capital(event.text) + '.';
    return out;
  }
  std::string out;
  for (const wire::BoreEvent& event : events)
    if (event.kind == "exhaust" || event.kind == "intake" || event.kind == "blowdown" || event.kind == "free_port")
      out += (out.empty() ? "" : " ") + capital(event.text) + '.';
  return out.empty() ? "When anything opens waits for readings." : out;
}

}  // namespace portwright::desk
