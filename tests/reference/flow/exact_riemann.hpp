#pragma once
// The exact solution of the Riemann problem of a gas with one constant ratio of heats, as an oracle for the tests.
// Toro, Riemann Solvers and Numerical Methods for Fluid Dynamics, chapter 4; own code.

#include <algorithm>
#include <cmath>

namespace portwright::reference {

struct State1D {
  double rho, u, p;
};

class ExactRiemann {
 public:
  ExactRiemann(const State1D& left, const State1D& right, double gamma = 1.4) : l_(left), r_(right), g_(gamma) {
    // The sum of both waves' functions rises with p and is concave, so Newton from below closes in from below.
    double p = 1e-12 * std::min(l_.p, r_.p);
    for (int i = 0; i < 200; ++i) {
      const Wave a = wave(l_, p), b = wave(r_, p);
      const double next = std::max(p - (a.f + b.f + r_.u - l_.u) / (a.slope + b.slope), 0.5 * p);
      const bool done = std::abs(next - p) <= 1e-15 * next;
      p = next;
      if (done) break;
    }
    p_ = p;
    u_ = 0.5 * (l_.u + r_.u) + 0.5 * (wave(r_, p).f - wave(l_, p).f);
  }

  [[nodiscard]] double p_star() const { return p_; }
  [[nodiscard]] double u_star() const { return u_; }
  [[nodiscard]] double rho_star_left() const { return rho_star(l_); }
  [[nodiscard]] double rho_star_right() const { return rho_star(r_); }
  /// The two sides move apart so fast that nothing is left between.
  [[nodiscard]] bool vacuum() const { return 2.0 / (g_ - 1.0) * (sound(l_) + sound(r_)) <= r_.u - l_.u; }
  /// Speed of the fastest wave.
  [[nodiscard]] double fastest() const { return std::max(-head(l_, -1.0), head(r_, 1.0)); }

  /// The gas on the ray x / t = s.
  [[nodiscard]] State1D at(double s) const {
    if (s <= u_) return side(l_, s, -1.0);
    return side(r_, s, 1.0);
  }

 private:
  struct Wave {
    double f, slope;
  };
  [[nodiscard]] double sound(const State1D& w) const { return std::sqrt(g_ * w.p / w.rho); }
  /// Speed that a wave to pressure p adds, and its slope. Eq. 4.6, 4.7 and 4.37.
  [[nodiscard]] Wave wave(const State1D& w, double p) const {
    if (p > w.p) {
      const double A = 2.0 / ((g_ + 1.0) * w.rho), B = (g_ - 1.0) / (g_ + 1.0) * w.p, root = std::sqrt(A / (p + B));
      return {(p - w.p) * root, root * (1.0 - 0.5 * (p - w.p) / (p + B))};
    }
    const double c = sound(w), ratio = p / w.p;
    return {2.0 * c / (g_ - 1.0) * (std::pow(ratio, (g_ - 1.0) / (2.0 * g_)) - 1.0),
            std::pow(ratio, -(g_ + 1.0) / (2.0 * g_)) / (w.rho * c)};
  }
  [[nodiscard]] double rho_star(const State1D& w) const {
    const double ratio = p_ / w.p, m = (g_ - 1.0) / (g_ + 1.0);
    return p_ > w.p ? w.rho * (ratio + m) / (m * ratio + 1.0) : w.rho * std::pow(ratio, 1.0 / g_);
  }
  [[nodiscard]] double head(const State1D& w, double sign) const {
    const double c = sound(w);
    if (p_ <= w.p) return w.u + sign * c;
    return w.u + sign * c * std::sqrt((g_ + 1.0) / (2.0 * g_) * p_ / w.p + (g_ - 1.0) / (2.0 * g_));
  }
  /// Eq. 4.50 to 4.63, both sides by one sign.
  [[nodiscard]] State1D side(const State1D& w, double s, double sign) const {
    const State1D star{rho_star(w), u_, p_};
    if (sign * (s - head(w, sign)) >= 0.0) return w;
    if (p_ > w.p) return star;
    const double tail = u_ + sign * sound(star);
    if (sign * (s - tail) <= 0.0) return star;
    const double c0 = sound(w);
    const double c = 2.0 / (g_ + 1.0) * (c0 + sign * 0.5 * (g_ - 1.0) * (s - w.u));
    const double ratio = c / c0;
    return {w.rho * std::pow(ratio, 2.0 / (g_ - 1.0)), s - sign * c, w.p * std::pow(ratio, 2.0 * g_ / (g_ - 1.0))};
  }

  State1D l_, r_;
  double g_, p_ = 0.0, u_ = 0.0;
};

}  // namespace portwright::reference
