#pragma once
// What a traced outline keeps, shared by every window that was moved from it.

#include <vector>

#include "geometry/window.hpp"

namespace portwright::geometry {

/// Lines of the outline and the law of its area, y from the highest point.
struct Window::Trace {
  std::vector<double> levels;
  std::vector<Piece> pieces;
  std::vector<LevelBand> bands;
};

}  // namespace portwright::geometry
