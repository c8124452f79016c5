#pragma once
// What a draughtsman puts beside the edges: dimensions, leaders, balloons, centre lines, finding marks.

#include <optional>
#include <string_view>

#include "draw/canvas.hpp"

namespace portwright::draw {

/// Filled arrow head, 9 to 3.2.
namespace arrow_head {
inline constexpr double length = 2.05;  ///< [mm]
inline constexpr double width = 0.73;   ///< [mm]
}  // namespace arrow_head

struct DimensionStyle {
  Role role = Role::ink;
  double height = 2.5;  ///< of the lettering [mm]
  double halo = 1.3;    ///< [mm]
  std::optional<double>
      from_first{};  ///< where the first extension line begins, across the dimension [mm]; none without
  std::optional<double> from_second{};  ///< the second's
  double text_shift = 0.0;              ///< of the text along its line, from the middle [mm]
  bool text_outside = false;            ///< the text beyond the second end although it would fit
};

/// Arrow with its tip at a place, pointing along a direction.
void draw_arrow(Canvas& canvas, Point tip, Point direction, Role role = Role::ink, double size = 1.0);

/// Distance between x1 and x2, its line at y. Arrows turn inward and the text goes outside where there is no room.
void draw_dimension_level(Canvas& canvas, double x1, double x2, double y, std::string_view text,
                          const DimensionStyle& style = {});
/// Distance between y1 and y2, its line at x; the text reads upward, left of the line.
void draw_dimension_upright(Canvas& canvas, double y1, double y2, double x, std::string_view text,
                            const DimensionStyle& style = {});

/// A thin line from a dot at `target` over `elbow` to a short shelf with text.
void draw_leader(Canvas& canvas, Point target, Point elbow, std::string_view text, const TextStyle& style = {});

/// A number or letter in a ring.
void draw_balloon(Canvas& canvas, Point centre, std::string_view text, double radius = 2.6, Role role = Role::ink);

void draw_centre_line(Canvas& canvas, Point from, Point to, Role role = Role::ink);

/// Shape first, then word, then colour: tick, ring, triangle, filled octagon. One letter in the shape.
enum class Finding { held, note, caution, stop };
void draw_finding(Canvas& canvas, Point centre, Finding kind, std::string_view letter, double size = 5.0);

}  // namespace portwright::draw
