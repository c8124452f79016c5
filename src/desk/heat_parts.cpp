#include "desk/heat_parts.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/number_text.hpp"

namespace portwright::desk {

namespace {

constexpr double zero_celsius = 273.15, rpm_per_rev = 60.0, deg = 180.0 / std::numbers::pi, mm = 1e3;
constexpr double usual_spot_sigma = 5.0;  // of a washer or a lance, row of data/instruments.toml [K]

/// Mean of what could be read of one place.
std::optional<double> mean_of(const saw::Reading& reading) {
  double sum = 0.0;
  int count = 0;
  for (const saw::Typed& typed : reading.repeats)
    if (typed.value) sum += typed.value->si, ++count;
  return count > 0 ? std::optional(sum / count) : std::nullopt;
}

base::Errors missing_of(const saw::Fins& fins, std::size_t number) {
  base::Errors out;
  const std::pair<const char*, const saw::Reading*> parts[] = {{"from", &fins.from},
                                                               {"to", &fins.to},
                                                               {"length", &fins.length},
                                                               {"pitch", &fins.pitch},
                                                               {"thickness", &fins.thickness}};
  for (const auto& [name, reading] : parts)
    if (!mean_of(*reading))
      out.push_back({base::ErrorCode::impossible,
                     "Fins " + std::to_string(number) + " lack their " + name + '.',
                     "cooling.fins." + std::string(name),
                     "Where they begin and end round the bore, their length, pitch and thickness: all five count.",
                     {}});
  return out;
}

std::string plain(double value) {
  const double size = std::abs(value);
  return base::number_text(size, size < 9.5 ? 1 : 0);
}
std::string sign_of(double value) { return value < 0.0 ? "\u2212" : "+"; }
std::string with_sign(double value) { return sign_of(value) + plain(value); }

heat::Told over(const std::vector<heat::Seen>& seen, double (*value)(const heat::Seen&, std::size_t), std::size_t i) {
  std::vector<double> values;
  for (const heat::Seen& one : seen) values.push_back(value(one, i));
  return heat::told(std::move(values));
}

/// Member by member: now less was.
template <class Value>
heat::Told change_between(const std::vector<heat::Seen>& was, const std::vector<heat::Seen>& now, Value&& value) {
  std::vector<double> values;
  for (std::size_t k = 0; k < std::min(was.size(), now.size()); ++k) values.push_back(value(now[k]) - value(was[k]));
  return heat::told(std::move(values));
}

double head_of(const heat::Seen& seen) {
  for (const heat::Place& place : seen.places)
    if (!place.piston && place.name.starts_with("head")) return place.T;
  return 0.0;
}
double groove_of(const heat::Seen& seen) {
  for (const heat::Place& place : seen.places)
    if (place.name == "ring groove") return place.T;
  return 0.0;
}
double hottest_of(const heat::Seen& seen) { return seen.hottest.T; }

/// The part's places by heat under the middles, each with its place in `Seen::places`.
std::vector<std::size_t> ranked(const heat::Seen& middles, bool piston) {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < middles.places.size(); ++i)
    if (middles.places[i].piston == piston) out.push_back(i);
  std::stable_sort(out.begin(), out.end(),
                   [&](std::size_t a, std::size_t b) { return middles.places[a].T > middles.places[b].T; });
  return out;
}

/// Share of the sets in which a place is the hottest of its part.
double share_first(const std::vector<heat::Seen>& seen, bool piston, std::size_t at) {
  double count = 0.0;
  for (const heat::Seen& one : seen) count += ranked(one, piston).front() == at ? 1.0 : 0.0;
  return count / static_cast<double>(seen.size());
}

std::string sentence_of(const wire::HeatPlace& place) {
  std::string out = place.name;
  out[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(out[0])));
  const wire::HeatDifference& d = place.over_mean;
  const double low = std::min(std::abs(d.low), std::abs(d.high)), high = std::max(std::abs(d.low), std::abs(d.high));
  if (!d.distinguishable)
    out += ": about as hot as the bore's wall is on the mean";
  else
    out += ": " + plain(low) + " to " + plain(high) + " K " + (d.value > 0.0 ? "above" : "below") +
           " the mean of the bore's wall";
  if (place.temperature) out += ", " + place.temperature->text;
  if (place.rank == 1)
    out += "; hottest of the " + place.part + " in " + base::number_text(100.0 * place.first, 0) +
           " % of the ways the unread could be";
  if (place.change)
    out += place.change->distinguishable ? "; against stock " + place.change->text : "; not told apart from stock";
  return out + '.';
}

