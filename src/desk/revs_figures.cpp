#include "desk/revs_figures.hpp"

#include <algorithm>
#include <cmath>

#include "study/run_figures.hpp"

namespace portwright::desk {

namespace {

using bottom_end::Numbers;
using bottom_end::Place;
using bottom_end::Ranged;
using bottom_end::Way;

constexpr double percent = 100.0, mega = 1e-6, one = 1.0;
constexpr const char* own = "own arithmetic";

/// Of the cut where the engine was turned, else free.
const Way& loaded(const Numbers& n) { return n.cut ? *n.cut : n.free; }

std::optional<double> above_nothing(double value) { return value > 0.0 ? std::optional(value) : std::nullopt; }

std::optional<double> safety(const Numbers& n, Place place) {
  const auto i = static_cast<std::size_t>(place);
  if (!(n.free.safety[i] > 0.0)) return std::nullopt;
  return n.cut ? std::min(n.cut->safety[i], n.free.safety[i]) : n.free.safety[i];
}
std::optional<double> life(const Numbers& n, Place place) {
  return above_nothing(n.life[static_cast<std::size_t>(place)]);
}

std::optional<double> least_life(const Numbers& n) {
  std::optional<double> out;
  for (const Place place : bottom_end::places)
    if (const auto hours = life(n, place); hours && (!out || *hours < *out)) out = hours;
  return out;
}

struct Row {
  FigureWords words;
  std::optional<double> (*value)(const Numbers&);
};

const Row rows[] = {
    {{"bottom_end.thrust", "N", one, "Side thrust",
      "force along the rod times the sine of its lean, greatest of the turn",
      "The piston leans on the bore with it; the windows decide how much wall takes it.", own},
     [](const Numbers& n) {
       return std::optional(std::max(loaded(n).peaks.thrust_pressed, loaded(n).peaks.thrust_other));
     }},
    {{"bottom_end.wall_pressure", "MPa", mega, "Skirt on the wall left",
      "side thrust over the part of the skirt's width that has wall under it, greatest of the turn",
      "Where windows are wide, less wall carries the same thrust.", own},
     [](const Numbers& n) { return above_nothing(loaded(n).wall_pressure); }},
    {{"bottom_end.rod_compression", "N", one, "Rod, pressed",
      "gas force less what the moving mass takes, along the rod", "It bends the rod's shank; the gas makes it.", own},
     [](const Numbers& n) { return std::optional(loaded(n).peaks.rod_compression); }},
    {{"bottom_end.rod_tension", "N", one, "Rod, pulled, free",
      "moving mass times its acceleration at TDC, no gas against it",
      "It stretches the rod and opens the big end; a turn that does not burn has least to hold against it.", own},
     [](const Numbers& n) { return std::optional(n.free.peaks.rod_tension); }},
    {{"bottom_end.small_end_load", "N", one, "Small end", "force of the piston on its pin, greatest of the turn",
      "Pin, clips and needles carry it.", own},
     [](const Numbers& n) { return std::optional(loaded(n).peaks.small_end); }},
    {{"bottom_end.big_end_load", "N", one, "Big end", "force of the rod with its big end on the crank pin, greatest",
      "Needles and cage carry it at every turn.", own},
     [](const Numbers& n) { return std::optional(loaded(n).peaks.big_end); }},
    {{"bottom_end.free.big_end_load", "N", one, "Big end, free", "the same without gas, at free-rev",
      "Free-rev loads the big end by inertia alone, and it grows with rpm squared.", own},
     [](const Numbers& n) { return std::optional(n.free.peaks.big_end); }},
    {{"bottom_end.main_load", "N", one, "Main bearings", "force of the crank on both main bearings together, greatest",
      "Case and main bearings carry it; half each is taken.", own},
     [](const Numbers& n) { return std::optional(loaded(n).peaks.main); }},
    {{"bottom_end.shaking", "N", one, "Shaking, free",
      "what moving mass and counterweight do not cancel, greatest of the turn at free-rev",
      "It shakes handles and carburettor.", own},
     [](const Numbers& n) { return std::optional(n.free.peaks.shaking); }},
    {{"bottom_end.balance", "%", percent, "Balanced share",
      "counterweight beyond the rotating mass over piston, pin, rings, clips and the rod's small end",
      "A lighter piston on the same crank raises it: less shaking along the bore, more across.", own},
     [](const Numbers& n) { return std::optional(n.balance); }},
    {{"bottom_end.mean_piston_speed", "m/s", one, "Mean piston speed, the faster of free and in the cut",
      "two strokes a turn", "It is the usual measure of how hard an engine turns, whatever its size.", own},
     nullptr},
    {{"bottom_end.flutter", "-", one, "Ring flutter, free",
      "greatest acceleration of the piston over what the worst ring is said to stand",
      "Beyond 1 the ring is said to lift off its land; stock saws exceed it.", "jennings1973"},
     [](const Numbers& n) { return above_nothing(n.free.flutter); }},
    {{"bottom_end.life", "h", one, "Least bearing life at the duty", "basic rating life of the bearing that has least",
      "It ranks one change against another; needles in oil mist it does not predict.", "iso281"},
     least_life},
    {{"bottom_end.bearing.big_end.safety", "-", one, "Big end, static rating over peak",
      "static rating over the greatest load of the turn, free or in the cut", "Under 1 the rollers dent their race.",
      "iso76"},
     [](const Numbers& n) { return safety(n, Place::big_end); }},
    {{"bottom_end.bearing.small_end.safety", "-", one, "Small end, static rating over peak",
      "static rating over the greatest load of the turn, free or in the cut", "Under 1 the rollers dent their race.",
      "iso76"},
     [](const Numbers& n) { return safety(n, Place::small_end); }},
    {{"bottom_end.bearing.main.safety", "-", one, "Main bearing, static rating over peak",
      "static rating over the greatest load of the turn, free or in the cut", "Under 1 the balls dent their race.",
      "iso76"},
     [](const Numbers& n) { return safety(n, Place::main); }},
    {{"bottom_end.bearing.big_end.life", "h", one, "Big end, life at the duty", "basic rating life", "It ranks.",
      "iso281"},
     [](const Numbers& n) { return life(n, Place::big_end); }},
    {{"bottom_end.bearing.small_end.life", "h", one, "Small end, life at the duty", "basic rating life", "It ranks.",
      "iso281"},
     [](const Numbers& n) { return life(n, Place::small_end); }},
    {{"bottom_end.bearing.main.life", "h", one, "Main bearing, life at the duty", "basic rating life", "It ranks.",
      "iso281"},
     [](const Numbers& n) { return life(n, Place::main); }},
};

/// Values of a row in every draw; empty where one has none.
std::vector<double> drawn(const Row& row, const bottom_end::Sampled& sampled) {
  std::vector<double> out;
  for (const Numbers& numbers : sampled.draws) {
    const std::optional<double> value = row.value(numbers);
    if (!value) return {};
    out.push_back(*value);
  }
  return out;
}

Ranged of_all(double middle, std::vector<double> draws) {
  return draws.empty() ? Ranged{middle, {}, {}} : bottom_end::ranged(middle, std::move(draws));
}

std::optional<study::Figure> figure_of(const Row& row, const RevsSides& sides, const RevsFound& found,
                                       base::UnitStyle style) {
  const std::optional<double> middle = row.value(found.now.middle);
  if (!middle) return std::nullopt;
  const std::vector<double> now = drawn(row, found.now);
  study::Figure out = ranged_figure(row.words, of_all(*middle, now), style);
  const std::optional<double> before = row.value(found.stock.middle);
  if (!sides.has_cuts || !before) return out;
  const std::vector<double> stock = drawn(row, found.stock);
  std::vector<double> change;
  for (std::size_t k = 0; k < std::min(now.size(), stock.size()); ++k) change.push_back(now[k] - stock[k]);
  add_change(out, row.words.scale, of_all(*before, stock), of_all(*middle - *before, std::move(change)), style);
  return out;
}

study::Figure piston_speed(const Row& row, const RevsSides& sides, const RevsFound& found, base::UnitStyle style) {
  const double speed = std::max(found.question.cut_speed, found.question.free_speed);
  return ranged_figure(row.words, {2.0 * sides.cut.stroke * speed, {}, {}}, style);
}

const FigureWords ceiling_free = {
    "bottom_end.rev_ceiling",
    "rpm",
    rpm_per_rev,
    "Rev ceiling, free",
    "the lowest of the hard limits: mean piston speed, and peak load against the static rating of each rated bearing",
    "Nothing hard that is known stands below it; what a cage or a pin bore stands has no agreed number.",
    "bell, iso76"};
const FigureWords ceiling_cut = {"bottom_end.rev_ceiling_cut",
                                 "rpm",
                                 rpm_per_rev,
                                 "Rev ceiling, in the cut",
                                 "the same with the gas of the turn in the cut, held by crank angle",
                                 "The gas holds against the pull at TDC, so the cut is mostly the milder place.",
                                 "bell, iso76"};

void add_ceiling(const FigureWords& words, const std::optional<Ranged>& now, const std::optional<Ranged>& stock,
                 bool has_cuts, base::UnitStyle style, std::vector<study::Figure>& out) {
  if (!now) return;
  out.push_back(ranged_figure(words, *now, style));
  if (has_cuts && stock) add_change(out.back(), words.scale, *stock, {now->value - stock->value, {}, {}}, style);
}

}  // namespace

study::Figure named_figure(const FigureWords& words) {
  study::Figure out;
  out.id = words.id;
  out.unit = words.unit;
  out.label = words.label;
  out.formula = words.formula;
  out.why = words.why;
  out.source = words.source;
  return out;
}

study::Figure ranged_figure(const FigureWords& words, const Ranged& value, base::UnitStyle style) {
  study::Figure out = named_figure(words);
  out.value = value.value * words.scale;
  if (value.low && value.high) {
    out.low = *value.low * words.scale;
    out.high = *value.high * words.scale;
    out.text = base::value_text({*out.value, out.low, out.high}, words.unit, style);
  } else {
    out.text = study::three_digits(*out.value, words.unit, style);
  }
  study::fill_texts(out, style);
  return out;
}

void add_change(study::Figure& figure, double scale, const Ranged& stock, const Ranged& change, base::UnitStyle style) {
  const auto scaled = [&](const std::optional<double>& v) { return v ? std::optional(*v * scale) : std::nullopt; };
  figure.stock = base::Spread{stock.value * scale, scaled(stock.low), scaled(stock.high)};
  study::Change out{change.value * scale, scaled(change.low), scaled(change.high), false};
  out.distinguishable = out.low && out.high ? *out.low > 0.0 || *out.high < 0.0 : std::abs(change.value) > 0.0;
  figure.change = out;
  study::fill_texts(figure, style);
}

std::vector<study::Figure> revs_figures(const RevsSides& sides, const RevsFound& found, base::UnitStyle style) {
  std::vector<study::Figure> out;
  add_ceiling(ceiling_free, found.ladder.ceiling.free, found.stock_ladder.ceiling.free, sides.has_cuts, style, out);
  add_ceiling(ceiling_cut, found.ladder.ceiling.cut, found.stock_ladder.ceiling.cut, sides.has_cuts, style, out);
  const auto& rungs = found.ladder.rungs;
  if (std::any_of(rungs.begin(), rungs.end(), [](const auto& rung) { return rung.hard && rung.waits_for_rating; }))
    for (study::Figure& ceiling : out) ceiling.label += ", upper bound";
  for (const Row& row : rows) {
    if (row.value == nullptr)
      out.push_back(piston_speed(row, sides, found, style));
    else if (auto figure = figure_of(row, sides, found, style))
      out.push_back(std::move(*figure));
  }
  return out;
}

}  // namespace portwright::desk
