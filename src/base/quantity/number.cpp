#include "base/quantity/number.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "base/quantity/normal.hpp"

namespace portwright::base::typed {
namespace {

bool is_mark(char c) { return c == '.' || c == ','; }
bool is_dash(char c) { return c == '-' || c == en_dash; }

std::string_view skip_blanks(std::string_view s) {
  while (!s.empty() && is_blank(s.front())) s.remove_prefix(1);
  return s;
}

std::string_view take_digits(std::string_view& s) {
  std::size_t n = 0;
  while (n < s.size() && is_digit(s[n])) ++n;
  const std::string_view digits = s.substr(0, n);
  s.remove_prefix(n);
  return digits;
}

// Digits, marks, and narrow blanks between digits.
std::string_view take_numeral(std::string_view& s) {
  std::size_t n = 0;
  while (n < s.size() &&
         (is_digit(s[n]) || is_mark(s[n]) ||
          (s[n] == group_blank && n > 0 && is_digit(s[n - 1]) && n + 1 < s.size() && is_digit(s[n + 1])))) {
    ++n;
  }
  const std::string_view numeral = s.substr(0, n);
  s.remove_prefix(n);
  return numeral;
}

double to_double(std::string_view digits) {
  double value = 0.0;
  std::from_chars(digits.data(), digits.data() + digits.size(), value);
  return value;
}

std::string without(std::string_view text, std::string_view dropped) {
  std::string out;
  for (const char c : text) {
    if (dropped.find(c) == std::string_view::npos) out += c;
  }
  return out;
}

// One to three digits, not all zero at the head, then groups of exactly three parted by `mark`, at least one.
bool is_grouped(std::string_view whole, char mark) {
  const std::size_t first = std::min(whole.find(mark), whole.size());
  if (first == 0 || first > 3 || first == whole.size()) return false;
  if (to_double(whole.substr(0, first)) == 0.0) return false;
  for (std::size_t i = first; i < whole.size(); i += 4) {
    if (whole[i] != mark || i + 4 > whole.size()) return false;
    for (std::size_t k = 1; k < 4; ++k) {
      if (!is_digit(whole[i + k])) return false;
    }
  }
  return true;
}

// "1250.5" of a numeral whose thousands are parted by `group` and whose decimals follow `mark`; empty if it is not one.
std::string ungrouped(std::string_view numeral, char group, char mark) {
  const std::size_t at = std::min(numeral.find(mark), numeral.size());
  const std::string_view tail = numeral.substr(at == numeral.size() ? at : at + 1);
  if (!is_grouped(numeral.substr(0, at), group) || std::any_of(tail.begin(), tail.end(), is_mark)) return {};
  std::string out = without(numeral.substr(0, at), std::string_view(&group, 1));
  return tail.empty() ? out : out + "." + std::string(tail);
}

void doubt(Number& n, std::string why, std::vector<std::string> meant = {}) {
  n.why = std::move(why);
  n.meant = std::move(meant);
}

void take_decimal(Number& n, std::string digits) {
  std::replace(digits.begin(), digits.end(), ',', '.');
  const std::size_t point = digits.find('.');
  const std::size_t places = point == std::string::npos ? 0 : digits.size() - point - 1;
  if (point == 0) digits = '0' + digits;
  if (places == 0 && point != std::string::npos) digits.pop_back();
  n.value = to_double(digits);
  n.step = std::pow(10.0, -static_cast<double>(places));
  n.text = plain_number(n.value);
}

std::string decimal_text(std::string digits) {
  Number n;
  take_decimal(n, std::move(digits));
  return n.text;
}

void take_several_marks(Number& n, std::string_view numeral) {
  std::string whole = ungrouped(numeral, ',', '.');
  if (whole.empty()) whole = ungrouped(numeral, '.', ',');
  if (!whole.empty()) return doubt(n, "has points or commas that part thousands", {decimal_text(whole)});
  std::vector<std::size_t> marks;
  for (std::size_t i = 0; i < numeral.size(); ++i) {
    if (is_mark(numeral[i])) marks.push_back(i);
  }
  if (marks.size() > 2) return doubt(n, "has more than one decimal point");
  std::string first(numeral);
  std::string second(numeral);
  first.erase(marks[1], 1);
  second.erase(marks[0], 1);
  std::vector<std::string> meant{decimal_text(first)};
  if (decimal_text(second) != meant[0]) meant.push_back(decimal_text(second));
  doubt(n, "has more than one decimal point", std::move(meant));
}

// A reading of three decimals that will not be taken for thousands again.
std::string three_places(std::string_view numeral) {
  std::string text = decimal_text(std::string(numeral));
  const std::size_t point = text.find('.');
  return point != std::string::npos && text.size() - point == 4 ? text + "0" : text;
}

void take_numeral_value(Number& n, std::string_view numeral) {
  if (numeral.find(group_blank) != std::string_view::npos) {
    const std::size_t at = std::min(numeral.find_first_of(".,"), numeral.size());
    std::string joined = without(numeral, std::string_view(&group_blank, 1));
    if (std::count_if(numeral.begin(), numeral.end(), is_mark) > 1)
      return doubt(n, "has blanks and several points in it");
    if (!is_grouped(numeral.substr(0, at), group_blank))
      return doubt(n, "has a blank in its number", {decimal_text(joined)});
    return take_decimal(n, joined);
  }
  const auto marks = std::count_if(numeral.begin(), numeral.end(), is_mark);
  if (marks > 1) return take_several_marks(n, numeral);
  take_decimal(n, std::string(numeral));
  if (is_grouped(numeral, ','))
    doubt(n, "may have a decimal comma or parted thousands", {n.text, decimal_text(without(numeral, ","))});
  if (is_grouped(numeral, '.')) n.if_coarse = {three_places(numeral), decimal_text(without(numeral, "."))};
}

struct Fraction {
  std::string_view top, bottom;
};

// digits / digits at the head; the text is left as it was if there is none.
bool take_fraction(std::string_view& s, Fraction& f) {
  std::string_view t = skip_blanks(s);
  f.top = take_digits(t);
  t = skip_blanks(t);
  if (f.top.empty() || t.empty() || t.front() != '/') return false;
  t = skip_blanks(t.substr(1));
  f.bottom = take_digits(t);
  if (f.bottom.empty()) return false;
  s = t;
  return true;
}

std::string mixed_text(double whole, double top, double bottom) {
  const std::string w = whole > 0.0 || top == 0.0 ? plain_number(whole) : "";
  if (top == 0.0) return w;
  return w + (w.empty() ? "" : " ") + plain_number(top) + "/" + plain_number(bottom);
}

// What "113/16" may be: itself as a mixed number, or one whose blank was left out.
std::vector<std::string> improper_meanings(const Fraction& f) {
  const double top = to_double(f.top);
  const double bottom = to_double(f.bottom);
  std::vector<std::string> meant{mixed_text(std::floor(top / bottom), std::fmod(top, bottom), bottom)};
  for (std::size_t cut = f.top.size() - 1; cut > 0; --cut) {
    const double part = to_double(f.top.substr(cut));
    if (f.top[cut] != '0' && f.top[0] != '0' && part < bottom) {
      meant.push_back(mixed_text(to_double(f.top.substr(0, cut)), part, bottom));
    }
  }
  return meant;
}

void take_fraction_value(Number& n, std::string_view whole, const Fraction& f) {
  const double w = to_double(whole);
  const double top = to_double(f.top);
  const double bottom = to_double(f.bottom);
  const std::string_view after = skip_blanks(n.rest);
  if (bottom == 0.0) return doubt(n, "divides by nothing");
  if (f.bottom.size() > 4 || f.top.size() > 6) return doubt(n, "has a fraction that no rule shows");
  if (after.size() > 1 && after[0] == '/' &&
      is_digit(skip_blanks(after.substr(1)).empty() ? ' ' : skip_blanks(after.substr(1))[0])) {
    return doubt(n, "has two fraction bars");
  }
  if (whole.empty() && top >= bottom)
    return doubt(n, "is a fraction of one or more; a blank may be missing", improper_meanings(f));
  if (top >= bottom) {
    return doubt(n, "has a fraction of one or more after a whole number",
                 {mixed_text(w + std::floor(top / bottom), std::fmod(top, bottom), bottom)});
  }
  n.value = w + top / bottom;
  n.step = 1.0 / bottom;
  n.text = mixed_text(w, top, bottom);
  if (n.text == "0") n.value = 0.0;
}

bool has_mark(std::string_view numeral) { return numeral.find_first_of(".,\x1f") != std::string_view::npos; }

// "1-3/16", "0.5-0.6" and the like; true if there is a dash and then a number.
bool take_dash(Number& n, std::string_view numeral, bool negative) {
  std::string_view s = skip_blanks(n.rest);
  if (s.empty() || !is_dash(s.front())) return false;
  const bool tight = n.rest.data() == s.data() && s.front() == '-' && s.size() > 1 && is_digit(s[1]);
  s.remove_prefix(1);
  Fraction f{};
  std::string_view after = s;
  if (!has_mark(numeral) && take_fraction(after, f)) {
    n.rest = after;
    take_fraction_value(n, numeral, f);
    if (!n.why.empty()) return true;
    n.inches_only = true;
    if (!tight || negative) doubt(n, "has a dash in it that may mean a span", {n.text});
    return true;
  }
  s = skip_blanks(s);
  std::string_view second = take_numeral(s);
  if (second.empty() || std::none_of(second.begin(), second.end(), is_digit)) return false;
  Number other;
  take_numeral_value(other, second);
  n.rest = s;
  const bool clear = n.why.empty() && other.why.empty();
  doubt(n, "is a span of two numbers", clear ? std::vector{n.text, other.text} : std::vector<std::string>{});
  n.signless_pair = true;
  return true;
}

// A second number after a blank: a mixed fraction, or two numbers; "1/min" is neither.
void take_second(Number& n, std::string_view numeral) {
  std::string_view s = skip_blanks(n.rest);
  if (s.empty()) return;
  Fraction f{};
  if (take_fraction(s, f)) {
    n.rest = s;
    if (has_mark(numeral)) return doubt(n, "mixes decimals and a fraction");
    return take_fraction_value(n, numeral, f);
  }
  if (s.front() == '/' && s.size() > 1) {
    std::string_view t = skip_blanks(s.substr(1));
    if (t.empty() || !is_digit(t.front())) return;
    f = {numeral, take_digits(t)};
    n.rest = t;
    if (has_mark(numeral)) return doubt(n, "mixes decimals and a fraction");
    return take_fraction_value(n, {}, f);
  }
  std::string_view t = s;
  const std::string_view second = take_numeral(t);
  if (second.empty() || std::none_of(second.begin(), second.end(), is_digit)) return;
  if (!t.empty() && skip_blanks(t).substr(0, 1) == "/") return;  // "8500 1/min"
  n.rest = t;
  const std::string joined = std::string(numeral) + std::string(second);
  const bool clear = n.why.empty() && std::count_if(joined.begin(), joined.end(), is_mark) <= 1 &&
                     joined.find(group_blank) == std::string::npos;
  doubt(n, "has a blank in its number, or is two",
        clear ? std::vector{decimal_text(joined)} : std::vector<std::string>{});
}

// "1e3": a power of ten, written out.
void take_exponent(Number& n) {
  const std::string_view s = n.rest;
  if (s.empty() || (s[0] != 'e' && s[0] != 'E')) return;
  std::string_view t = s.substr(1);
  const bool minus = !t.empty() && t.front() == '-';
  if (!t.empty() && (t.front() == '-' || t.front() == '+')) t.remove_prefix(1);
  const std::string_view power = take_digits(t);
  if (power.empty()) return;
  n.rest = t;
  const double exponent = to_double(power);
  if (exponent > 9.0) return doubt(n, "is a power of ten");
  doubt(n, "is a power of ten", {plain_number(n.value * std::pow(10.0, minus ? -exponent : exponent))});
}

void put_sign(Number& n) {
  n.value = n.value == 0.0 ? 0.0 : -n.value;
  const auto sign = [](std::string& text) {
    if (text != "0") text = '-' + text;
  };
  sign(n.text);
  std::for_each(n.meant.begin(), n.signless_pair && !n.meant.empty() ? n.meant.begin() + 1 : n.meant.end(), sign);
  std::for_each(n.if_coarse.begin(), n.if_coarse.end(), sign);
}

}  // namespace

std::string plain_number(double value) {
  if (value == 0.0 || !std::isfinite(value)) return "0";
  const int magnitude = static_cast<int>(std::floor(std::log10(std::abs(value))));
  std::array<char, 400> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed,
                                 std::clamp(11 - magnitude, 0, 60))
                       .ptr;
  std::string out(buffer.data(), end);
  if (out.find('.') != std::string::npos) {
    while (out.back() == '0') out.pop_back();
    if (out.back() == '.') out.pop_back();
  }
  return out;
}

Number scan_number(std::string_view normal) {
  Number n;
  std::string_view s = skip_blanks(normal);
  const bool signed_ = !s.empty() && (is_dash(s.front()) || s.front() == '+');
  const bool negative = signed_ && s.front() != '+';
  if (signed_) s = skip_blanks(s.substr(1));
  n.rest = s;
  if (signed_ && !s.empty() && (is_dash(s.front()) || s.front() == '+')) {
    Number inner = scan_number(s);
    const bool plain = inner.why.empty() && negative && is_dash(s.front());
    doubt(n, "has two signs", plain ? std::vector{inner.text} : std::vector<std::string>{});
    n.rest = inner.rest;
    return n;
  }
  const std::string_view numeral = take_numeral(s);
  if (std::none_of(numeral.begin(), numeral.end(), is_digit)) {
    doubt(n, "has no number");
    return n;
  }
  n.rest = s;
  take_numeral_value(n, numeral);
  if (!take_dash(n, numeral, negative)) take_second(n, numeral);
  if (n.why.empty()) take_exponent(n);
  n.rest = trimmed(n.rest);
  if (negative) put_sign(n);
  return n;
}

}  // namespace portwright::base::typed
