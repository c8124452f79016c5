#pragma once
// Lines, metals and distances that every measuring drawing is made of. Inside the module only.

#include "draw/marks.hpp"
#include "sheet/measuring_drawings.hpp"

namespace portwright::sheet {

inline const draw::Stroke edge{draw::Role::ink, draw::weight::edge, draw::Dash::solid, true};
inline const draw::Stroke visible{draw::Role::ink, draw::weight::visible, draw::Dash::solid, true};
inline const draw::HatchStyle cylinder_metal{draw::Hatch::cylinder, draw::Role::metal, draw::weight::fine, 1.0, {}};
inline const draw::HatchStyle piston_metal{draw::Hatch::piston, draw::Role::metal, draw::weight::fine, 1.0, {}};
inline const draw::HatchStyle case_metal{draw::Hatch::limit, draw::Role::metal, draw::weight::fine, 1.0, {}};

[[nodiscard]] inline draw::TextStyle letters(double size = 2.2, draw::Anchor anchor = draw::Anchor::middle) {
  return {draw::Role::reason, size, anchor, 0, false, 1.2, 0};
}

/// Extension lines and arrows of a distance without its figure: the number stands where the figure would.
inline void upright(const Spot& s, double y1, double y2, double x, double from) {
  draw::DimensionStyle style;
  style.from_first = style.from_second = s.at.x + from;
  draw::draw_dimension_upright(s.canvas, s.at.y + y1, s.at.y + y2, s.at.x + x, "", style);
}
inline void level(const Spot& s, double x1, double x2, double y, double from) {
  draw::DimensionStyle style;
  style.from_first = style.from_second = s.at.y + from;
  draw::draw_dimension_level(s.canvas, s.at.x + x1, s.at.x + x2, s.at.y + y, "", style);
}

}  // namespace portwright::sheet
