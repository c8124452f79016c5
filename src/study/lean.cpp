#include "study/lean.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string_view>

#include "numerics/normal.hpp"

namespace portwright::study {

namespace {

using geometry::PortKind;

constexpr double tail = 0.025, both_tails = 0.05;

/// Which figures hang on which choice. A figure repeated over things asks the choice of the
/// same thing.
struct Leaning {
  std::string_view id;
  Choice choice;
  bool read_low;  ///< the figure was likely read too small
};

constexpr Leaning leanings[] = {
    {"passage.{}.mouth_to_window", Choice::narrowest, true},
    {"timing.blowdown", Choice::transfer_first, true},
    {"timing.blowdown_specific_time_area", Choice::transfer_first, true},
    {"chamber.trapped_ratio", Choice::exhaust_closes, true},
    {"squish.working", Choice::squish_least, true},
    {"skirt.cover_exhaust", Choice::exhaust_floor, true},
    {"skirt.cover_intake", Choice::intake_floor, true},
    {"crown.over_floors", Choice::crown_floor, false},
    {"crown.over_intake_roof", Choice::intake_roof, true},
    {"ring.{}.lowest_over_intake", Choice::intake_roof, true},
    {"ring.{}.peg_wall", Choice::peg, true},
    {"ring.{}.bow", Choice::bow, false},
    {"pin.hole_wall", Choice::pin, true},
    {"wall.least", Choice::wall, true},
};

constexpr bool by_thing(Choice choice) {
  return choice == Choice::narrowest || choice == Choice::peg || choice == Choice::bow;
}

bool is_exhaust(PortKind kind) { return kind == PortKind::exhaust; }
bool is_transfer(PortKind kind) { return kind == PortKind::transfer; }
bool is_boost(PortKind kind) { return kind == PortKind::boost; }
bool is_intake(PortKind kind) { return kind == PortKind::intake; }
bool is_air(PortKind kind) { return kind == PortKind::air; }
constexpr bool (*of_kind[])(PortKind) = {is_exhaust, is_transfer, is_boost, is_intake, is_air};  // by PortKind
bool joins(PortKind kind) { return kind == PortKind::transfer || kind == PortKind::boost; }
bool by_crown(PortKind kind) { return geometry::opened_by(kind) == geometry::OpenedBy::crown; }

Known level_of(Choice choice, const PortMeasures& port) {
  switch (choice) {
    case Choice::exhaust_closes:
      return port.drop;
    case Choice::exhaust_floor:
    case Choice::intake_floor:
    case Choice::crown_floor:
      return port.floor;
    case Choice::intake_roof:
      return port.roof;
    default:
      return port.opens;
  }
}

void add_walls(const geometry::Wall& chosen, const Rivals& rivals, Contests::Levels& out) {
  const auto width = [](const geometry::Wall& wall) {
    return wall.entry < 0 ? Known::waits_for(0) : Known(wall.width);
  };
  out.add(width(chosen));
  for (const Rival& one : rivals) out.add(width(one.wall));
}

void add_ways(const PortMeasures& port, int chosen, Contests::Levels& out) {
  if (chosen < 0) return;
  out.add(port.ways[static_cast<std::size_t>(chosen)]);
  for (int way = 0; way < 3; ++way)
    if (way != chosen) out.add(port.ways[static_cast<std::size_t>(way)]);
}

}  // namespace

double rival_weight(double gap, double gap_sigma, double sigma) {
  if (!(gap_sigma > 1e-9 * sigma)) return 0.0;
  const double beyond = std::min(1.0, numerics::normal_cdf(-std::abs(gap) / gap_sigma) / tail);
  const double alone = std::numbers::sqrt2 * sigma;
  return gap_sigma < alone ? beyond * gap_sigma / alone : beyond;
}

numerics::Tails chosen_tails(double contenders, bool read_low) {
  const double away = tail / contenders, drawn = (both_tails - away) / contenders;
  return read_low ? numerics::Tails{away, drawn} : numerics::Tails{drawn, away};
}

double Contests::Sums::sigma() const {
  if (count < 2) return 0.0;
  const double mean = sum / count;
  return std::sqrt(std::max(0.0, squares / count - mean * mean));
}

double Contests::Contest::weight(std::size_t rival) const {
  const Sums& gap = gaps[rival];
  return rival_weight(gap.as_read, gap.sigma(), chosen.sigma());
}

double Contests::Contest::contenders() const {
  double m = 1.0;
  for (std::size_t j = 0; j < gaps.size(); ++j) m += weight(j);
  return m;
}

Contests::Contests(const geometry::Survey& survey, const Measures& as_read, std::span<const double> values)
    : survey_(&survey) {
  const Chosen& chosen = as_read.chosen;
  for (std::size_t kind = 0; kind < as_read.groups.size(); ++kind)
    hold_ports(Choice::group_first, as_read.groups[kind].first, of_kind[kind], kind);
  hold_ports(Choice::transfer_first, chosen.transfer_first, joins);
  hold_ports(Choice::transfer_last, chosen.transfer_last, joins);
  hold_ports(Choice::exhaust_closes, chosen.exhaust_closes, is_exhaust);
  hold_ports(Choice::exhaust_floor, chosen.exhaust_floor, is_exhaust);
  hold_ports(Choice::intake_floor, chosen.intake_floor, is_intake);
  hold_ports(Choice::crown_floor, chosen.crown_floor, by_crown);
  hold_ports(Choice::intake_roof, chosen.intake_roof, is_intake);
  hold_squish(Choice::squish_least, survey.squish_least);
  hold_squish(Choice::squish_greatest, survey.squish_greatest);
  hold_walls(as_read);
  for (Contest& one : contests_) {
    const Levels at = levels(one, as_read, values);
    one.chosen.as_read = at.empty() ? 0.0 : at[0].value_or(0.0);
    for (std::size_t j = 1; j < at.size(); ++j) one.gaps.push_back({(at[j] - at[0]).value_or(0.0)});
  }
}

void Contests::hold(Choice choice, std::size_t index, std::vector<std::size_t> of) {
  contests_.push_back({choice, index, std::move(of), {}, {}});
}

void Contests::hold_ports(Choice choice, int chosen, bool (*picks)(PortKind), std::size_t index) {
  if (chosen < 0) return;
  std::vector<std::size_t> of{static_cast<std::size_t>(chosen)};
  for (std::size_t i = 0; i < survey_->ports.size(); ++i)
    if (i != of[0] && picks(survey_->ports[i].kind)) of.push_back(i);
  hold(choice, index, std::move(of));
}

void Contests::hold_walls(const Measures& as_read) {
  for (std::size_t i = 0; i < as_read.ports.size(); ++i) hold(Choice::narrowest, i, {});
  for (std::size_t k = 0; k < as_read.rings.size(); ++k) {
    hold(Choice::peg, k, {});
    hold(Choice::bow, k, {});
  }
  hold(Choice::pin, 0, {});
  hold(Choice::wall, 0, {});
}

void Contests::hold_squish(Choice choice, std::size_t chosen) {
  if (survey_->squish.empty()) return;
  std::vector<std::size_t> of{chosen};
  for (std::size_t i = 0; i < survey_->squish.size() && of.size() < Levels::capacity; ++i)
    if (i != chosen) of.push_back(i);
  hold(choice, 0, std::move(of));
}

Contests::Levels Contests::levels(const Contest& contest, const Measures& m, std::span<const double> values) const {
  Levels out;
  switch (contest.choice) {
    case Choice::narrowest:
      add_ways(m.ports[contest.index], m.ports[contest.index].narrowest, out);
      break;
    case Choice::peg:
      add_walls(m.rings[contest.index].peg_at, m.rings[contest.index].peg_rivals, out);
      break;
    case Choice::bow:
      add_walls(m.rings[contest.index].widest_at, m.rings[contest.index].bow_rivals, out);
      break;
    case Choice::pin:
      add_walls(m.pin_at, m.pin_rivals, out);
      break;
    case Choice::wall:
      add_walls(m.wall_least_at, m.wall_rivals, out);
      break;
    case Choice::squish_least:
    case Choice::squish_greatest:
      for (const std::size_t i : contest.of) out.add(values[static_cast<std::size_t>(survey_->squish[i].input)]);
      break;
    default:
      for (const std::size_t i : contest.of) out.add(level_of(contest.choice, m.ports[i]));
  }
  return out;
}

void Contests::add(const Measures& measures, std::span<const double> values) {
  const auto put = [](Sums& sums, const Known& value) {
    if (!value) return;
    const double off = *value - sums.as_read;
    sums.sum += off;
    sums.squares += off * off;
    ++sums.count;
  };
  for (Contest& one : contests_) {
    if (one.gaps.empty()) continue;
    const Levels at = levels(one, measures, values);
    if (at.size() != one.gaps.size() + 1) continue;
    put(one.chosen, at[0]);
    for (std::size_t j = 1; j < at.size(); ++j) put(one.gaps[j - 1], at[j] - at[0]);
  }
}

const Contests::Contest* Contests::find(Choice choice, std::size_t index) const {
  for (const Contest& one : contests_)
    if (one.choice == choice && one.index == index) return &one;
  return nullptr;
}

double Contests::contenders(Choice choice, std::size_t index) const {
  const Contest* found = find(choice, index);
  return found != nullptr ? found->contenders() : 1.0;
}

/// Of greatest less least: every ordered pair of two is one that could have been chosen, as far as both its ends are
/// rivals of the ends chosen.
double Contests::contenders_of_a_span(Choice least, Choice greatest) const {
  const Contest *low = find(least, 0), *high = find(greatest, 0);
  if (low == nullptr || high == nullptr || low->of[0] == high->of[0]) return 1.0;
  const auto weight = [](const Contest& contest, std::size_t thing) {
    const auto at =
        static_cast<std::size_t>(std::find(contest.of.begin(), contest.of.end(), thing) - contest.of.begin());
    return at == 0 ? 1.0 : at <= contest.gaps.size() ? contest.weight(at - 1) : 0.0;
  };
  double m = low->contenders() * high->contenders();
  for (const std::size_t thing : low->of) m -= weight(*low, thing) * weight(*high, thing);
  return std::max(1.0, m);
}

numerics::Tails Contests::tails(const Entry& entry) const {
  numerics::Tails out;
  const std::string_view id = entry.row->id;
  const auto lean = [&](bool read_low, double contenders) {
    const numerics::Tails one = chosen_tails(contenders, read_low);
    out = {std::min(out.low, one.low), std::min(out.high, one.high)};
  };
  for (const Leaning& one : leanings)
    if (one.id == id) lean(one.read_low, contenders(one.choice, by_thing(one.choice) ? entry.index : 0));
  if (id == "group.{}.first_opens")  // angles before TDC are greatest where a skirt opens first
    lean(by_crown(static_cast<PortKind>(entry.index)), contenders(Choice::group_first, entry.index));
  else if (id == "timing.blowdown")  // less the exhaust, which opens first of its own kind
    lean(false, contenders(Choice::group_first, static_cast<std::size_t>(PortKind::exhaust)));
  else if (id == "timing.stagger")
    lean(false, contenders_of_a_span(Choice::transfer_first, Choice::transfer_last));
  else if (id == "squish.tilt")
    lean(false, contenders_of_a_span(Choice::squish_least, Choice::squish_greatest));
  return out;
}

}  // namespace portwright::study
