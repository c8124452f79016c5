#include "bottom_end/ladder.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "numerics/sampling.hpp"
#include "numerics/statistics.hpp"
#include "tables/assumptions.hpp"

namespace portwright::bottom_end {

namespace {

enum Column { piston, rod_small, rod_big, balance, gas, static_share, ring, limit, other_piston, columns };

constexpr unsigned seed = 20117;
constexpr int nodes = 360, nodes_of_draws = 180, nodes_of_lives = 90;
constexpr double lighter = 0.9;
/// Heights of the table's rings [m], 0.039 to 0.125 in.
constexpr std::array<double, 5> ring_rows{0.039 * 0.0254, 0.047 * 0.0254, 0.063 * 0.0254, 0.094 * 0.0254,
                                          0.125 * 0.0254};

double at(const tables::AssumptionRow& row, double draw) {
  return std::clamp(row.value + row.sigma * draw, row.least, row.greatest);
}

constexpr Rolling kinds[] = {Rolling::needle, Rolling::roller, Rolling::ball};

const tables::AssumptionRow& share_row(Rolling kind) {
  return tables::assumption(kind == Rolling::ball     ? "static_share_ball"
                            : kind == Rolling::roller ? "static_share_roller"
                                                      : "static_share_needle");
}

/// Middle and draws of one engine, ready.
struct Ready {
  Bench fine, coarse, coarsest;
  Drawn middle;
  std::vector<Drawn> draws;

  Ready(const Subject& subject, const Draws& all)
      : fine(*subject.machine, nodes),
        coarse(*subject.machine, nodes_of_draws),
        coarsest(*subject.machine, nodes_of_lives),
        middle(Draws::middle(subject.machine->parts, subject.stock)) {
    for (int k = 0; k < Draws::count; ++k)
      draws.push_back(all.drawn(subject.machine->parts, k, subject.stock, subject.other_piston));
  }