/// One figure whose value only a calibrated estimate has.
struct HeatRow {
  const char *id, *label, *formula, *why, *unit;
  double scale, zero;
  double (*value)(const heat::Seen&);
};
const HeatRow rows[] = {
    {"heat.hottest", "Hottest place of the bore", "greatest temperature of the bore's inner wall",
     "There the oil film goes first, and the piston scores.", "K", 1.0, 0.0, hottest_of},
    {"heat.groove", "Ring groove", "temperature of the piston's ring belt",
     "Where the groove is too hot the oil bakes and the ring sticks.", "K", 1.0, 0.0, groove_of},
    {"heat.growth", "Out of round, hot", "greatest less least radius of the hot bore, what merely shifts it left out",
     "A ring seals a round bore; a piston touches where the bore is narrow.", "mm", mm, 0.0,
     [](const heat::Seen& s) { return s.growth.out_of_round; }},
    {"heat.clearance", "Room of the skirt, hot less cold", "growth of the bore less that of the skirt, at mid-stroke",
     "What the skirt loses of its cold clearance it lacks hot; negative closes.", "mm", mm, 0.0,
     [](const heat::Seen& s) { return s.growth.clearance; }}};

/// The value stays in kelvin; what a person reads is in degrees.
void say_degrees(study::Figure& figure) {
  const auto shown = [](double T) { return base::number_text(T - zero_celsius, 0); };
  if (figure.value) figure.text = shown(*figure.value) + " \u00B0C";
  if (figure.low && figure.high) {
    figure.low_text = shown(*figure.low);
    figure.high_text = shown(*figure.high);
  }
  if (figure.stock) figure.stock_text = shown(figure.stock->value) + " \u00B0C";
}

/// Of one row over some sets.
heat::Told told_by(const HeatRow& row, const std::vector<heat::Seen>& seen) {
  std::vector<double> values;
  for (const heat::Seen& one : seen) values.push_back(row.scale * row.value(one));
  return heat::told(std::move(values));
}

/// What the cuts change, and stock where there are degrees.
void add_stock(const HeatRow& row, const HeatSides& sides, study::Figure& figure) {
  const heat::Told change =
      change_between(sides.stock, sides.now, [&](const heat::Seen& seen) { return row.scale * row.value(seen); });
  figure.change = study::Change{change.value, change.low, change.high, change.distinguishable()};
  if (!sides.calibrated) return;
  const heat::Told stock = told_by(row, sides.stock);
  figure.stock = base::Spread{stock.value, stock.low, stock.high};
}

study::Figure figure_of(const HeatRow& row, const HeatSides& sides, base::UnitStyle style) {
  study::Figure out;
  out.id = row.id;
  out.unit = row.unit;
  out.label = row.label;
  out.formula = row.formula;
  out.why = row.why;
  out.source = "own arithmetic";
  if (sides.calibrated) {
    const heat::Told now = told_by(row, sides.now);
    out.value = now.value;
    out.low = now.low;
    out.high = now.high;
    out.text = base::value_text({now.value, now.low, now.high}, row.unit, style);
  } else {
    out.waits_for = {"readings.spot"};
  }
  if (!sides.stock.empty()) add_stock(row, sides, out);
  study::fill_texts(out, style);
  if (out.unit == "K") say_degrees(out);
  return out;
}

}  // namespace

base::ResultAll<heat::Cooling> cooling_of(const saw::Readings& readings) {
  heat::Cooling out;
  if (readings.cooling.fan) out.fan = *readings.cooling.fan;
  base::Errors missing;
  for (std::size_t i = 0; i < readings.cooling.fins.size(); ++i) {
    const saw::Fins& fins = readings.cooling.fins[i];
    const base::Errors lacking = missing_of(fins, i + 1);
    missing.insert(missing.end(), lacking.begin(), lacking.end());
    if (!lacking.empty()) continue;
    heat::Sector sector{*mean_of(fins.from),
                        *mean_of(fins.to),
                        {*mean_of(fins.length), *mean_of(fins.pitch), *mean_of(fins.thickness)}};
    const double turn = 2.0 * std::numbers::pi;
    while (sector.to <= sector.from) sector.to += turn;  // "from 300 to 60 deg" goes over the exhaust
    out.sectors.push_back(sector);
  }
  if (!missing.empty()) return tl::unexpected(std::move(missing));
  if (auto checked = heat::check(out); !checked) return tl::unexpected(checked.error());
  return out;
}

