#include "study/figure_text.hpp"

#include <algorithm>
#include <cmath>

namespace portwright::study {

namespace {

std::string capital(std::string text) {
  if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  return text;
}

/// How often the samples left a figure without a value, in words; empty when never.
std::string gaps(const Column& samples) {
  const std::size_t all = samples.known.size(), known = samples.count_known();
  if (known == all || all == 0) return {};
  const double share = 100.0 * static_cast<double>(all - known) / static_cast<double>(all);
  return " Within the readings' errors it has no value at all in " + base::number_text(share, share < 10.0 ? 1 : 0) +
         " % of the cases.";
}

/// Specific time-areas are small numbers, so their digits go further than base::decimals_for.
int specific_digits(const base::Spread& spread) {
  constexpr int fewest = 4, most = 7;
  if (!spread.low || !spread.high || !(*spread.high > *spread.low)) return fewest;
  return std::clamp(static_cast<int>(std::ceil(-std::log10((*spread.high - *spread.low) / 4.0))), 0, most);
}

}  // namespace

base::Spread spread_of(const Entry& entry, double value, const std::optional<numerics::Range>& range) {
  base::Spread spread{value * entry.row->scale, {}, {}};
  if (range) {
    spread.low = range->low * entry.row->scale;
    spread.high = range->high * entry.row->scale;
  }
  return spread;
}

std::string figure_text(const Entry& entry, const base::Spread& spread, base::UnitStyle style) {
  if (std::string_view(entry.row->id) == "impulse.covered") return spread.value > 0.5 ? "yes" : "no";
  if (std::string_view(entry.row->unit) != "s/m") return base::value_text(spread, entry.row->unit, style);
  const int digits = specific_digits(spread);  // 1 s cm2/cm3 = 100 s/m
  return base::number_text(spread.value, digits) + " s/m (" + base::number_text(spread.value / 100.0, digits + 2) +
         " s cm2/cm3)";
}

Figure make_figure(const Case& study_case, const Entry& entry, const Known& value, const Column& samples,
                   const std::optional<numerics::Range>& range, base::UnitStyle style) {
  const FigureRow& row = *entry.row;
  Figure figure;
  figure.id = entry.id;
  figure.unit = row.unit;
  figure.count = std::max(entry.count, 1);
  figure.formula = filled(row.formula, entry.name, study_case.speed());
  figure.why = capital(filled(row.why, entry.name, study_case.speed()));
  figure.source = row.source;
  if (!value) {
    figure.waits_for = study_case.paths(value.needs());
    figure.text = "\u2014";
    return figure;
  }
  const base::Spread spread = spread_of(entry, *value, range);
  figure.value = spread.value;
  figure.low = spread.low;
  figure.high = spread.high;
  figure.text = figure_text(entry, spread, style);
  figure.why += gaps(samples);
  return figure;
}

Change make_change(const Entry& entry, double value, const Column& differences) {
  Change change;
  change.value = value * entry.row->scale;
  const std::optional<numerics::Range> range = range_of(differences);
  if (range) {
    change.low = range->low * entry.row->scale;
    change.high = range->high * entry.row->scale;
    change.distinguishable = *change.low > 0.0 || *change.high < 0.0;
    return change;
  }
  // Every sample says the same: the change is as sure as the cut.
  const bool sampled = differences.count_known() > 0;
  if (sampled) change.low = change.high = change.value;
  change.distinguishable = sampled && std::abs(value) > 1e-12;
  return change;
}

void fill_texts(Figure& figure, base::UnitStyle style) {
  const bool specific = figure.unit == "s/m", yes_or_no = figure.id == "impulse.covered";
  const auto text = [&](const base::Spread& spread) {
    if (yes_or_no) return std::string(spread.value > 0.5 ? "yes" : "no");
    if (specific) return base::number_text(spread.value, specific_digits(spread)) + " s/m";
    return base::value_text(spread, figure.unit, style);
  };
  if (figure.value && figure.low && figure.high && !yes_or_no) {
    const base::Spread spread{*figure.value, figure.low, figure.high};
    const std::string both = base::range_text(spread, figure.unit, style);
    const std::size_t between = both.find(" to ");
    if (specific) {
      figure.low_text = base::number_text(*figure.low, specific_digits(spread));
      figure.high_text = base::number_text(*figure.high, specific_digits(spread));
    } else if (between != std::string::npos) {
      figure.low_text = both.substr(0, between);
      figure.high_text = both.substr(between + 4);
    }
  }
  if (figure.stock) figure.stock_text = text(*figure.stock);
  if (!figure.change) return;
  const base::Spread change{figure.change->value, figure.change->low, figure.change->high};
  figure.change_text = !figure.change->distinguishable ? "not told apart"
                       : specific
                           ? (change.value > 0.0 ? "+" : "") + base::number_text(change.value, specific_digits(change))
                           : base::change_text(change, figure.unit, style);
}

}  // namespace portwright::study
