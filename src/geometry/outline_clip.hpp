#pragma once
// Outline against outline: the only door to the polygon clipper.

#include <vector>

#include "geometry/window.hpp"

namespace portwright::geometry {

using Loops = std::vector<std::vector<Point>>;

/// A window's loops as polygons moved by dx [m], fine enough for clipping: chords within 1e-7 m of the arcs, on a
/// radius that keeps the arc's area.
[[nodiscard]] Loops clip_outline(const Window& window, double dx);

/// Area that two sets of loops have in common [m²]. Points are rounded to 1e-9 m round `origin`, from which none may be
/// further than 1 m. Loops of one set do not overlap.
[[nodiscard]] double common_area(const Loops& a, const Loops& b, Point origin);

}  // namespace portwright::geometry
