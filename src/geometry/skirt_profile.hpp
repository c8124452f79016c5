#pragma once
// The skirt's lower edge round the piston, and what it leaves open of a window.

#include <array>

#include "geometry/window.hpp"

namespace portwright::geometry {

/// What is measured of a skirt. Lengths [m] from the crown edge downward, angles [rad] round the bore from the
/// exhaust's centre.
struct SkirtShape {
  double exhaust = 0.0;        ///< skirt length at the exhaust
  double side = 0.0;           ///< at the pin ends
  double intake = 0.0;         ///< opposite the exhaust
  double exhaust_width = 0.0;  ///< chord of the full-length skirt at the exhaust; the intake side is taken as wide
  double pin_axis = 1.5707963267948966;  ///< direction of the piston pin, 0..π
};

/// The skirt's length round the piston: level over the full-length chord at the exhaust and as far opposite, least at
/// the pin ends, straight on the unrolled wall between. A full-length chord that would reach a pin end stops short of
/// it.
class SkirtProfile {
 public:
  SkirtProfile(const SkirtShape& shape, double bore);

  /// Crown edge to skirt edge [m] at x [m] along the wall from the exhaust's centre, any number of turns.
  [[nodiscard]] double length_at(double x) const;

  /// Least and greatest length between two places on the wall [m], from <= to.
  struct Reach {
    double least = 0.0, greatest = 0.0;
    [[nodiscard]] bool level() const { return greatest - least < 1e-9; }
  };
  [[nodiscard]] Reach reach(double from, double to) const;

  /// The edge between two places on the wall: x and length, both ends and every bend between them.
  [[nodiscard]] std::vector<Point> edge(double from, double to) const;

  [[nodiscard]] double circumference() const { return circumference_; }

 private:
  template <class Visit>
  void visit_bends(double from, double to, Visit visit) const;

  double circumference_;
  std::array<Point, 7> bends_;  ///< x and length, ascending over one turn; the last repeats the first
};

/// Area of a window that lies below the skirt's edge [m²]: what the skirt leaves open to the case. `window_centre_x` is
/// the window's centre along the wall from the exhaust's centre [m], `drop` the crown edge's [m]. Closed form where the
/// skirt is level over the window, else by polygon clipping, to 1e-6 of the window's area.
[[nodiscard]] double area_below_skirt(const Window& window, double window_centre_x, const SkirtProfile& profile,
                                      double drop);

/// Area that two windows on one wall have in common [m²], by polygon clipping, to 1e-6 of the smaller one's area. `ax`,
/// `bx` are their centres along the wall [m]; the wall closes on itself after `circumference` [m].
[[nodiscard]] double overlap_area(const Window& a, double ax, const Window& b, double bx, double circumference);

}  // namespace portwright::geometry
