#pragma once
// A piston ring as a spring: the pressure of its own tension, how far it bows into a window, and when it flutters.

namespace portwright::geometry {

/// Lengths [m], modulus [Pa]. radial > 0, bore > radial.
struct RingSpring {
  double bore = 0.0, radial = 0.0;
  double closing = 0.0;  ///< free gap less the gap as fitted
  double modulus = 0.0;
};

/// Pressure that the ring's own tension puts on the bore [Pa]: p = E g a³ / (36 π R r³), R the bore's radius, r the
/// mean radius of the ring: a bar of rectangular section bent by an even pressure from its free gap to the fitted one
/// (g), by Castigliano's theorem.
/// @source{practice}
[[nodiscard]] double ring_tension(const RingSpring& ring);

/// How far a ring bows outward into a window [m]: a beam clamped at both sides of the window under an even pressure
/// over its height, w = p s⁴ / (32 E a³) for the arc `span` [m]. The ring's curvature would stiffen it only if its ends
/// could not slide; they can.
/// @source{memory}
[[nodiscard]] double ring_bow(double span, double pressure, double modulus, double radial);

/// Acceleration that a ring of a given height stands before it lifts off its groove [m/s²], by Jennings' table between
/// 1.0 and 3.2 mm, straight between its rows; outside it the nearest row holds.
/// @source{jennings1973, rings}
[[nodiscard]] double flutter_acceleration(double height);

}  // namespace portwright::geometry
