#include "desk/shown.hpp"

#include <numbers>

namespace portwright::desk {

ShownUnit shown_unit(base::Dimension dimension) {
  using D = base::Dimension;
  switch (dimension) {
    case D::length:
      return {"mm", 1e3};
    case D::area:
      return {"cm2", 1e4};
    case D::volume:
      return {"cm3", 1e6};
    case D::angle:
      return {"deg", 180.0 / std::numbers::pi};
    case D::mass:
      return {"g", 1e3};
    case D::pressure:
      return {"bar", 1e-5};
    case D::force:
      return {"N", 1.0};
    case D::power:
      return {"kW", 1e-3};
    case D::speed:
      return {"rpm", 60.0};
    case D::velocity:
      return {"m/s", 1.0};
    case D::temperature:
      return {"C", 1.0, -273.15};
    case D::share:
      return {"-", 1.0};
    case D::count:
      return {"-", 1.0};
  }
  return {"-", 1.0};
}

const char* si_unit(base::Dimension dimension) {
  using D = base::Dimension;
  switch (dimension) {
    case D::length:
      return "m";
    case D::area:
      return "m2";
    case D::volume:
      return "m3";
    case D::angle:
      return "rad";
    case D::mass:
      return "kg";
    case D::pressure:
      return "Pa";
    case D::force:
      return "N";
    case D::power:
      return "W";
    case D::speed:
      return "rev/s";
    case D::velocity:
      return "m/s";
    case D::temperature:
      return "K";
    default:
      return "-";
  }
}

wire::Value value_of(const base::Spread& spread, const std::string& unit, base::UnitStyle style) {
  return {spread.value, spread.low, spread.high, base::value_text(spread, unit, style),
          base::range_text(spread, unit, style)};
}

}  // namespace portwright::desk
