#pragma once
// What a wave that runs back into a duct does to the speed of the gas behind it.
//
// The gas at a duct's end stands in state i and moves outward with speed u_i. Whatever the end does to it, one wave
// runs back in, and behind it pressure p and outward speed u belong together:
//
//   u(p) = u_i - f(p)
//   f(p) = (p - p_i) sqrt( 2 / (rho_i ((g + 1) p + (g - 1) p_i)) )      p > p_i, a shock
//   f(p) = 2 c_i / (g - 1) ((p / p_i)^((g - 1) / 2 g) - 1)             p <= p_i, a rarefaction
//
// @source{toro, eq. 4.6, 4.7, 4.21}

#include <cmath>

#include "flow/primitive.hpp"

namespace portwright::flow {

/// Gas behind the wave: outward speed [m/s], density [kg/m³].
struct Behind {
  double u, rho;
};

/// @param w  inner gas, its u counted outward
/// @param sound  (p / p_i)^((g - 1) / 2g), the speed of sound behind a rarefaction over the inner one; a shock asks for
/// none
inline Behind behind_wave(const Primitive& w, const Thermo& t, double p, double sound) {
  const double g = t.gamma, ratio = p / w.p;
  if (ratio > 1.0) {
    const double m = (g - 1.0) / (g + 1.0);
    return {w.u - (p - w.p) * std::sqrt(2.0 / (w.rho * ((g + 1.0) * p + (g - 1.0) * w.p))),
            w.rho * (ratio + m) / (m * ratio + 1.0)};
  }
  return {w.u - 2.0 * t.sound / (g - 1.0) * (sound - 1.0), w.rho * ratio / (sound * sound)};
}
inline Behind behind_wave(const Primitive& w, const Thermo& t, double p) {
  const double ratio = p / w.p;
  return behind_wave(w, t, p, ratio > 1.0 ? 1.0 : std::pow(ratio, (t.gamma - 1.0) / (2.0 * t.gamma)));
}

/// Pressure at which the wave brings the gas to rest [Pa]: what a closed end feels.
inline double rest_pressure(const Primitive& w, const Thermo& t) {
  const double g = t.gamma;
  if (w.u > 0.0) {
    // Closed form of a shock that stops gas of speed u. @source{toro, eq. 4.6 set to u_i}
    const double A = 2.0 / ((g + 1.0) * w.rho), B = (g - 1.0) / (g + 1.0) * w.p;
    const double q = 0.5 * w.u * w.u / A;
    return w.p + q + std::sqrt(q * (q + 2.0 * (w.p + B)));
  }
  const double sound = 1.0 + 0.5 * (g - 1.0) * w.u / t.sound;
  return sound > 0.0 ? w.p * std::pow(sound, 2.0 * g / (g - 1.0)) : 0.0;
}

/// Speed of sound over the inner one where outflowing gas has reached it behind the wave [-]; 1 or more when it is
/// there already.
inline double sonic_sound(const Primitive& w, const Thermo& t) {
  const double g = t.gamma;
  return (w.u + 2.0 * t.sound / (g - 1.0)) * (g - 1.0) / (g + 1.0) / t.sound;
}

/// Pressure at which outflowing gas reaches its own speed of sound behind the wave [Pa]; the inner pressure when it is
/// there already.
inline double sonic_pressure(const Primitive& w, const Thermo& t) {
  const double g = t.gamma, sound = sonic_sound(w, t);
  return sound >= 1.0 ? w.p : w.p * std::pow(std::fmax(sound, 1e-3), 2.0 * g / (g - 1.0));
}

}  // namespace portwright::flow
