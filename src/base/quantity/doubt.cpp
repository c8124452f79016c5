#include "base/quantity/doubt.hpp"

#include <algorithm>

#include "base/quantity/normal.hpp"
#include "base/quantity/number.hpp"

namespace portwright::base::typed {
namespace {

using enum Dimension;

struct Meaning {
  const char* spelling;  // lower case, no blanks
  Dimension dimension;
  double factor;
  const char* symbol;
};

// Fluid ounces: 29.5735295625 cm3 (231 in3 / 128) and 28.4130625 cm3 (4.54609 l / 160), grain 64.79891 mg; by
// definition.
constexpr Meaning meanings[] = {
    {"mil", length, 1.0, "thou"},
    {"mil", length, 1.0, "mm"},
    {"mils", length, 1.0, "thou"},
    {"mils", length, 1.0, "mm"},
    {"thousandths", length, 1.0, "thou"},
    {"thousandths", length, 0.001, "mm"},
    {"thousandth", length, 1.0, "thou"},
    {"thousandth", length, 0.001, "mm"},
    {"hundredths", length, 0.01, "mm"},
    {"hundredths", length, 0.01, "in"},
    {"hundredth", length, 0.01, "mm"},
    {"hundredth", length, 0.01, "in"},
    {"tenths", length, 0.1, "mm"},
    {"tenths", length, 0.1, "thou"},
    {"tenth", length, 0.1, "mm"},
    {"tenth", length, 0.1, "thou"},
    {"gr", mass, 1.0, "g"},
    {"gr", mass, 0.06479891, "g"},
    {"floz", volume, 29.5735295625, "cm3"},
    {"floz", volume, 28.4130625, "cm3"},
    {"deg", temperature, 1.0, "C"},
    {"deg", temperature, 1.0, "F"},
    {"degree", temperature, 1.0, "C"},
    {"degree", temperature, 1.0, "F"},
    {"degrees", temperature, 1.0, "C"},
    {"degrees", temperature, 1.0, "F"},
    {"krpm", speed, 1000.0, "rpm"},
    {"k", speed, 1000.0, "rpm"},
    {"psig", pressure, 1.0, "psi"},
    {"barg", pressure, 1.0, "bar"},
    {"bar(g)", pressure, 1.0, "bar"},
    {"'", length, 1.0, "ft"},
    {"''", length, 1.0, "in"},
    {"'", angle, 1.0 / 60.0, "deg"},
};

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

std::string squeezed(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (!is_blank(c) && c != '^') out += lower(c);
  }
  return out;
}

std::optional<Doubt> two_meanings(double value, std::string_view unit, std::optional<Dimension> expected) {
  const std::string spelling = squeezed(unit);
  if (unit == "mPa") return Doubt{"may be in milli or in mega", "", {plain_number(value) + " MPa"}};
  // Some spellings are plain units of another kind; they are doubtful only where this kind is asked for.
  const bool plain_elsewhere = find_unit(spelling) != nullptr;
  Doubt doubt;
  for (const Meaning& m : meanings) {
    if (spelling != m.spelling) continue;
    if (plain_elsewhere ? expected != m.dimension : expected && *expected != m.dimension) continue;
    doubt.readings.push_back(plain_number(value * m.factor) + " " + m.symbol);
  }
  if (doubt.readings.empty()) return std::nullopt;
  doubt.why = "has a unit that is not clear";
  if (spelling == "psig" || spelling.starts_with("bar")) doubt.hint = "the field says whether it is a gauge reading";
  return doubt;
}

// "deg BTDC": the field has its own datum, and dropping the typed one silently could misread it.
std::optional<Doubt> datum_words(const std::string& number, std::string_view unit) {
  const std::string spelling = squeezed(unit);
  if (spelling == "psia" || spelling == "bara" || spelling == "bar(a)") {
    return Doubt{"is an absolute pressure", "a gauge shows what is above the air's; write that", {}};
  }
  if (spelling.size() < 4) return std::nullopt;
  const std::string datum = spelling.substr(spelling.size() - 4);
  if (datum != "atdc" && datum != "btdc" && datum != "abdc" && datum != "bbdc") return std::nullopt;
  const std::string before = spelling.substr(0, spelling.size() - 4);
  const Unit* found = find_unit(before);
  if (!before.empty() && (found == nullptr || found->dimension != angle)) return std::nullopt;
  Doubt doubt{"names where the angle is counted from; the field does that", "", {}};
  if (datum[1] == 't') {
    doubt.readings.push_back(number + " " + (found != nullptr ? found->symbol : "deg"));
  } else {
    doubt.hint = "fields count from top dead centre: 180 less the angle from bottom dead centre";
  }
  return doubt;
}

// A blank after a single letter, or before a digit: "m m", "cm 3".
bool has_loose_blank(std::string_view unit) {
  for (std::size_t i = 1; i + 1 < unit.size(); ++i) {
    if (!is_blank(unit[i])) continue;
    const bool single = is_letter(unit[i - 1]) && (i < 2 || is_blank(unit[i - 2]));
    if ((single && is_letter(unit[i + 1])) || is_digit(unit[i + 1])) return true;
  }
  return false;
}

// Letters that look like digits, in the text up to the first character that cannot belong to a number.
std::optional<std::string> without_lookalikes(const std::string& normal) {
  std::string number;
  std::size_t i = 0;
  bool changed = false;
  for (; i < normal.size(); ++i) {
    const char c = normal[i];
    const bool zero = c == 'O' || c == 'o';
    const bool one = c == 'l' || c == 'I';
    if (zero || one) {
      number += zero ? '0' : '1';
      changed = true;
    } else if (is_digit(c) || c == '.' || c == ',' || c == '-' || c == '+') {
      number += c;
    } else if (!is_blank(c)) {
      break;
    }
  }
  if (!changed) return std::nullopt;
  return number + " " + normal.substr(i);
}

// The numbers of "10' 3"", "1 ft 3 in", "103 deg 30'": two numbers with the given words after them.
std::optional<std::pair<double, double>> two_steps(std::string_view normal, std::string_view first,
                                                   std::string_view second) {
  const Number a = scan_number(normal);
  if (!a.why.empty() || !a.rest.starts_with(first)) return std::nullopt;
  const Number b = scan_number(a.rest.substr(first.size()));
  if (!b.why.empty() || b.rest != second || a.value < 0.0 || b.value < 0.0) return std::nullopt;
  return std::pair(a.value, b.value);
}

std::string lower_case(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(), lower);
  return text;
}

