#pragma once
// The gas that the squish band presses inward, ideal: no leak to the ring lands, one density throughout.

#include "geometry/crank_slider.hpp"

namespace portwright::geometry {

/// Lengths [m], volume [m³]. clearance > 0, 0 < band < bore / 2, chamber > 0.
struct SquishGap {
  double bore = 0.0, band = 0.0, clearance = 0.0, chamber = 0.0;
};

/// Area of the band over the bore's area [-].
[[nodiscard]] double band_share(double bore, double band);

/// Speed of the gas through the band's inner edge [m/s] at a crank angle [rad ATDC] and crank speed [rad/s]; positive
/// inward.
///
///   v = -(Vs' V - Vs V') / (V π d h),   Vs = Ab h,  V = Vc + A s,  h = c + s,  d the inner circle
///     = -ω s' Ab (Vc - A c) / (π d h V)
///
/// The same mass of gas in each cubic millimetre of band and bowl at every moment; s is the crown edge's drop.
/// @source{practice}
[[nodiscard]] double squish_velocity(const CrankSlider& crank, const SquishGap& gap, double angle, double crank_speed);

struct SquishPeak {
  double velocity = 0.0;  ///< [m/s]
  double angle = 0.0;     ///< before TDC [rad]
};

/// The greatest inward speed of a turn and where it is: the zero of the closed derivative
///   s'' h V - s'² (V + A h), to 1e-9 rad.
[[nodiscard]] SquishPeak squish_peak(const CrankSlider& crank, const SquishGap& gap, double crank_speed);

}  // namespace portwright::geometry
