#include "base/number_text.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace portwright::base {
namespace {

constexpr const char* minus_sign = "\u2212";
constexpr const char* thousands_blank = "\u202F";
constexpr double psi_per_bar = 1e5 * 25.4e-3 * 25.4e-3 / (0.45359237 * 9.80665);
constexpr double thou_per_mm = 1.0 / 25.4e-3;
// Above this a length is read off a rule, and thou beside it would only be noise.
constexpr double longest_in_thou = 10.0;

// How a figure's unit is shown: its symbol, what the figure is multiplied by, digits without a range.
struct Shown {
  std::string symbol;
  double factor = 1.0;
  int fallback = 2;
};

struct ShownRow {
  std::string_view unit;
  const char* shop;
  const char* metric;
  double shop_factor, metric_factor;
  int shop_fallback, metric_fallback;
};

constexpr ShownRow shown_rows[] = {
    {"-", "", "", 1, 1, 2, 2},
    {"mm", "mm", "mm", 1, 1, 2, 2},
    {"deg", "deg", "deg", 1, 1, 1, 1},
    {"%", "%", "%", 1, 1, 0, 0},
    {"cm3", "cc", "cm\u00B3", 1, 1, 1, 1},
    {"mm3", "mm\u00B3", "mm\u00B3", 1, 1, 0, 0},
    {"cm2", "cm\u00B2", "cm\u00B2", 1, 1, 2, 2},
    {"mm2", "mm\u00B2", "mm\u00B2", 1, 1, 0, 0},
    {"psi", "psi", "bar", 1, 1 / psi_per_bar, 0, 1},
    {"bar", "bar", "bar", 1, 1, 1, 1},
    {"rpm", "rpm", "rpm", 1, 1, 0, 0},
    {"m/s", "m/s", "m/s", 1, 1, 1, 1},
    {"m/s2", "m/s\u00B2", "m/s\u00B2", 1, 1, 0, 0},
    {"s m2", "s mm\u00B2", "s mm\u00B2", 1e6, 1e6, 1, 1},
    {"s/m", "s/m", "s/m", 1, 1, 4, 4},
    {"N", "N", "N", 1, 1, 0, 0},
    {"C", "\u00B0C", "\u00B0C", 1, 1, 0, 0},
    {"K", "K", "K", 1, 1, 0, 0},
    {"W", "W", "W", 1, 1, 0, 0},
};

Shown shown_as(std::string_view unit, UnitStyle style) {
  for (const ShownRow& row : shown_rows) {
    if (row.unit != unit) continue;
    if (style == UnitStyle::shop) return {row.shop, row.shop_factor, row.shop_fallback};
    return {row.metric, row.metric_factor, row.metric_fallback};
  }
  return {std::string(unit), 1.0, 2};
}

Spread scaled(const Spread& s, double factor) {
  const auto times = [factor](double x) { return x * factor; };
  Spread out{times(s.value), {}, {}};
  if (s.low) out.low = times(*s.low);
  if (s.high) out.high = times(*s.high);
  return out;
}

// Place of the last digit that the range allows: 1 for tenths, -2 for hundreds.
int last_place(const Spread& s, int fallback) {
  if (!s.low || !s.high) return fallback;
  const double half = (*s.high - *s.low) / 2.0;
  // A range of rounding alone says nothing of the last digit.
  if (!std::isfinite(half) || !(half > 1e-9 * std::max(std::abs(s.value), 1e-3))) return fallback;
  // The slack keeps a half-range of exactly two last digits (0.2 for tenths) from falling on either side by rounding.
  return std::clamp(static_cast<int>(std::ceil(-std::log10(half / 2.0) - 1e-9)), -12, 6);
}

std::string to_place(double value, int place) {
  if (place >= 0) return number_text(value, place);
  const double step = std::pow(10.0, -place);
  return number_text(std::round(value / step) * step, 0);
}

std::string parted(std::string_view digits) {
  std::string out;
  for (std::size_t i = 0; i < digits.size(); ++i) {
    if (i > 0 && (digits.size() - i) % 3 == 0) out += thousands_blank;
    out += digits[i];
  }
  return out;
}

std::string with_symbol(std::string number, const std::string& symbol) {
  return symbol.empty() ? number : number + ' ' + symbol;
}

// " (35 thou)", " (12.4 bar)": the same value in the bench's other unit.
std::string beside(const Spread& s, std::string_view unit, UnitStyle style) {
  if (style != UnitStyle::shop || !std::isfinite(s.value)) return {};
  if (unit == "mm" && std::abs(s.value) < longest_in_thou) {
    const Spread thou = scaled(s, thou_per_mm);
    // A tenth of a thou is finer than a hundredth of a millimetre: shown only beside thousandths.
    const int finest = last_place(s, 2) > 2 ? 1 : 0;
    return " (" + to_place(thou.value, std::min(last_place(thou, 0), finest)) + " thou)";
  }
  if (unit != "psi") return {};
  const Spread bar = scaled(s, 1.0 / psi_per_bar);
  return " (" + to_place(bar.value, last_place(bar, 1)) + " bar)";
}

}  // namespace

int decimals_for(const Spread& spread, int fallback) { return std::clamp(last_place(spread, fallback), 0, 6); }

std::string number_text(double value, int decimals) {
  if (!std::isfinite(value)) return "\u2014";
  std::array<char, 400> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), std::abs(value),
                                 std::chars_format::fixed, std::clamp(decimals, 0, 17))
                       .ptr;
  const std::string_view text(buffer.data(), static_cast<std::size_t>(end - buffer.data()));
  const std::size_t point = std::min(text.find('.'), text.size());
  const bool nothing = text.find_first_not_of("0.") == std::string_view::npos;
  std::string out = value < 0.0 && !nothing ? minus_sign : "";
  return out + parted(text.substr(0, point)) + std::string(text.substr(point));
}

std::string value_text(const Spread& spread, std::string_view unit, UnitStyle style) {
  const Shown shown = shown_as(unit, style);
  const Spread s = scaled(spread, shown.factor);
  if (!std::isfinite(s.value)) return "\u2014";
  return with_symbol(to_place(s.value, last_place(s, shown.fallback)), shown.symbol) + beside(spread, unit, style);
}

std::string range_text(const Spread& spread, std::string_view unit, UnitStyle style) {
  if (!spread.low || !spread.high) return {};
  const Shown shown = shown_as(unit, style);
  const Spread s = scaled(spread, shown.factor);
  const int place = last_place(s, shown.fallback);
  return to_place(*s.low, place) + " to " + to_place(*s.high, place);
}

std::string change_text(const Spread& change, std::string_view unit, UnitStyle style) {
  const Shown shown = shown_as(unit, style);
  const Spread s = scaled(change, shown.factor);
  std::string text = to_place(s.value, last_place(s, shown.fallback));
  const bool nothing = text.find_first_of("123456789") == std::string::npos;
  return s.value > 0.0 && !nothing ? '+' + text : text;
}

}  // namespace portwright::base