std::optional<std::string> feet_or_minutes(const std::string& typed_text) {
  const std::string normal = lower_case(typed_text);
  using Words = std::pair<const char*, const char*>;
  for (const auto& [first, second] : {Words("'", "\""), Words("'", "''"), Words("'", ""), Words("'", "in"),
                                      Words("ft", "in"), Words("ft", "\""), Words("feet", "inches")}) {
    if (const auto f = two_steps(normal, first, second)) return plain_number(12.0 * f->first + f->second) + " in";
  }
  for (const char* word : {"deg", "degrees"}) {
    if (const auto f = two_steps(normal, word, "'")) return plain_number(f->first + f->second / 60.0) + " deg";
  }
  return std::nullopt;
}

std::string_view without_joint(std::string_view piece) {
  piece = trimmed(piece);
  while (!piece.empty() && (piece.back() == ',' || piece.back() == ';' || piece.back() == '/' || piece.back() == '&')) {
    piece = trimmed(piece.substr(0, piece.size() - 1));
  }
  return piece;
}

// Two readable quantities one after the other.
std::vector<std::string> split_in_two(const std::string& normal, const Reader& reader) {
  for (std::size_t i = 1; i < normal.size(); ++i) {
    const bool starts_number =
        is_digit(normal[i]) && !is_digit(normal[i - 1]) && normal[i - 1] != '.' && normal[i - 1] != ',';
    if (!starts_number) continue;
    const auto a = reader(std::string(without_joint(std::string_view(normal).substr(0, i))));
    if (!a) continue;
    if (const auto b = reader(normal.substr(i))) return {*a, *b};
  }
  return {};
}

// "50 mm mm", "5 mmm": the last letters struck once too often.
std::optional<std::string> without_repeat(const std::string& normal, const Reader& reader) {
  for (std::size_t n = 1; n <= 4 && 2 * n < normal.size(); ++n) {
    const std::string_view text = normal;
    const std::string_view tail = text.substr(text.size() - n);
    const std::string_view before = trimmed(text.substr(0, text.size() - n));
    if (!is_letter(tail.front()) || !before.ends_with(tail)) continue;
    if (auto read = reader(std::string(before))) return read;
  }
  return std::nullopt;
}

}  // namespace

std::optional<Doubt> doubtful_unit(const std::string& number, double value, std::string_view unit,
                                   std::optional<Dimension> expected) {
  if (auto doubt = two_meanings(value, unit, expected)) return doubt;
  if (auto doubt = datum_words(number, unit)) return doubt;
  if (!has_loose_blank(unit)) return std::nullopt;
  const Unit* joined = find_unit(squeezed(unit), expected);
  if (joined == nullptr || (expected && joined->dimension != *expected)) return std::nullopt;
  return Doubt{"has a blank inside its unit", "", {number + " " + joined->symbol}};
}

Doubt doubt_unknown(const std::string& normal, std::optional<Dimension> expected, const Reader& reader) {
  Doubt doubt;
  if (const auto plain = without_lookalikes(normal)) {
    if (auto read = reader(*plain)) return {"has a letter where a digit belongs", "", {*read}};
  }
  if (const auto one = feet_or_minutes(normal)) {
    if (auto read = reader(*one)) return {"has two units one after the other", "write it in the smaller one", {*read}};
  }
  doubt.readings = split_in_two(normal, reader);
  if (!doubt.readings.empty()) {
    doubt.why = "is more than one quantity";
    doubt.hint = "a list holds repeats of one place";
    return doubt;
  }
  if (auto read = without_repeat(normal, reader)) return {"has its unit twice", "", {*read}};
  doubt.why = scan_number(normal).why;
  if (doubt.why.empty()) doubt.why = "has no unit that is known here";
  if (expected) doubt.hint = usual_units_text(*expected);
  return doubt;
}

std::vector<const char*> usual_units(Dimension dimension) {
  switch (dimension) {
    case length:
      return {"mm", "in", "thou"};
    case area:
      return {"cm2", "mm2", "in2"};
    case volume:
      return {"cm3", "in3"};
    case angle:
      return {"deg"};
    case mass:
      return {"g", "oz"};
    case pressure:
      return {"psi", "bar", "kPa"};
    case force:
      return {"N", "kN", "lbf"};
    case power:
      return {"kW", "hp", "PS"};
    case speed:
      return {"rpm"};
    case velocity:
      return {"m/s", "ft/min"};
    case temperature:
      return {"C", "F", "K"};
    case share:
      return {"%"};
    case count:
      return {};
  }
  return {};
}

std::string usual_units_text(Dimension dimension) {
  std::string out;
  const auto usual = usual_units(dimension);
  for (const char* unit : usual) out += (out.empty() ? "" : unit == usual.back() ? " or " : ", ") + std::string(unit);
  if (out.empty()) return "a plain number, without a unit";
  return "write " + out + " after the number";
}

}  // namespace portwright::base::typed
