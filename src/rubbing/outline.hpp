#pragma once
// A window's border measured in the photo itself: where the light is half way between its two sides. Inside the module
// only.

#include "rubbing/basin.hpp"
#include "rubbing/camera.hpp"
#include "rubbing/light.hpp"

namespace portwright::rubbing {

/// The border on the sheet [mm as drawn], clockwise. A pencil's line has two sides; elsewhere the three are one.
struct Border {
  Loop inner{}, middle{}, outer{};
  double line_width = 0.0;   ///< of a pencil's line [mm as drawn]; 0: an edge between light and dark
  bool line_hidden = false;  ///< a light inside on grey ground: a line may lie in the grey unseen
  double softness = 0.0;     ///< half the way from 35 % to 65 % of the light [mm as drawn]
  double unread = 0.0;       ///< share of the border where no edge was seen: it was carried on from its neighbours
};

/// Measures along lines square to a rough border.
[[nodiscard]] Border measured_border(const Light& light, const Camera& camera, const Loop& rough, bool dark_inside);

}  // namespace portwright::rubbing
