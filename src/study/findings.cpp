#include "study/findings.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "tables/limits.hpp"
#include "tables/pattern.hpp"

namespace portwright::study {

namespace {

using geometry::Survey;
using tables::LimitRow;
using tables::Side;

constexpr double deg = 180.0 / std::numbers::pi;

bool bridged(const Entry& entry, const Survey& survey) {
  if (entry.row->over != Over::ports) return false;
  const geometry::Slot& bridge = survey.ports[entry.index].bridge;
  return bridge.input >= 0 && survey.inputs[static_cast<std::size_t>(bridge.input)].value > 0.0;
}

bool skirt_times_intake(const Survey& survey) {
  if (survey.intake == geometry::IntakeKind::reed_behind_window ||
      survey.intake == geometry::IntakeKind::reed_into_case)
    return false;
  return std::any_of(survey.ports.begin(), survey.ports.end(),
                     [](const auto& port) { return port.kind == geometry::PortKind::intake; });
}

/// Whether a value lies beyond a threshold; a rounding's worth beyond does not count.
bool passes(Side side, double value, double threshold) {
  const double slack = 1e-9 * std::max(1.0, std::abs(threshold));
  if (side == Side::at_least) return value < threshold - slack;
  if (side == Side::at_most) return value > threshold + slack;
  return std::abs(value - threshold) > slack;
}

/// The threshold that asks most, which a falling margin meets first.
std::optional<double> strictest(const LimitRow& row) {
  return row.note ? row.note : row.caution ? row.caution : row.stop;
}

struct Verdict {
  State state = State::ok;
  std::optional<double> limit;
};

Verdict judge(const LimitRow& row, double value, double chance_of_stop) {
  if (!row.has_threshold()) return {State::note, {}};
  if (row.stop && passes(row.side, value, *row.stop)) return {State::stop, row.stop};
  if (row.caution && passes(row.side, value, *row.caution)) return {State::caution, row.caution};
  if (row.stop && chance_of_stop > stop_chance) return {State::caution, row.stop};
  if (row.note && passes(row.side, value, *row.note)) return {State::note, row.note};
  return {State::ok, strictest(row)};
}

std::string number(double value, const std::string& unit, base::UnitStyle style) {
  return base::value_text({value, {}, {}}, unit, style);
}

/// A value and its threshold with as many digits as it takes to tell them apart, six at most.
std::pair<std::string, std::string> told_apart(double value, double limit, const std::string& unit,
                                               base::UnitStyle style) {
  std::pair<std::string, std::string> texts{number(value, unit, style), number(limit, unit, style)};
  const std::size_t usual = texts.first.size();
  for (int digits = 1; digits <= 6 && texts.first == texts.second; ++digits) {
    const double half = 2.0 * std::pow(10.0, -digits);  // the half-range of so many digits
    const auto text = [&](double one) { return base::value_text({one, one - half, one + half}, unit, style); };
    if (text(value).size() > usual) texts = {text(value), text(limit)};
  }
  return texts;
}

std::string sentence(const LimitRow& row, const std::string& label, const Finding& finding, base::UnitStyle style) {
  if (row.side == Side::is) return label + (finding.value > 0.5 ? ": yes." : ": no.");
  if (!finding.limit) return label + ": " + number(finding.value, finding.unit, style) + "; no number is agreed.";
  const auto [value, limit] = told_apart(finding.value, *finding.limit, finding.unit, style);
  const std::string asked = std::string(tables::side_name(row.side)) + " " + limit;
  const bool holds_but = finding.state == State::caution && !passes(row.side, finding.value, *finding.limit);
  if (!holds_but) return label + ": " + value + ", " + asked + " is asked.";
  const std::string chance = base::number_text(std::round(finding.chance * 100.0), 0);
  return label + ": " + value + " holds, but with a chance of " + chance + " % the true value passes the stop at " +
         limit + ".";
}

std::string label_of(const Entry& entry) {
  std::string label = filled(entry.row->label, entry.name, 0.0);
  if (!label.empty()) label[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(label[0])));
  return label;
}

void at_level(Where& where, const geometry::Engine& engine, const Known& y) {
  const Known height = engine.height(y);
  if (height) where.height_mm = *height * 1e3;
}

void at_wall(Where& where, const Survey& survey, const geometry::Engine& engine, const geometry::Wall& wall) {
  if (wall.entry < 0) return;
  const auto entry = static_cast<std::size_t>(wall.entry);
  where.port = survey.ports[entry].name;
  const geometry::Port& port = engine.ports[entry];
  if (port.count > 1 || port.twin_of >= 0) where.side = wall.side == 0 ? "first" : "mirrored";
  if (port.centre) where.angle_deg = (wall.side == 0 ? 1.0 : -1.0) * *port.centre * deg;
  at_level(where, engine, wall.y);
}

void at_port(Where& where, const Survey& survey, const geometry::Engine& engine, std::size_t index) {
  const geometry::Port& port = engine.ports[index];
  where.port = survey.ports[index].name;
  if (port.twin_of >= 0) where.side = "mirrored";
  if (port.centre) where.angle_deg = (port.twin_of >= 0 ? -1.0 : 1.0) * *port.centre * deg;
  at_level(where, engine, geometry::timed_edge(port));
}

/// The lowest floor of a kind: what the skirt covers.
void at_floor(Where& where, const Survey& survey, const geometry::Engine& engine, geometry::PortKind kind) {
  for (std::size_t i = 0; i < engine.ports.size(); ++i) {
    const geometry::Port& port = engine.ports[i];
    if (port.kind != kind || !port.floor) continue;
    where.port = survey.ports[i].name;
    if (port.centre) where.angle_deg = *port.centre * deg;
    at_level(where, engine, port.floor);
    return;
  }
}

Where place(const Entry& entry, const Survey& survey, const geometry::Engine& engine, const Measures& measures) {
  Where where;
  const std::string_view id = entry.row->id;
  if (entry.row->over == Over::ports)
    at_port(where, survey, engine, entry.index);
  else if (id == "ring.{}.peg_wall")
    at_wall(where, survey, engine, measures.rings[entry.index].peg_at);
  else if (id == "wall.least")
    at_wall(where, survey, engine, measures.wall_least_at);
  else if (id == "wall.thrust_share")
    at_wall(where, survey, engine, measures.thrust_at);
  else if (id == "pin.hole_wall")
    at_wall(where, survey, engine, measures.pin_at);
  else if (id == "skirt.cover_exhaust")
    at_floor(where, survey, engine, geometry::PortKind::exhaust);
  else if (id == "skirt.cover_intake" || id == "crown.over_intake_roof" || id == "ring.{}.lowest_over_intake")
    at_floor(where, survey, engine, geometry::PortKind::intake);
  return where;
}

Finding hold(const LimitRow& row, const Held& held, base::UnitStyle style) {
  const double scale = held.entry->row->scale;
  const auto chance = [&](double threshold) {
    return chance_of(*held.samples, [&](double v) { return passes(row.side, v * scale, threshold); });
  };
  return hold_value(row, {held.entry->id, label_of(*held.entry), held.value * scale}, chance, style);
}

}  // namespace