  /// A speed by its law, over the draws.
  template <class F>
  [[nodiscard]] Ranged over(F&& law) const {
    std::vector<double> out;
    for (const Drawn& drawn : draws) out.push_back(law(coarse, drawn));
    return ranged(law(fine, middle), std::move(out));
  }
  [[nodiscard]] Drawn with_lighter_piston() const {
    Drawn out = middle;
    out.masses.piston *= lighter;
    return out;
  }
};

double load_borne(const Bench& bench, Place place, const Drawn& drawn) {
  return drawn.static_rating(bench.machine().parts.bearings[static_cast<int>(place)]);
}

Rung speed_rung(const Ready& ready, RungKind kind) {
  Rung out;
  out.kind = kind;
  out.hard = kind == RungKind::piston_speed_most;
  const Ranged speed = ready.over([&](const Bench& bench, const Drawn& drawn) {
    return bench.speed_at_piston_speed(out.hard ? drawn.speed_limit : speed_to_last);
  });
  out.free = speed;
  if (ready.fine.has_gas()) out.cut = speed;
  return out;
}

Rung flutter_rung(const Ready& ready, std::size_t which) {
  Rung out;
  out.kind = RungKind::flutter;
  out.ring = static_cast<int>(which);
  const Ranged speed = ready.over(
      [&](const Bench& bench, const Drawn& drawn) { return bench.speed_at_flutter(bench.ring_height(which, drawn)); });
  out.free = speed;
  if (ready.fine.has_gas()) out.cut = speed;
  const double height = ready.fine.ring_height(which, ready.middle);
  for (const double row : ring_rows)
    if (row < height - 0.05e-3) out.thinner = row;
  if (out.thinner > 0.0) out.thinner_ring = ready.fine.speed_at_flutter(out.thinner);
  return out;
}

Rung load_rung(const Ready& ready, Place place) {
  Rung out;
  out.kind = RungKind::load;
  out.place = place;
  out.hard = true;
  out.waits_for_rating = !ready.fine.machine().parts.bearings[static_cast<int>(place)].rating;
  if (out.waits_for_rating) return out;
  const auto speed = [&](bool with_gas) {
    return ready.over([&](const Bench& bench, const Drawn& drawn) {
      return bench.speed_at_load(place, load_borne(bench, place, drawn), drawn, with_gas);
    });
  };
  out.free = speed(false);
  if (ready.fine.has_gas()) out.cut = speed(true);
  const Drawn light = ready.with_lighter_piston();
  out.lighter_piston = ready.fine.speed_at_load(place, load_borne(ready.fine, place, light), light, false);
  return out;
}

/// A speed of life with its range, the draws on a turn of few nodes.
Ranged life_speed(const Ready& ready, Place place, bool with_gas) {
  const double middle = ready.fine.speed_at_life(place, life_of_note, ready.middle, with_gas);
  std::vector<double> out;
  for (const Drawn& drawn : ready.draws)
    out.push_back(ready.coarsest.speed_at_life(place, life_of_note, drawn, with_gas, middle));
  return ranged(middle, std::move(out));
}

Rung life_rung(const Ready& ready, Place place) {
  Rung out;
  out.kind = RungKind::life;
  out.place = place;
  out.waits_for_rating = !ready.fine.machine().parts.bearings[static_cast<int>(place)].rating;
  if (out.waits_for_rating) return out;
  out.free = life_speed(ready, place, false);
  if (ready.fine.has_gas()) out.cut = life_speed(ready, place, true);
  out.lighter_piston = ready.fine.speed_at_life(place, life_of_note, ready.with_lighter_piston(), false);
  return out;
}

/// The lowest hard rung; its range holds what the other hard ones can fall to.
void take_ceiling(const std::vector<Rung>& rungs, std::optional<Ranged> Rung::*way, std::optional<Ranged>& ceiling,
                  int& by) {
  for (std::size_t i = 0; i < rungs.size(); ++i) {
    const std::optional<Ranged>& rung = rungs[i].*way;
    if (!rungs[i].hard || !rung) continue;
    if (!ceiling) {
      ceiling = rung;
      by = static_cast<int>(i);
      continue;
    }
    const double low = std::min(ceiling->low.value_or(ceiling->value), rung->low.value_or(rung->value));
    const double high = std::min(ceiling->high.value_or(ceiling->value), rung->high.value_or(rung->value));
    if (rung->value < ceiling->value) {
      ceiling->value = rung->value;
      by = static_cast<int>(i);
    }
    ceiling->low = low;
    ceiling->high = std::max(high, ceiling->value);
  }
}

}  // namespace

Draws::Draws() {
  const numerics::NormalDraws draws(columns, count, seed);
  for (int k = 0; k < count; ++k) values_.insert(values_.end(), draws.row(k).begin(), draws.row(k).end());
}

Drawn Draws::middle(const Parts& parts, const Parts* stock) {
  Drawn out;
  out.masses = parts.middle();
  if (stock != nullptr) out.masses.counter = stock->middle().counter;
  out.gas = tables::assumption("gas_force").value;
  for (const Rolling kind : kinds) out.static_share[static_cast<std::size_t>(kind)] = share_row(kind).value;
  out.speed_limit = speed_at_most;
  return out;
}

Drawn Draws::drawn(const Parts& parts, int draw, const Parts* stock, bool has_other_piston) const {
  const double* z = values_.data() + static_cast<std::ptrdiff_t>(draw) * columns;
  const Parts& holds = stock != nullptr ? *stock : parts;
  Drawn out;
  out.masses = {parts.piston.at(z[has_other_piston ? other_piston : piston]), parts.rod_small.at(z[rod_small]),
                parts.rod_big.at(z[rod_big]), 0.0};
  out.masses.counter = holds.balance.at(z[balance]) * (holds.piston.at(z[piston]) + holds.rod_small.at(z[rod_small]));
  out.gas = at(tables::assumption("gas_force"), z[gas]);
  for (const Rolling kind : kinds)
    out.static_share[static_cast<std::size_t>(kind)] = at(share_row(kind), z[static_share]);
  out.ring_error = z[ring];
  // From what is advised to start with up to what is quoted as the most.
  out.speed_limit =
      std::max(speed_to_start, speed_at_most - (speed_at_most - speed_to_start) / 1.96 * std::abs(z[limit]));
  return out;
}

Ranged ranged(double middle, std::vector<double> draws) {
  if (draws.size() < 16) return {middle, {}, {}};
  const numerics::RangeEstimator estimator(static_cast<int>(draws.size()));
  const numerics::Range range = estimator.central95(draws);
  return {middle, std::min(range.low, middle), std::max(range.high, middle)};
}

Ladder ladder_of(const Subject& subject, const Draws& draws) {
  const Ready ready(subject, draws);
  Ladder out;
  out.rungs = {speed_rung(ready, RungKind::piston_speed), speed_rung(ready, RungKind::piston_speed_most)};
  for (std::size_t i = 0; i < subject.machine->rings.size(); ++i) out.rungs.push_back(flutter_rung(ready, i));
  for (const Place place : places) out.rungs.push_back(load_rung(ready, place));
  for (const Place place : places) out.rungs.push_back(life_rung(ready, place));
  take_ceiling(out.rungs, &Rung::free, out.ceiling.free, out.ceiling.free_rung);
  take_ceiling(out.rungs, &Rung::cut, out.ceiling.cut, out.ceiling.cut_rung);
  return out;
}

Sampled sample(const Subject& subject, const Question& question, const Draws& draws) {
  const Ready ready(subject, draws);
  Sampled out;
  out.middle = ready.fine.numbers(question, ready.middle);
  for (const Drawn& drawn : ready.draws) out.draws.push_back(ready.coarse.numbers(question, drawn));
  return out;
}

}  // namespace portwright::bottom_end
