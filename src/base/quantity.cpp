#include "base/quantity.hpp"

#include <array>
#include <numbers>

namespace portwright::base {
namespace {

// Exact by definition: inch and foot, pound, standard gravity, horsepower 550 ft lbf/s, metric horsepower 75 kgf m/s,
// atmosphere, millimetre of mercury (133.322 387 415 Pa).
constexpr double inch = 25.4e-3;
constexpr double foot = 0.3048;
constexpr double pound = 0.45359237;
constexpr double gravity = 9.80665;
constexpr double psi = pound * gravity / (inch * inch);
constexpr double degree = std::numbers::pi / 180.0;

template <class... S>
constexpr std::array<const char*, sizeof...(S)> words(S... s) {
  return {s...};
}

constexpr auto w_mm = words("mm", "millimetre", "millimetres", "millimeter", "millimeters");
constexpr auto w_cm = words("cm", "centimetre", "centimetres", "centimeter", "centimeters");
constexpr auto w_m = words("m", "metre", "metres", "meter", "meters");
constexpr auto w_um = words("um", "micron", "microns", "micrometre", "micrometres", "micrometer", "micrometers");
constexpr auto w_in = words("in", "\"", "inch", "inches");
constexpr auto w_thou = words("thou", "thous", "thousandthsofaninch", "thousandthofaninch");
constexpr auto w_ft = words("ft", "foot", "feet");
constexpr auto w_mm2 = words("mm2", "sqmm", "squaremm", "squaremillimetres", "squaremillimeters");
constexpr auto w_cm2 = words("cm2", "sqcm", "squarecm", "squarecentimetres", "squarecentimeters");
constexpr auto w_m2 = words("m2", "sqm", "squaremetres", "squaremeters");
constexpr auto w_in2 = words("in2", "sqin", "sq.in", "squarein", "squareinch", "squareinches");
constexpr auto w_mm3 = words("mm3", "cumm", "cubicmm", "cubicmillimetres", "cubicmillimeters");
constexpr auto w_cm3 = words("cm3", "cc", "ccs", "ccm", "cucm", "cubiccm", "cubiccentimetres", "cubiccentimeters", "ml",
                             "millilitre", "millilitres", "milliliter", "milliliters");
constexpr auto w_l = words("l", "litre", "litres", "liter", "liters", "dm3");
constexpr auto w_m3 = words("m3", "cubicmetres", "cubicmeters");
constexpr auto w_in3 = words("in3", "cuin", "cu.in", "cubicin", "cubicinch", "cubicinches");
constexpr auto w_deg = words("deg", "degs", "degree", "degrees");
constexpr auto w_rad = words("rad", "radian", "radians");
constexpr auto w_g = words("g", "gram", "grams", "gramme", "grammes");
constexpr auto w_kg = words("kg", "kgs", "kilogram", "kilograms", "kilo", "kilos");
constexpr auto w_oz = words("oz", "ounce", "ounces");
constexpr auto w_lb = words("lb", "lbs", "pound", "pounds");
constexpr auto w_psi = words("psi", "lb/in2", "lbs/in2", "lbf/in2", "lb/sqin", "lbs/sqin");
constexpr auto w_bar = words("bar", "bars");
constexpr auto w_mbar = words("mbar", "millibar", "millibars");
constexpr auto w_hpa = words("hpa");
constexpr auto w_kpa = words("kpa", "kilopascal", "kilopascals");
constexpr auto w_pa = words("pa", "pascal", "pascals");
constexpr auto w_mpa = words("mpa", "megapascal", "megapascals");
constexpr auto w_atm = words("atm", "atmosphere", "atmospheres");
constexpr auto w_kgcm2 = words("kgf/cm2", "kg/cm2");
constexpr auto w_mmhg = words("mmhg");
constexpr auto w_inhg = words("inhg");
constexpr auto w_n = words("n", "newton", "newtons");
constexpr auto w_kn = words("kn", "kilonewton", "kilonewtons");
constexpr auto w_lbf = words("lbf");
constexpr auto w_kgf = words("kgf", "kp");
constexpr auto w_w = words("w", "watt", "watts");
constexpr auto w_kw = words("kw", "kilowatt", "kilowatts");
constexpr auto w_hp = words("hp", "bhp", "horsepower");
constexpr auto w_ps = words("ps");
constexpr auto w_rpm = words("rpm", "1/min", "/min", "min-1", "r/min", "rev/min", "revs/min", "u/min", "tr/min");
constexpr auto w_rps = words("rev/s", "rps");
constexpr auto w_ms = words("m/s", "mps");
constexpr auto w_kmh = words("km/h", "kmh", "kph");
constexpr auto w_ftmin = words("ft/min", "fpm");
constexpr auto w_fts = words("ft/s", "fps");
constexpr auto w_mph = words("mph");
constexpr auto w_c = words("c", "degc", "degreesc", "celsius", "degreescelsius");
constexpr auto w_f = words("f", "degf", "degreesf", "fahrenheit", "degreesfahrenheit");
constexpr auto w_k = words("k", "kelvin");
constexpr auto w_percent = words("%", "percent", "pct");

using enum Dimension;
constexpr std::array table = {
    Unit{length, "mm", w_mm, 1e-3, 0.0},
    Unit{length, "cm", w_cm, 1e-2, 0.0},
    Unit{length, "m", w_m, 1.0, 0.0},
    Unit{length, "um", w_um, 1e-6, 0.0},
    Unit{length, "in", w_in, inch, 0.0},
    Unit{length, "thou", w_thou, inch / 1000.0, 0.0},
    Unit{length, "ft", w_ft, foot, 0.0},
    Unit{area, "mm2", w_mm2, 1e-6, 0.0},
    Unit{area, "cm2", w_cm2, 1e-4, 0.0},
    Unit{area, "m2", w_m2, 1.0, 0.0},
    Unit{area, "in2", w_in2, inch* inch, 0.0},
    Unit{volume, "mm3", w_mm3, 1e-9, 0.0},
    Unit{volume, "cm3", w_cm3, 1e-6, 0.0},
    Unit{volume, "l", w_l, 1e-3, 0.0},
    Unit{volume, "m3", w_m3, 1.0, 0.0},
    Unit{volume, "in3", w_in3, inch* inch* inch, 0.0},
    Unit{angle, "deg", w_deg, degree, 0.0},
    Unit{angle, "rad", w_rad, 1.0, 0.0},
    Unit{mass, "g", w_g, 1e-3, 0.0},
    Unit{mass, "kg", w_kg, 1.0, 0.0},
    Unit{mass, "oz", w_oz, pound / 16.0, 0.0},
    Unit{mass, "lb", w_lb, pound, 0.0},
    Unit{pressure, "psi", w_psi, psi, 0.0},
    Unit{pressure, "bar", w_bar, 1e5, 0.0},
    Unit{pressure, "mbar", w_mbar, 1e2, 0.0},
    Unit{pressure, "hPa", w_hpa, 1e2, 0.0},
    Unit{pressure, "kPa", w_kpa, 1e3, 0.0},
    Unit{pressure, "Pa", w_pa, 1.0, 0.0},
    Unit{pressure, "MPa", w_mpa, 1e6, 0.0},
    Unit{pressure, "atm", w_atm, 101325.0, 0.0},
    Unit{pressure, "kgf/cm2", w_kgcm2, gravity * 1e4, 0.0},
    Unit{pressure, "mmHg", w_mmhg, 133.322387415, 0.0},
    Unit{pressure, "inHg", w_inhg, 25.4 * 133.322387415, 0.0},
    Unit{force, "N", w_n, 1.0, 0.0},
    Unit{force, "kN", w_kn, 1e3, 0.0},
    Unit{force, "lbf", w_lbf, pound* gravity, 0.0},
    Unit{force, "kgf", w_kgf, gravity, 0.0},
    Unit{power, "W", w_w, 1.0, 0.0},
    Unit{power, "kW", w_kw, 1e3, 0.0},
    Unit{power, "hp", w_hp, 550.0 * foot* pound* gravity, 0.0},
    Unit{power, "PS", w_ps, 75.0 * gravity, 0.0},
    Unit{speed, "rpm", w_rpm, 1.0 / 60.0, 0.0},
    Unit{speed, "rev/s", w_rps, 1.0, 0.0},
    Unit{velocity, "m/s", w_ms, 1.0, 0.0},
    Unit{velocity, "km/h", w_kmh, 1.0 / 3.6, 0.0},
    Unit{velocity, "ft/min", w_ftmin, foot / 60.0, 0.0},
    Unit{velocity, "ft/s", w_fts, foot, 0.0},
    Unit{velocity, "mph", w_mph, 5280.0 * foot / 3600.0, 0.0},
    Unit{temperature, "C", w_c, 1.0, 273.15},
    Unit{temperature, "F", w_f, 5.0 / 9.0, 273.15 - 32.0 * 5.0 / 9.0},
    Unit{temperature, "K", w_k, 1.0, 0.0},
    Unit{share, "%", w_percent, 0.01, 0.0},
};

// Lower case, no blanks, signs by their plain names, without the point that ends an abbreviation.
std::string plain_spelling(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (text.substr(i, 2) == "\u00B0") {
      out += "deg";
      ++i;
    } else if (text.substr(i, 2) == "\u00B2" || text.substr(i, 2) == "\u00B3") {
      out += text.substr(i, 2) == "\u00B2" ? '2' : '3';
      ++i;
    } else if (text.substr(i, 2) == "\u00B5" || text.substr(i, 2) == "\u03BC") {
      out += 'u';
      ++i;
    } else if (c != ' ' && c != '\t' && c != '^') {
      out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
  }
  if (out.size() > 1 && out.back() == '.') out.pop_back();
  return out;
}

}  // namespace

std::span<const Unit> units() { return table; }

const Unit* find_unit(std::string_view spelling, std::optional<Dimension> prefer) {
  const std::string wanted = plain_spelling(spelling);
  const Unit* found = nullptr;
  for (const Unit& unit : table) {
    for (const char* word : unit.spellings) {
      if (wanted != word) continue;
      if (!prefer || unit.dimension == *prefer) return &unit;
      if (found == nullptr) found = &unit;
    }
  }
  return found;
}

const char* dimension_name(Dimension dimension) {
  switch (dimension) {
    case length:
      return "length";
    case area:
      return "area";
    case volume:
      return "volume";
    case angle:
      return "angle";
    case mass:
      return "mass";
    case pressure:
      return "pressure";
    case force:
      return "force";
    case power:
      return "power";
    case speed:
      return "speed of turning";
    case velocity:
      return "velocity";
    case temperature:
      return "temperature";
    case share:
      return "share";
    case count:
      return "plain number";
  }
  return "quantity";
}

}  // namespace portwright::base