bool speaks_of(tables::When when, const Entry& entry, const Survey& survey) {
  switch (when) {
    case tables::When::always:
      return true;
    case tables::When::no_bridge:
      return !bridged(entry, survey);
    case tables::When::bridged:
      return bridged(entry, survey);
    case tables::When::skirt_intake:
      return skirt_times_intake(survey);
  }
  return true;
}

Finding hold_value(const LimitRow& row, const HeldValue& held, const std::function<double(double)>& chance,
                   base::UnitStyle style) {
  const Verdict verdict = judge(row, held.value, row.stop ? chance(*row.stop) : 0.0);
  Finding finding;
  finding.rule = row.rule;
  finding.figure = held.figure;
  finding.state = verdict.state;
  finding.value = held.value;
  finding.limit = verdict.limit;
  if (verdict.limit && row.side != Side::is)
    finding.margin = row.side == Side::at_least ? held.value - *verdict.limit : *verdict.limit - held.value;
  finding.unit = row.unit;
  finding.chance = verdict.limit ? chance(*verdict.limit) : 0.0;
  finding.why = row.why;
  finding.fix = row.fix;
  finding.source = row.source;
  finding.hard = row.hard;
  finding.text = sentence(row, held.label, finding, style);
  return finding;
}

std::vector<Finding> find(const Survey& survey, const geometry::Engine& engine, const Measures& measures,
                          const std::vector<Held>& figures, base::UnitStyle style) {
  std::vector<Finding> out;
  for (const LimitRow& row : tables::limits()) {
    for (const Held& held : figures) {
      const Entry& entry = *held.entry;
      if (!tables::matches(row.figure, entry.match, entry.port_kind) || !speaks_of(row.when, entry, survey)) continue;
      Finding finding = hold(row, held, style);
      finding.where = place(entry, survey, engine, measures);
      out.push_back(std::move(finding));
    }
  }
  std::stable_sort(out.begin(), out.end(), [](const Finding& a, const Finding& b) { return a.state > b.state; });
  return out;
}

}  // namespace portwright::study
