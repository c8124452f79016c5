#pragma once
// From the sheet to the wall, and how far the numbers can be trusted. Inside the module only.

#include "rubbing/measure.hpp"

namespace portwright::rubbing {

/// From the sheet [mm as drawn] to the wall as seen from inside [mm].
struct Placing {
  double across = 1.0, down = 1.0;  ///< size of this print against the drawing [-]
  double lifted = 1.0;              ///< what stood off the sheet looked larger: lengths against those seen [-]
  double turn = 0.0;                ///< that brings the bore upright [rad]
  double round = 1.0;               ///< lengths round the wall against those of the flat paper [-]
  bool mirrored = false;
  [[nodiscard]] Point stretched(Point sheet) const { return {across * sheet.x, down * sheet.y}; }
  [[nodiscard]] Point on_wall(Point sheet) const {
    const Point p = lifted * turned(stretched(sheet), turn);
    return {(mirrored ? -round : round) * p.x, p.y};
  }
};

/// How much larger the paper looks for half of what it may stand off the sheet [-]: never under it, so half is taken
/// off and half is the range.
[[nodiscard]] double lift_share(const Rubbing& rubbing, const Hints& hints);

/// What the range is worked out from [mm, mm²].
struct Window {
  std::vector<Loop> loops{};  ///< on the wall
  double area = 0.0;
  double softness = 0.0, line_width = 0.0;
  double hand = 0.0;         ///< of the area, by points that a hand moved
  bool all_by_hand = false;  ///< no border was found
};

/// Fills sizes, parts and `within`.
void fill_ranges(Measured& out, const Window& window, const Rubbing& rubbing, const Hints& hints);

}  // namespace portwright::rubbing
