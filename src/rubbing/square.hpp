#pragma once
// The printed square in a photo, true to a small part of a pixel: its camera, and how far it can be trusted.

#include <optional>
#include <string>

#include "base/error.hpp"
#include "rubbing/camera.hpp"
#include "rubbing/light.hpp"

namespace portwright::rubbing {

struct Square {
  Camera camera;
  Corners corners{};          ///< inner corners where the lens put them [pixels]
  double straightness = 0.0;  ///< how far the edges stray from straight lines, at the most [mm as drawn]
  double softness = 0.0;      ///< half the way from 35 % to 65 % of the light across an edge [mm as drawn]
  double hidden = 0.0;        ///< share of the edges that could not be read: glare, something lying over them
  bool by_hand = false;       ///< corners as put by hand, no edge was found near them
  bool turned = true;         ///< the triangle at the roof's side was seen, or the corners were given
};

/// Finds the square without help. Errors, each a sentence: not_found (none, cut off), contradiction (two of them).
[[nodiscard]] base::Result<Square> find_square(const picture::Grey& grey);

/// From corners put by hand [pixels], drawn to the edges near them. Errors: impossible (no such square).
[[nodiscard]] base::Result<Square> square_near(const picture::Grey& grey, const Corners& corners);

}  // namespace portwright::rubbing
