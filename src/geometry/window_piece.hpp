#pragma once
// The piece that a window's outline is made of.

namespace portwright::geometry {

struct Point {
  double x = 0.0, y = 0.0;
  friend bool operator==(const Point&, const Point&) = default;
};

/// A line or a circular arc that runs monotonically in y. An outline is walked clockwise as seen with x to the right
/// and y down.
struct Piece {
  Point from, to;
  Point centre;         ///< of the arc; unused for a line
  double radius = 0.0;  ///< 0 for a line
  bool clockwise = false;
};

/// +1 where an arc lies to the right of its centre, -1 to the left.
[[nodiscard]] inline double arc_side(const Piece& arc) {
  return arc.from.x + arc.to.x >= 2.0 * arc.centre.x ? 1.0 : -1.0;
}

/// x of a piece at a level between its ends [m]; a level line's own piece gives its start.
[[nodiscard]] double x_on_piece(const Piece& piece, double y);

}  // namespace portwright::geometry