base::Result<std::optional<SpotRead>> spot_of(const saw::Readings& readings) {
  const saw::Spot& read = readings.evidence.spot;
  const auto value = mean_of(read.value), at = mean_of(read.at);
  if (read.where.empty() || !value || !at) return std::optional<SpotRead>{};
  auto spot = heat::spot_of(read.where);
  if (!spot) return tl::unexpected(spot.error());
  SpotRead out{*spot, *at,
               read.where + ", " + base::number_text(*value - zero_celsius, 0) + " \u00B0C at " +
                   base::number_text(*at * rpm_per_rev, 0) + " rpm"};
  out.spot.T = *value;
  out.spot.sigma = usual_spot_sigma;
  for (const saw::Typed& typed : read.value.repeats)
    if (typed.value && typed.value->sigma) out.spot.sigma = *typed.value->sigma;
  return std::optional(std::move(out));
}

wire::HeatDifference difference_of(const heat::Told& told) {
  wire::HeatDifference out{told.value, told.low, told.high, told.distinguishable(), ""};
  out.text = out.distinguishable
                 ? with_sign(told.value) + " K (" + with_sign(told.low) + " to " + with_sign(told.high) + ")"
                 : "not told apart";
  return out;
}

wire::HeatDegrees degrees_of(const heat::Told& told) {
  const auto shown = [](double T) { return base::number_text(T - zero_celsius, 0); };
  return {told.value - zero_celsius, told.low - zero_celsius, told.high - zero_celsius,
          shown(told.value) + " \u00B0C (" + shown(told.low) + " to " + shown(told.high) + ")"};
}

std::vector<wire::HeatPlace> places_of(const HeatSides& sides) {
  std::vector<wire::HeatPlace> out;
  const heat::Seen& middles = sides.now.front();
  for (const bool piston : {false, true}) {
    int rank = 0;
    for (const std::size_t i : ranked(middles, piston)) {
      const heat::Place& place = middles.places[i];
      wire::HeatPlace one;
      one.name = place.name;
      one.part = piston ? "piston" : "cylinder";
      one.rank = ++rank;
      one.first = share_first(sides.now, piston, i);
      if (!place.round) {
        one.angle_deg = place.angle * deg;
        one.drop_mm = place.drop * mm;
      }
      one.over_mean = difference_of(over(
          sides.now, [](const heat::Seen& s, std::size_t k) { return s.places[k].T - s.mean; }, i));
      // A cut that takes or makes a bridge changes the list; then its places are named, not held against stock.
      if (!sides.stock.empty() && sides.stock.front().places.size() == middles.places.size())
        one.change =
            difference_of(change_between(sides.stock, sides.now, [i](const heat::Seen& s) { return s.places[i].T; }));
      if (sides.calibrated)
        one.temperature = degrees_of(over(
            sides.now, [](const heat::Seen& s, std::size_t k) { return s.places[k].T; }, i));
      one.sentence = sentence_of(one);
      out.push_back(std::move(one));
    }
  }
  return out;
}

std::vector<study::Figure> heat_figures(const HeatSides& sides, base::UnitStyle style) {
  std::vector<study::Figure> out;
  for (const HeatRow& row : rows) out.push_back(figure_of(row, sides, style));
  return out;
}

namespace {

constexpr double rise_worth_a_word = 1.0;  ///< of the base after a stop that is spoken of [K]: own judgement
constexpr double worth_a_word = 0.005;     ///< change of the trapped charge that is spoken of [-]: own judgement

std::string charge_words(const std::optional<double>& trapped) {
  if (!trapped || std::abs(*trapped) < worth_a_word) return {};
  return " Each turn then traps " + base::number_text(100.0 * std::abs(*trapped), 0) + " % " +
         (*trapped < 0.0 ? "less" : "more") + " charge.";
}

}  // namespace

