#pragma once
// Scales: check bars that prove a print's scale by the user's own ruler, and rules that are a picture's axis.

#include <string>
#include <vector>

#include "draw/canvas.hpp"

namespace portwright::draw {

/// A bar of `length` mm with millimetres on one side and inches on the other. Lying, it runs to the right with mm
/// above; standing, it runs upward with mm on the left.
struct CheckBar {
  Point zero{};           ///< its 0 [mm]
  double length = 100.0;  ///< [mm]
  bool standing = false;
};
void draw_check_bar(Canvas& canvas, const CheckBar& bar);

/// One mark of a scale.
struct Tick {
  double at = 0.0;      ///< along the scale [mm on paper]
  double length = 1.0;  ///< [mm]
  std::string text{};   ///< above its end; empty for none
};
/// Marks along a level line from `from`, upward or down.
void draw_ticks_level(Canvas& canvas, Point from, const std::vector<Tick>& ticks, bool upward,
                      const TextStyle& letters);
/// Marks along an upright line from `from` (at grows upward), to the left or right.
void draw_ticks_upright(Canvas& canvas, Point from, const std::vector<Tick>& ticks, bool leftward,
                        const TextStyle& letters);

}  // namespace portwright::draw
