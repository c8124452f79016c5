#include "geometry/crank_slider.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace portwright::geometry {

namespace {

constexpr double turn = 2.0 * std::numbers::pi;

double square(double x) { return x * x; }

double throw_of(double stroke, double rod, double offset) {
  const double s2 = square(stroke), l2 = square(rod);
  return stroke * std::sqrt((4.0 * (l2 - square(offset)) - s2) / (4.0 * (4.0 * l2 - s2)));
}

}  // namespace

/// Throw and rod at any angle.
struct CrankSlider::Swing {
  double sin_phi, cos_phi, tan_psi, cos_psi;
};

CrankSlider::CrankSlider(double stroke, double rod, double pin_offset)
    : stroke_(stroke), rod_(rod), offset_(pin_offset), radius_(throw_of(stroke, rod, pin_offset)) {
  const double outer = rod_ + radius_, inner = rod_ - radius_;
  top_ = std::sqrt((outer - offset_) * (outer + offset_));
  bottom_ = top_ - stroke_;
  at_tdc_ = {-offset_ / outer, top_ / outer, offset_ / outer, top_ / outer};
  at_bdc_ = {offset_ / inner, -bottom_ / inner, offset_ / inner, bottom_ / inner};
  bdc_ = std::numbers::pi - lag(stroke_);
}

// Differences of cosines are turned into products, so nothing cancels near the dead centre it is counted from:
//   cos φ0 - cos φ = 2 sin φm sin(δ/2),  φm = φ0 + δ/2
//   cos ψ0 - cos ψ = (r/l) 2 cos φm sin(δ/2) (sin ψ + sin ψ0) / (cos ψ + cos ψ0)
double CrankSlider::travel_from(const Stance& centre, double half_turn) const {
  const double s = std::sin(half_turn), c = std::cos(half_turn);
  const double sin_mid = centre.sin_phi * c + centre.cos_phi * s;
  const double cos_mid = centre.cos_phi * c - centre.sin_phi * s;
  const double sin_phi = sin_mid * c + cos_mid * s;
  const double sin_psi = (radius_ * sin_phi + offset_) / rod_;
  const double cos_psi = std::sqrt((1.0 - sin_psi) * (1.0 + sin_psi));
  return 2.0 * radius_ * s * (sin_mid + cos_mid * (sin_psi + centre.sin_psi) / (cos_psi + centre.cos_psi));
}

double CrankSlider::drop(double angle) const {
  const double from_bdc = angle - bdc_;
  const bool near_bdc = std::abs(from_bdc) < 0.5 * std::numbers::pi;
  const double drop = near_bdc ? stroke_ + travel_from(at_bdc_, 0.5 * from_bdc) : travel_from(at_tdc_, 0.5 * angle);
  return std::clamp(drop, 0.0, stroke_) + 0.0;  // a minus zero becomes zero
}

CrankSlider::Swing CrankSlider::swing(double angle) const {
  const double s = std::sin(angle), c = std::cos(angle);
  const double sin_phi = at_tdc_.sin_phi * c + at_tdc_.cos_phi * s;
  const double cos_phi = at_tdc_.cos_phi * c - at_tdc_.sin_phi * s;
  const double sin_psi = (radius_ * sin_phi + offset_) / rod_;
  const double cos_psi = std::sqrt((1.0 - sin_psi) * (1.0 + sin_psi));
  return {sin_phi, cos_phi, sin_psi / cos_psi, cos_psi};
}

double CrankSlider::velocity(double angle) const {
  const Swing at = swing(angle);
  return radius_ * (at.sin_phi + at.cos_phi * at.tan_psi);
}

double CrankSlider::acceleration(double angle) const {
  const Swing at = swing(angle);
  const double side = radius_ * at.cos_phi / at.cos_psi;
  return radius_ * (at.cos_phi - at.sin_phi * at.tan_psi) + square(side) / (rod_ * at.cos_psi);
}

// How far the line from crank to pin has turned since TDC [rad]: atan(e / Y) - atan(e / L) without cancellation.
double CrankSlider::lag(double drop) const {
  return offset_ == 0.0 ? 0.0 : std::atan2(offset_ * drop, top_ * (top_ - drop) + square(offset_));
}

namespace {

/// Angle between the throw and the line to the pin, by the half-angle formula of the triangle r, l, D; its factors
/// l + r - D and D + r - l are written through the travel left to either dead centre.
struct Triangle {
  double rod, radius, offset, top, bottom;
  [[nodiscard]] double angle(double down, double up) const {
    const double pin = top - down;
    const double reach = std::sqrt(square(pin) + square(offset));
    const double near_tdc = down * (top + pin) * square(rod - radius + reach);
    const double near_bdc = up * (bottom + pin) * square(rod + radius + reach);
    return 2.0 * std::atan2(std::sqrt(near_tdc), std::sqrt(near_bdc));
  }
};

}  // namespace

double CrankSlider::angle_down(double drop) const {
  const double down = std::clamp(drop, 0.0, stroke_);
  return Triangle{rod_, radius_, offset_, top_, bottom_}.angle(down, stroke_ - down) - lag(down);
}

double CrankSlider::angle_up(double drop) const {
  const double down = std::clamp(drop, 0.0, stroke_);
  return turn - Triangle{rod_, radius_, offset_, top_, bottom_}.angle(down, stroke_ - down) - lag(down);
}

}  // namespace portwright::geometry
