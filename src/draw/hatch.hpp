#pragma once
// Hatches as geometry, clipped to an area with holes, so that every writer and every face draws the same lines.
// Only metal lies at 45 degrees; open windows carry upright or dotted hatches.

#include <vector>

#include "draw/shape.hpp"
#include "draw/theme.hpp"

namespace portwright::draw {

enum class Hatch {
  piston,       ///< 45 degrees rising to the right, wide
  cylinder,     ///< 45 degrees the other way, fine
  limit,        ///< 45 degrees rising to the right, middling: a block of metal that is a limit
  metal_to_go,  ///< 45 degrees rising to the right, fine
  upright,
  dots,
  crosses,
  squares,
  rings,
  level,
  waves,
};

struct HatchStyle {
  Hatch pattern = Hatch::piston;
  Role role = Role::metal;
  double weight = 0.13;  ///< [mm]
  double density = 1.0;  ///< pitch is divided by it
  Point origin{};        ///< a line or mark of the pattern passes here, so that a hatch may move with its piece
};

struct HatchLines {
  std::vector<Path> strokes{};  ///< open paths within the area
  Area discs;                   ///< filled dots, whole ones only
};

/// Lines and marks of a pattern within an area. No line leaves the area; dots that would are left out.
/// At most about 20,000 marks: beyond that the pitch grows.
[[nodiscard]] HatchLines hatch_lines(const Area& area, const HatchStyle& style);

/// Distance between lines or marks of a pattern at density 1 [mm].
[[nodiscard]] double hatch_pitch(Hatch pattern);

}  // namespace portwright::draw
