#include "base/shown_unit.hpp"

#include <numbers>

namespace portwright::base {

ShownUnit shown_unit(Dimension dimension) {
  using D = Dimension;
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
      return {"%", 100.0};
    case D::count:
      return {"-", 1.0};
  }
  return {"-", 1.0};
}

}  // namespace portwright::base
