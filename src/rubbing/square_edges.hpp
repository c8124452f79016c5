#pragma once
// The ring's edges in the picture, and the camera that makes straight lines of them. Inside the module only.

#include <vector>

#include "rubbing/camera.hpp"
#include "rubbing/light.hpp"

namespace portwright::rubbing {

/// One place on an edge of the ring.
struct EdgePoint {
  Point pixel{};
  int side = 0;           ///< 0 roof, 1 right, 2 floor, 3 left
  double along = 0.0;     ///< from the side's first corner, clockwise [mm as drawn]
  double softness = 0.0;  ///< half the way from 35 % to 65 % of the light [mm as drawn]
};

/// How many places are looked at on each side.
inline constexpr int places_a_side = 160;

/// Place on the sheet so far along a side and so far inward of its inner edge [mm as drawn].
[[nodiscard]] Point on_side(int side, double along, double inward);

/// The inner edge (`inward` 0) or the outer one (-ring_thickness) where the light is half way between the ring's and
/// the paper's, looked for within 2.4 mm of where the camera expects it.
[[nodiscard]] std::vector<EdgePoint> edge_points(const Light& light, const Camera& camera, double inward);

/// How far inward of its side's line a place lies [mm as drawn].
[[nodiscard]] double inward_of(const Camera& camera, const EdgePoint& place);

/// The camera for which the places lie nearest to their sides, few far ones counting little; with the lens's bend where
/// that explains more than chance does. At least 40 places on each side.
[[nodiscard]] Camera fitted_camera(const std::vector<EdgePoint>& places, const Camera& start, int width, int height);

}  // namespace portwright::rubbing