wire::HeatEffect effect_of(std::string what, const std::vector<heat::Seen>& was, const std::vector<heat::Seen>& now,
                           std::optional<double> trapped) {
  wire::HeatEffect out{std::move(what),
                       difference_of(change_between(was, now, hottest_of)),
                       difference_of(change_between(was, now, head_of)),
                       difference_of(change_between(was, now, groove_of)),
                       trapped,
                       ""};
  out.sentence = out.what + ": hottest place of the bore " + out.hottest.text + ", head " + out.head.text +
                 ", ring groove " + out.groove.text + '.' + charge_words(trapped);
  return out;
}

std::vector<wire::HeatShare> shares_of(const std::vector<heat::Seen>& seen, double burnt) {
  struct Way {
    const char* name;
    double (*heat)(const heat::HeatFlows&);
  };
  constexpr Way ways[] = {
      {"gas into head", [](const heat::HeatFlows& f) { return f.gas_to_head; }},
      {"gas into bore", [](const heat::HeatFlows& f) { return f.gas_to_bore; }},
      {"gas into crown", [](const heat::HeatFlows& f) { return f.gas_to_crown; }},
      {"exhaust and muffler into the wall", [](const heat::HeatFlows& f) { return f.ducts_to_wall; }},
      {"friction of rings and skirt", [](const heat::HeatFlows& f) { return f.rubbed; }},
      {"out through fins and head", [](const heat::HeatFlows& f) { return f.wall_to_air + f.head_to_air; }},
      {"out through the flange", [](const heat::HeatFlows& f) { return f.flange_to_case; }},
      {"from the piston into the charge", [](const heat::HeatFlows& f) { return f.piston_to_charge; }}};
  std::vector<wire::HeatShare> out;
  for (const Way& way : ways) {
    std::vector<double> values;
    for (const heat::Seen& one : seen) values.push_back(way.heat(one.flows) / burnt);
    const heat::Told told = heat::told(std::move(values));
    out.push_back({way.name, told.low, told.high});
  }
  return out;
}

wire::HeatSoak soak_of(const std::vector<std::vector<heat::SoakInstant>>& runs, double day) {
  std::vector<double> rises, peaks, halves;
  for (const auto& run : runs) {
    const auto peak =
        std::max_element(run.begin(), run.end(), [](const auto& a, const auto& b) { return a.base < b.base; });
    rises.push_back(peak->base - run.front().base);
    peaks.push_back(peak->time);
    const double half = day + 0.5 * (run.front().hottest - day);
    const auto fallen = std::find_if(run.begin(), run.end(), [&](const auto& at) { return at.hottest <= half; });
    halves.push_back(fallen != run.end() ? fallen->time : run.back().time);
  }
  const heat::Told rise = heat::told(std::move(rises));
  wire::HeatSoak out{rise.value, rise.low, rise.high, peaks.front(), halves.front(), ""};
  const bool told_apart = rise.low >= rise_worth_a_word;
  out.sentence =
      "Stopped hot, with the fan gone, " +
      (told_apart ? "the base gets " + plain(rise.low) + " to " + plain(rise.high) + " K hotter still within " +
                        base::number_text(std::max(10.0, out.base_peak_s), 0) + " s"
                  : std::string("whether the base still gets hotter is not told apart")) +
      "; the hottest place takes about " + base::number_text(out.half_s, 0) +
      " s to lose half of what it stands above the day. Letting it idle before it is stopped is common "
      "practice.";
  return out;
}

std::string promise_of(bool calibrated, const std::optional<SpotRead>& spot, bool fitted) {
  if (calibrated)
    return "Brought to the one spot that was read: " + spot->words +
           ". Degrees elsewhere stand with their range; nothing but that spot was measured.";
  const std::string plainly =
      "Nothing here is a temperature: places stand in order, and every number is a difference between two of them or "
      "against stock, with its range.";
  if (spot && !fitted)
    return "The spot that was read (" + spot->words +
           ") cannot be met by any air that a fan may give, so it was not used. " + plainly;
  return "No spot was read on this saw. " + plainly;
}

std::vector<study::Assumed> heat_assumed() {
  std::vector<study::Assumed> out;
  for (const heat::AssumptionRange& range : heat::assumption_ranges()) {
    const tables::RunRow& row = *range.row;
    const auto shown = [&](double si) { return (si - row.zero) / row.per_unit; };
    out.push_back({"heat." + row.name, shown(row.value), shown(row.low), shown(row.high), row.unit, row.source});
  }
  return out;
}

}  // namespace portwright::desk
