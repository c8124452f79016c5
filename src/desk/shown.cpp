#include "desk/shown.hpp"

namespace portwright::desk {

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
