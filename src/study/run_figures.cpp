#include "study/run_figures.hpp"

#include <algorithm>
#include <cmath>

namespace portwright::study {

namespace {

using cycle::Point;

constexpr double bar = 1e-5, kilo = 1e-3, percent = 1e2, mm = 1e3, per_kwh = 3.6e9, rpm = 60.0,
                 psi = 1.0 / 6894.757293168361;
constexpr const char* simulated = "own arithmetic";

const RunRow rows[] = {
    {"run.power", "kW", kilo, 0, &Point::power, "Power", "brake torque times speed",
     "It is what is left at the crank when friction, fan and pump have had theirs.", simulated, true, false, true},
    {"run.torque", "N m", 1, 0, &Point::torque, "Torque", "brake work of a turn over 2 pi",
     "It is what the chain feels; it peaks where the engine fills itself best.", simulated, true, false, true},
    {"run.bmep", "bar", bar, 0, &Point::bmep, "Brake mean pressure", "brake work of a turn over displacement",
     "It compares engines of any size: torque for each cubic centimetre.", simulated, true},
    {"run.imep", "bar", bar, 0, &Point::imep, "Indicated mean pressure",
     "work of the gas on the piston in a turn, above and below, over displacement",
     "It is what the gas gives before friction takes its part.", simulated, true},
    {"run.delivery_ratio", "-", 1, 0, &Point::delivery_ratio, "Delivery ratio",
     "fresh charge drawn in a turn over the displacement full of the day's air",
     "It says how well the case breathes, whatever becomes of the charge later.", simulated},
    {"run.trapping", "-", 1, 0, &Point::trapping, "Trapping", "fresh charge trapped over fresh charge delivered",
     "What is not trapped went out of the exhaust unburnt.", simulated},
    {"run.scavenging", "-", 1, 0, &Point::scavenging, "Scavenging", "fresh share of what is trapped",
     "Old gas that stays slows the burning and takes the fresh charge's room.", simulated},
    {"run.charging", "-", 1, 0, &Point::charging, "Charging",
     "fresh charge trapped over the displacement full of the day's air",
     "It is the breath that burns: power follows it more than anything else.", simulated, false, false, true},
    {"run.peak_pressure", "bar", bar, 0, &Point::peak_pressure, "Peak pressure", "greatest pressure in the cylinder",
     "It loads crown, pin, rod and big end once a turn.", simulated, false, false, true},
    {"run.exhaust_temperature", "K", 1, 0, &Point::exhaust_temperature, "Exhaust temperature",
     "mass mean of the gas at the exhaust window", "Hotter gas heats bridge, piston front and muffler.", simulated,
     false, false, true},
    {"run.case_low", "bar", bar, 0, &Point::case_low, "Lowest case pressure",
     "least pressure below the piston, absolute", "The deeper it falls, the harder the intake is pulled.", simulated},
    {"run.case_high", "bar", bar, 0, &Point::case_high, "Highest case pressure",
     "greatest pressure below the piston, absolute", "It drives the charge through the transfers.", simulated},
    {"run.fuel", "g/kWh", per_kwh, 0, &Point::fuel, "Fuel", "fuel drawn in over brake work",
     "Charge that crosses straight to the exhaust is in it.", simulated, true, false, false, true},
    {"run.knock", "-", 1, 0, &Point::knock, "Knock integral",
     "time the end gas spends against the time it takes to light itself; 1 is knock",
     "It tells how near the last of the charge comes to lighting by itself; a correlation, so an estimate.",
     "douaud_eyzat, livengood_wu", false, false, true},
    {"run.spit_back", "%", percent, 0, &Point::spit_back, "Spit-back",
     "gas back out through the last intake door, of what came in",
     "What is spat back takes fuel twice and wets the filter.", simulated},
    {"run.blow_back", "%", percent, 0, &Point::blow_back, "Case blown back",
     "gas from the cylinder into the transfers, of what they deliver",
     "Burnt gas in the transfers holds the fresh charge back and heats the case.", simulated, false, false, true},
    {"run.reed_lift", "mm", mm, 0, &Point::reed_lift, "Reed lift", "greatest lift of the petal's tip",
     "It says how much of the block's opening is used.", simulated, false, true},
    {"run.reed_impact", "m/s", 1, 0, &Point::reed_impact, "Reed impact",
     "greatest speed of the petal onto seat or stop", "Petals chip and fray where they strike hard.", simulated, false,
     true},
    {"run.heat.cylinder", "W", 1, 0, &Point::heat_cylinder, "Heat into the cylinder",
     "heat the gas gives to crown, head and bore", "It is what fins and fan have to carry off.", simulated},
};

// 1 less the integral stands in no Point, so it is a row upon the knock integral.
const RunRow margin_row = {"run.knock_margin",
                           "-",
                           -1,
                           1,
                           &Point::knock,
                           "Knock margin",
                           "1 less the knock integral",
                           "What is left of it is the room for compression, advance and heat on this fuel.",
                           "douaud_eyzat, livengood_wu"};

std::vector<RunRow> all_rows() {
  std::vector<RunRow> out(std::begin(rows), std::end(rows));
  const auto knock = std::find_if(out.begin(), out.end(), [](const RunRow& row) { return row.value == &Point::knock; });
  out.insert(knock + 1, margin_row);
  return out;
}

const OnceRow zero_torque = {"run.zero_torque_rpm",
                             "rpm",
                             rpm,
                             "Speed without torque, upper bound",
                             "speed at which what the gas gives equals what is stated as lost",
                             "No engine turns faster than this by itself; the speed it reaches unloaded is set by the "
                             "rich screw and lies below.",
                             simulated};

const OnceRow gauge = {"crank.gauge",
                       "psi",
                       psi,
                       "Compression on the gauge",
                       "the same engine pulled over cold at 800 rpm with the gauge's own volume screwed in",
                       "Held against what the gauge showed it tells worn rings from a chamber read wrong.",
                       simulated};

/// Decimals that leave three digits.
int digits_of(double value, std::string_view unit) {
  if (!(std::abs(value) > 1e-12)) return unit == "rpm" || unit == "K" || unit == "W" ? 0 : 1;
  return std::clamp(2 - static_cast<int>(std::floor(std::log10(std::abs(value)) + 1e-9)), -12, 4);
}

base::Spread of_digits(double value, int digits) {
  const double half = 2.0 * std::pow(10.0, -digits);
  return {value, value - half, value + half};
}

std::string about(const base::Spread& spread, std::string_view unit, base::UnitStyle style) {
  return "about " + base::range_text(spread, unit, style) + ' ' + std::string(unit);
}

base::Spread shown(const RunRow& row, const cycle::Band& band, double value) {
  const double a = row.shown(band.low), b = row.shown(band.high);
  return {row.shown(value), std::min(a, b), std::max(a, b)};
}

/// No narrower than the usual doubt: the assumptions do not hold all that a model leaves out.
base::Spread widened(base::Spread spread) {
  const double doubt = doubt_of_power * std::abs(spread.value);
  return {spread.value, std::min(*spread.low, spread.value - doubt), std::max(*spread.high, spread.value + doubt)};
}

/// The range of a figure that nothing was run for: none, or for an absolute one the usual doubt.
base::Spread unbanded(const RunRow& row, double value) {
  const double v = row.shown(value);
  if (!row.absolute) return {v, {}, {}};
  const double doubt = doubt_of_power * std::abs(v);
  return {v, v - doubt, v + doubt};
}

}  // namespace

std::span<const RunRow> run_rows() {
  static const std::vector<RunRow> table = all_rows();
  return table;
}

const RunRow* run_row(std::string_view id) {
  for (const RunRow& row : run_rows())
    if (row.id == id) return &row;
  return nullptr;
}

const OnceRow& zero_torque_row() { return zero_torque; }
const OnceRow& gauge_row() { return gauge; }

std::string three_digits(double value, std::string_view unit, base::UnitStyle style) {
  return base::value_text(of_digits(value, digits_of(value, unit)), unit, style);
}

bool has_row(const RunRow& row, const cycle::Point& point, bool has_reed) {
  if (row.reed_only && !has_reed) return false;
  return !row.needs_work || point.*row.value > 0.0;
}

Figure run_figure(const RunRow& row, double value, const RunRange& range, base::UnitStyle style) {
  Figure figure;
  figure.id = row.id;
  figure.unit = row.unit;
  figure.label = row.label;
  figure.formula = row.formula;
  figure.why = row.why;
  figure.source = row.source;
  base::Spread spread = range.band ? shown(row, *range.band, value) : unbanded(row, value);
  if (row.absolute && !range.anchored) spread = widened(spread);
  figure.value = spread.value;
  figure.low = spread.low;
  figure.high = spread.high;
  if (row.absolute && !range.anchored)
    figure.text = about(spread, row.unit, style);
  else if (spread.low)
    figure.text = base::value_text(spread, row.unit, style);
  else
    figure.text = three_digits(spread.value, row.unit, style);
  return figure;
}

std::vector<Figure> run_figures(const cycle::Point& point, bool has_reed, std::span<const RunRange> ranges,
                                base::UnitStyle style) {
  std::vector<Figure> out;
  const std::span<const RunRow> table = run_rows();
  for (std::size_t i = 0; i < table.size(); ++i)
    if (has_row(table[i], point, has_reed))
      out.push_back(run_figure(table[i], point.*table[i].value, i < ranges.size() ? ranges[i] : RunRange{}, style));
  return out;
}

Figure once_figure(const OnceRow& row, double value, const std::optional<cycle::Band>& range, base::UnitStyle style) {
  Figure figure;
  figure.id = row.id;
  figure.unit = row.unit;
  figure.label = row.label;
  figure.formula = row.formula;
  figure.why = row.why;
  figure.source = row.source;
  figure.value = value * row.scale;
  if (!range) {
    figure.text = three_digits(*figure.value, row.unit, style);
    return figure;
  }
  figure.low = range->low * row.scale;
  figure.high = range->high * row.scale;
  figure.text = base::value_text({*figure.value, figure.low, figure.high}, row.unit, style);
  return figure;
}

std::string signed_change(const base::Spread& change, double stock, std::string_view unit, base::UnitStyle style) {
  base::Spread size = change;
  if (!size.low || !size.high) size = of_digits(change.value, std::min(digits_of(change.value, unit), 3));
  const bool falls = change.value < 0.0;
  if (falls) size = {-size.value, -*size.high, -*size.low};
  const std::string text = base::value_text(size, unit, style);
  const bool nothing = text.find_first_of("123456789") == std::string::npos;
  std::string out = (nothing ? "" : falls ? "\u2212" : "+") + text;
  if (unit == "%" || !(std::abs(stock) > 1e-9)) return out;
  const double share = 100.0 * change.value / std::abs(stock);
  if (!(std::abs(share) < 1000.0)) return out;
  const std::string percents = base::number_text(share, std::abs(share) < 9.95 ? 1 : 0);
  return out + " (" + (share > 0.0 && !nothing ? "+" : "") + percents + " %)";
}

}  // namespace portwright::study
