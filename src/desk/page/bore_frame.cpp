#include "desk/page/bore_frame.hpp"

#include <charconv>
#include <cmath>
#include <numbers>

#include "desk/shown.hpp"

namespace portwright::desk {
namespace {

using base::Known;
using geometry::Engine;
using geometry::OpenedBy;
using geometry::PortKind;

constexpr double deg_per_rad = 180.0 / std::numbers::pi;
constexpr double mm_per_m = 1e3;
constexpr int sample_count = 512;

bool is_lead(const Engine& engine, std::size_t entry) { return engine.ports[entry].twin_of < 0; }

}  // namespace

Known view_of(const Engine& engine, std::size_t entry, Of what) {
  const geometry::Port& port = engine.ports[entry];
  switch (what) {
    case Of::roof:
      return port.roof;
    case Of::floor:
      return port.floor;
    case Of::roof_height:
      return engine.height(port.roof);
    case Of::floor_height:
      return engine.height(port.floor);
    case Of::width:
      return port.width;
    case Of::opens:
      return geometry::timing(engine, port).opens;
    case Of::closes:
      return geometry::timing(engine, port).closes;
    case Of::duration:
      break;
  }
  return geometry::timing(engine, port).duration;
}

void PortRanges::put(const Engine& engine, std::size_t sample) {
  for (std::size_t entry = 0; entry < engine.ports.size() && (entry + 1) * of_count <= columns_.size(); ++entry) {
    const geometry::Timing timing = geometry::timing(engine, engine.ports[entry]);
    for (std::size_t k = 0; k < of_count; ++k) {
      const Of what = static_cast<Of>(k);
      const Known value = what == Of::opens      ? timing.opens
                          : what == Of::closes   ? timing.closes
                          : what == Of::duration ? timing.duration
                                                 : view_of(engine, entry, what);
      study::Column& column = columns_[entry * of_count + k];
      column.known[sample] = value.known() ? 1 : 0;
      column.values[sample] = value.value_or(0.0);
    }
  }
}

BoreRanges bore_ranges(const Case& opened, std::size_t held_after) {
  const geometry::Survey& survey = opened.survey;
  const auto& draws = study::standard_draws(survey.sources.size(), sample_count);
  const auto count = static_cast<std::size_t>(draws.count());
  const PortRanges none(survey.ports.size(), count);
  BoreRanges out{none, none, none};
  std::vector<double> values = survey.values();
  const auto engine = std::make_unique<Engine>(), between = std::make_unique<Engine>();
  for (std::size_t k = 0; k < count; ++k) {
    study::draw_values(survey, draws.row(static_cast<int>(k)), values);
    geometry::resolve(survey, values, *engine);
    out.first.put(*engine, k);
    if (held_after > 0) {
      *between = *engine;
      cuts::apply(*opened.prepared, *between, held_after);
      out.held.put(*between, k);
    }
    if (opened.has_cuts()) cuts::apply(*opened.prepared, *engine);
    out.last.put(*engine, k);
  }
  if (held_after == 0) out.held = out.first;
  return out;
}

base::Spread BoreFrame::spread(std::size_t entry, Of what, double scale) const {
  base::Spread out{*view_of(engine, entry, what) * scale, {}, {}};
  if (const auto range = study::range_of(ranges.column(entry, what))) {
    out.low = std::min(range->low * scale, out.value);
    out.high = std::max(range->high * scale, out.value);
  }
  return out;
}

wire::Value BoreFrame::length(std::size_t entry, Of what) const {
  return value_of(spread(entry, what, mm_per_m), "mm", style);
}

std::string BoreFrame::angle(std::size_t entry, Of what) const {
  return angle_text(spread(entry, what, deg_per_rad), style);
}

std::string BoreFrame::name(std::size_t entry) const {
  std::string name = survey.ports[entry].name;
  std::replace(name.begin(), name.end(), '_', ' ');
  return survey.ports[entry].twin_of >= 0 ? name + ", twin" : name;
}

std::string angle_text(const base::Spread& degrees, base::UnitStyle style) {
  const std::string text = base::value_text(degrees, "deg", style);
  return text.substr(0, text.find(' ')) + "\u00B0";
}

std::string path_number(double mm) {
  char text[64];
  constexpr int decimals = 6;
  const auto end = std::to_chars(std::begin(text), std::end(text), mm, std::chars_format::fixed, decimals).ptr;
  std::string out(text, end);
  out.erase(out.find_last_not_of('0') + 1);
  if (out.back() == '.') out.pop_back();
  return out == "-0" ? "0" : out;
}

int rank_of(const Engine& engine, std::size_t entry) {
  const auto lead = [&](std::size_t i) {
    return engine.ports[i].twin_of >= 0 ? static_cast<std::size_t>(engine.ports[i].twin_of) : i;
  };
  const geometry::Port& port = engine.ports[lead(entry)];
  if (port.kind != PortKind::transfer) return 0;
  int rank = 0;
  for (std::size_t i = 0; i < engine.ports.size(); ++i)
    if (engine.ports[i].kind == PortKind::transfer && is_lead(engine, i) &&
        std::abs(engine.ports[i].centre.value_or(0.0)) < std::abs(port.centre.value_or(0.0)))
      ++rank;
  return std::min(rank, 2);
}

std::vector<std::string> need_paths(const geometry::Survey& survey, const base::Needs& needs) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < survey.needs.size(); ++i)
    if (needs.has(static_cast<int>(i))) out.push_back(survey.needs[i]);
  return out;
}

std::optional<OpenTurn> open_turn(const Engine& engine, std::size_t entry) {
  const geometry::Port& port = engine.ports[entry];
  const geometry::Timing timing = geometry::timing(engine, port);
  if (!timing.opens || !timing.closes || !timing.duration) return std::nullopt;
  const bool by_crown = geometry::opened_by(port.kind) == OpenedBy::crown;
  const double opens = *timing.opens * deg_per_rad;
  return OpenTurn{by_crown ? opens : 360.0 - opens, *timing.closes * deg_per_rad, *timing.duration * deg_per_rad};
}

}  // namespace portwright::desk
