#pragma once
// How long a window is open, and by how much: the integral of open area over the crank's turn.

#include "geometry/crank_slider.hpp"
#include "geometry/window.hpp"

namespace portwright::geometry {

/// Which edge of the piston opens a window.
enum class OpenedBy {
  crown,  ///< exhaust, transfer, boost: open while the crown edge is below the roof
  skirt,  ///< intake, air: open while the skirt's edge is above the floor
};

/// Open area of a window at a crank angle [m²]. `skirt` is the length from crown edge to the skirt's edge [m], unused
/// for the crown.
[[nodiscard]] double open_area(const CrankSlider& crank, const Window& window, OpenedBy by, double skirt, double angle);

/// ∫ A dθ between two crank angles [m² rad], from <= to, by Gauss-Legendre between the angles where the area's law
/// changes.
[[nodiscard]] double angle_area(const CrankSlider& crank, const Window& window, OpenedBy by, double skirt, double from,
                                double to);

/// Angle-area over one whole turn [m² rad]. Divide by the crank's speed [rad/s] for time-area [s m²].
[[nodiscard]] double angle_area(const CrankSlider& crank, const Window& window, OpenedBy by, double skirt);

/// Crank speed [rad/s] of revolutions per second.
[[nodiscard]] constexpr double radians_per_second(double rev_per_second) {
  return 6.283185307179586476925 * rev_per_second;
}

}  // namespace portwright::geometry
