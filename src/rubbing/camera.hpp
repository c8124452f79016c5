#pragma once
// Where a point of the printed sheet comes to lie in the picture, and back: a pinhole, and a lens that bends straight
// lines by one coefficient.

#include "rubbing/plane.hpp"

namespace portwright::rubbing {

/// The printed square as drawn [mm]: its inside, and how thick its black ring is.
inline constexpr double square_side = 120.0, ring_thickness = 5.0;

/// From the sheet [mm as drawn; 0, 0 the inner corner left at the roof's side] to pixels and back.
class Camera {
 public:
  /// @param corners where a lens that bends nothing would put the inner corners [pixels]
  /// @param bend    share by which a point half a diagonal from the middle is moved outward [-]
  /// @param width, height of the picture [pixels]
  Camera(const Corners& corners, double bend, int width, int height);

  [[nodiscard]] Point to_picture(Point sheet) const;
  [[nodiscard]] Point to_sheet(Point pixel) const;
  /// Pixels in a millimetre at a point of the sheet, in the direction that has least and in the one that has most.
  struct Scale {
    double least = 0.0, most = 0.0;
  };
  [[nodiscard]] Scale scale_at(Point sheet, double across = 1.0, double down = 1.0) const;
  /// Angle between the camera's line of sight and the sheet's upright [rad], by how much the sheet is foreshortened.
  /// @param across, down size of this print against the drawing [-]
  [[nodiscard]] double tilt(double across = 1.0, double down = 1.0) const;

  [[nodiscard]] const Corners& corners() const { return corners_; }
  [[nodiscard]] double bend() const { return bend_; }
  /// Of the picture [pixels].
  [[nodiscard]] double half_diagonal() const { return half_diagonal_; }

 private:
  [[nodiscard]] Point bent(Point ideal) const;
  [[nodiscard]] Point straightened(Point pixel) const;

  Corners corners_;
  double bend_ = 0.0;
  Point middle_;
  double half_diagonal_ = 1.0;
  std::array<double, 9> out_{}, back_{};  ///< rows of the homography from the unit square, and of its inverse
};

}  // namespace portwright::rubbing
