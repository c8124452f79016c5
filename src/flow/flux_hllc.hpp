#pragma once
// The flux between two gases that meet at a face: three waves, of which the middle one carries the contact.
//
// @source{toro, sect. 10.4 to 10.6}: wave speeds from a pressure estimate (10.59 to 10.61, 9.28), middle speed
// (10.37), star states (10.39). The flux is written as what the contact carries past the face, so that a contact at
// rest carries exactly nothing whatever the densities, temperatures and compositions on its two sides.

#include <algorithm>
#include <cmath>

#include "flow/primitive.hpp"

namespace portwright::flow {

namespace hllc {

/// How much faster than sound a side's outer wave runs: 1 for a rarefaction, more for a shock.
inline double outrun(double p_star, double p, double gamma) {
  return p_star <= p ? 1.0 : std::sqrt(1.0 + (gamma + 1.0) / (2.0 * gamma) * (p_star / p - 1.0));
}

/// Pressure between two shocks, from a first guess; where gases collide the linear guess is far too low.
/// @source{toro, eq. 9.42}
inline double two_shocks(const Primitive& l, double gamma_l, const Primitive& r, double gamma_r, double guess) {
  const auto per_pressure = [&](const Primitive& w, double g) {
    return std::sqrt(2.0 / (w.rho * ((g + 1.0) * guess + (g - 1.0) * w.p)));
  };
  const double a = per_pressure(l, gamma_l), b = per_pressure(r, gamma_r);
  return std::max(guess, ((a * l.p + b * r.p) - (r.u - l.u)) / (a + b));
}

inline Flux physical(const Primitive& w, double total_energy) {
  const double mass = w.rho * w.u;
  return {mass, mass * w.u + w.p, w.u * (total_energy + w.p), mass * w.fresh, mass * w.fuel};
}

}  // namespace hllc

/// Flux from left to right. Mirroring both sides mirrors the flux bit by bit.
inline Flux flux_hllc(const Primitive& l, const Thermo& tl, const Primitive& r, const Thermo& tr) {
  // 1. Pressure between the waves, as a guess for the wave speeds.
  const double impedance = 0.25 * (l.rho + r.rho) * (tl.sound + tr.sound);
  double guess = std::max(0.0, 0.5 * ((l.p + r.p) - (r.u - l.u) * impedance));
  if (guess > 2.0 * std::max(l.p, r.p))
    for (int twice = 0; twice < 2; ++twice) guess = hllc::two_shocks(l, tl.gamma, r, tr.gamma, guess);

  // 2. Outer waves, seen from the gas they run into [m/s].
  const double left = -tl.sound * hllc::outrun(guess, l.p, tl.gamma);
  const double right = tr.sound * hllc::outrun(guess, r.p, tr.gamma);
  const double s_left = l.u + left, s_right = r.u + right;

  // 3. Gas that comes past on one side alone.
  const double energy_l = l.rho * (tl.e + 0.5 * l.u * l.u), energy_r = r.rho * (tr.e + 0.5 * r.u * r.u);
  if (s_left >= 0.0) return hllc::physical(l, energy_l);
  if (s_right <= 0.0) return hllc::physical(r, energy_r);

  // 4. The contact: its speed, and the pressure on it (mean of what both sides say).
  const double mass_l = l.rho * left, mass_r = r.rho * right;  // < 0, > 0
  const double s = ((r.p - l.p) + (l.u * mass_l - r.u * mass_r)) / (mass_l - mass_r);
  const double p_star = 0.5 * ((l.p + mass_l * (s - l.u)) + (r.p + mass_r * (s - r.u)));

  // 5. What the contact carries: the star state of the side it comes from.
  const bool from_left = s >= 0.0;
  const Primitive& w = from_left ? l : r;
  const double wave = from_left ? left : right;
  const double rho = (from_left ? mass_l : mass_r) / ((from_left ? s_left : s_right) - s);
  const double energy = rho * ((from_left ? energy_l : energy_r) / w.rho + (s - w.u) * (s + w.p / (w.rho * wave)));
  const double mass = rho * s;
  return {mass, mass * s + p_star, s * (energy + p_star), mass * w.fresh, mass * w.fuel};
}

}  // namespace portwright::flow
