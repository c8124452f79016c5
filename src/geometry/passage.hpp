#pragma once
// What a transfer passage costs the stream, from published loss coefficients.

namespace portwright::geometry {

/// Loss of a sudden widening from `smaller` to `greater` [-], of the dynamic pressure in the smaller: (1 - A1/A2)².
/// @source{idelchik, Borda-Carnot}
[[nodiscard]] double widening_loss(double smaller, double greater);

/// Loss of a sharp-edged narrowing from `greater` to `smaller` [-], of the dynamic pressure in the smaller: 0.5 (1 -
/// A1/A2).
/// @source{idelchik, contraction}
[[nodiscard]] double narrowing_loss(double greater, double smaller);

/// Loss of a mitred bend [-] at an angle [rad] by Blevins' table, 0 to 120 deg, straight between its rows; beyond, the
/// last.
/// @source{blevins, mitre bends}
[[nodiscard]] double bend_loss(double angle);

/// Areas [m²] in the order of the stream: what the case leaves open, the gasket's hole, the foot of the passage, the
/// window. All > 0.
struct PassageAreas {
  double mouth = 0.0, gasket = 0.0, foot = 0.0, window = 0.0;
};

/// Loss of the whole passage [-], of the dynamic pressure that the stream has in the window: a sharp entry from the
/// case into the mouth, a sudden change at the gasket, at the foot and at the window, and the bend at the foot's area.
/// The exit into the cylinder is not counted; steps follow one another without settling, which a sum of single losses
/// overstates.
[[nodiscard]] double passage_loss(const PassageAreas& areas, double bend);

}  // namespace portwright::geometry
