#pragma once
// Where an edge is asked to be: "98 deg", "duration 160 deg", "drop 24 mm". Inside the module only.

#include <string>

#include "base/error.hpp"
#include "geometry/edge.hpp"

namespace portwright::desk {

struct EdgePlace {
  geometry::EdgeForm form = geometry::EdgeForm::opens;
  double value = 0.0;      ///< [rad] or [m], as geometry::level_from takes it
  std::string understood;  ///< "opens 98.0 deg after TDC"
};

/// Reads a place. A bare angle is where the port opens, unless it is long enough to be a duration; then, and for a bare
/// length, both meanings are offered and neither is taken. An angle of closing under 180 is taken as before TDC for a
/// crown-opened port.
[[nodiscard]] base::Result<EdgePlace> parse_place(const std::string& text, geometry::OpenedBy by);

}  // namespace portwright::desk
