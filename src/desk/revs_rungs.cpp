// The ladder of speeds in words.
#include <algorithm>
#include <cmath>

#include "desk/revs_figures.hpp"
#include "study/run_figures.hpp"

namespace portwright::desk {

namespace {

using bottom_end::Ranged;
using bottom_end::RungKind;

std::string rpm_text(double speed) {
  // A rung is never known to better than ten rpm.
  return base::number_text(10.0 * std::round(6.0 * speed), 0) + " rpm";
}

wire::RungSpeed speed_of(const Ranged& value, base::UnitStyle style) {
  wire::RungSpeed out;
  out.rpm = rpm_per_rev * value.value;
  if (value.low && value.high && *value.low < *value.high) {
    out.low = rpm_per_rev * *value.low;
    out.high = rpm_per_rev * *value.high;
    out.range = base::range_text({out.rpm, out.low, out.high}, "rpm", style);
  }
  // Rounded as its range is, so that it does not stand outside it.
  out.text = out.range.empty() ? rpm_text(value.value) : base::value_text({out.rpm, out.low, out.high}, "rpm", style);
  return out;
}

std::optional<wire::RungSpeed> speed_of(const std::optional<Ranged>& value, base::UnitStyle style) {
  return value ? std::optional(speed_of(*value, style)) : std::nullopt;
}

std::string id_of(const bottom_end::Rung& rung) {
  switch (rung.kind) {
    case RungKind::piston_speed:
      return "piston_speed";
    case RungKind::piston_speed_most:
      return "piston_speed_most";
    case RungKind::flutter:
      return "ring." + std::to_string(rung.ring + 1) + ".flutter";
    case RungKind::load:
      return std::string(bottom_end::place_key(rung.place)) + ".load";
    case RungKind::life:
      return std::string(bottom_end::place_key(rung.place)) + ".life";
  }
  return "";
}

struct Words {
  std::string name;
  const char* why;
  const char* source;
};

Words words_of(const bottom_end::Rung& rung) {
  const std::string place = bottom_end::place_name(rung.place);
  switch (rung.kind) {
    case RungKind::piston_speed:
      return {"Piston speed 3,500 ft/min", "Published for an engine that is to last.", "jennings1973"};
    case RungKind::piston_speed_most:
      return {"Piston speed 4,500 ft/min", "The most that is quoted for any developed engine; 3,800 to start with.",
              "bell"};
    case RungKind::flutter:
      return {"Ring " + std::to_string(rung.ring + 1) + " flutters",
              "The ring is said to lift off its land; stock saws exceed it, so it sets nothing.", "jennings1973"};
    case RungKind::load:
      return {place + ", static rating reached", "The peak load dents the race.", "iso76"};
    case RungKind::life:
      return {place + ", 300 h steady", "Basic rating life falls to 300 h; it ranks and sets nothing.", "iso281"};
  }
  return {};
}

std::string moves_of(const bottom_end::Rung& rung) {
  if (!rung.free) return {};
  if (rung.thinner_ring)
    return "A ring of " + base::number_text(1e3 * rung.thinner, 1) + " mm: " + rpm_text(*rung.thinner_ring) + ".";
  if (rung.lighter_piston) return "A piston a tenth lighter: " + rpm_text(*rung.lighter_piston) + ", free.";
  return rung.kind == RungKind::flutter ? "No thinner ring is in the table." : "Nothing but the stroke.";
}

wire::Rung worded(const bottom_end::Rung& rung, const RevsSides& sides, base::UnitStyle style) {
  const Words words = words_of(rung);
  wire::Rung out;
  out.id = id_of(rung);
  out.name = words.name;
  out.kind = rung.hard ? "hard" : "note";
  out.free = speed_of(rung.free, style);
  out.cut = speed_of(rung.cut, style);
  out.why = words.why;
  out.moves = moves_of(rung);
  out.source = words.source;
  if (rung.waits_for_rating) out.waits_for = sides.cut.parts.bearings[static_cast<int>(rung.place)].waits;
  return out;
}

void add_mark(const base::Known& speed, const char* id, const char* name, const char* why, bool is_cut,
              base::UnitStyle style, std::vector<wire::Rung>& out) {
  if (!speed) return;
  wire::Rung mark;
  mark.id = id;
  mark.name = name;
  mark.kind = "mark";
  mark.why = why;
  mark.source = "as read";
  (is_cut ? mark.cut : mark.free) = speed_of(Ranged{*speed, {}, {}}, style);
  out.push_back(std::move(mark));
}

double height_of(const wire::Rung& rung) { return rung.free ? rung.free->rpm : rung.cut ? rung.cut->rpm : 1e9; }

}  // namespace

std::vector<wire::Rung> revs_rungs(const RevsSides& sides, const RevsFound& found, base::UnitStyle style) {
  std::vector<wire::Rung> out;
  for (std::size_t i = 0; i < found.ladder.rungs.size(); ++i) {
    out.push_back(worded(found.ladder.rungs[i], sides, style));
    if (!sides.has_cuts) continue;
    for (const bottom_end::Rung& stock : found.stock_ladder.rungs) {
      if (id_of(stock) != out.back().id) continue;
      out.back().stock_free = speed_of(stock.free, style);
      out.back().stock_cut = speed_of(stock.cut, style);
    }
  }
  const geometry::Engine& engine = sides.cut_engine;
  add_mark(engine.breathing.limiter, "limiter", "Limiter", "The spark stops here.", false, style, out);
  add_mark(engine.no_load, "no_load", "Without load, as read", "Set by the rich screw.", false, style, out);
  add_mark(engine.in_cut, "in_cut", "In the cut, as read", "Where it works.", true, style, out);
  std::stable_sort(out.begin(), out.end(),
                   [](const wire::Rung& a, const wire::Rung& b) { return height_of(a) < height_of(b); });
  return out;
}

}  // namespace portwright::desk
