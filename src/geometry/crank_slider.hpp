#pragma once
// The slider-crank, exact and both ways: crank angle to the drop of the crown edge, and back.
//
// The crank pin stands at (r sin φ, r cos φ) and swings toward +x after TDC. On the power stroke the rod then presses
// the piston toward -x, so a pin offset e toward the pressed side puts the piston pin on the line x = -e:
//
//   TDC   the crown edge is highest: drop 0, angle 0
//   s(φ)  = L - (r cos φ + sqrt(l² - (r sin φ + e)²)),   L = sqrt((l + r)² - e²)
//
// φ runs from where the throw is parallel to the bore; the angle used outside runs from the true dead centre.

namespace portwright::geometry {

/// One crank, rod and piston pin. Lengths [m], crank angles [rad ATDC] in the direction of rotation, 0..2π.
/// Angles outside are taken as turns before or after. With an offset toward the pressed side the way down takes less
/// than half a turn.
class CrankSlider {
 public:
  /// @param stroke     from dead centre to dead centre [m], > 0
  /// @param rod        centre to centre [m], > stroke / 2 + |pin_offset|
  /// @param pin_offset of the pin's line of travel from the crank's axis, positive toward the side pressed on the power
  /// stroke [m]
  CrankSlider(double stroke, double rod, double pin_offset = 0.0);

  /// Crown edge below its TDC place [m]: 0 at TDC, the stroke at BDC, both exact.
  [[nodiscard]] double drop(double angle) const;
  /// d drop / d angle [m/rad].
  [[nodiscard]] double velocity(double angle) const;
  /// d² drop / d angle² [m/rad²].
  [[nodiscard]] double acceleration(double angle) const;

  /// Crank angle at which the crown edge passes `drop` on its way down [rad ATDC], 0..bdc(). Closed form.
  /// Clamped: above TDC gives 0, below BDC gives bdc(); forward and inverse agree to 1e-12 of the stroke.
  [[nodiscard]] double angle_down(double drop) const;
  /// The same on the way up [rad ATDC], bdc()..2π.
  [[nodiscard]] double angle_up(double drop) const;

  [[nodiscard]] double stroke() const { return stroke_; }
  [[nodiscard]] double rod() const { return rod_; }
  [[nodiscard]] double pin_offset() const { return offset_; }
  /// Crank throw [m]; half the stroke when the pin is not offset. r² = S² (4 (l² - e²) - S²) / (4 (4 l² - S²)).
  [[nodiscard]] double radius() const { return radius_; }
  /// True bottom dead centre [rad ATDC]; π when the pin is not offset.
  [[nodiscard]] double bdc() const { return bdc_; }

 private:
  struct Swing;
  struct Stance;
  [[nodiscard]] double travel_from(const Stance& centre, double half_turn) const;
  [[nodiscard]] Swing swing(double angle) const;
  [[nodiscard]] double lag(double drop) const;

  /// Throw and rod at a dead centre, where both lie on one line through the crank's axis.
  struct Stance {
    double sin_phi, cos_phi;  ///< of the throw
    double sin_psi, cos_psi;  ///< of the rod against the bore
  };

  double stroke_, rod_, offset_, radius_;
  double top_;     ///< pin above the crank's axis at TDC [m]
  double bottom_;  ///< pin above the crank's axis at BDC [m]
  double bdc_;
  Stance at_tdc_, at_bdc_;
};

}  // namespace portwright::geometry
