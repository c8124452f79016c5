#include "flow/reed.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace portwright::flow {

namespace {

constexpr std::array<double, reed_modes> wave_numbers{1.8751040687119611, 4.6940911329741746, 7.8547574382376126};

/// Cantilever mode at a share of the length, mean square 1. @source{timoshenko_vibration}
double mode_shape(int k, double at) {
  const double b = wave_numbers[static_cast<std::size_t>(k)];
  const double sigma = (std::cosh(b) + std::cos(b)) / (std::sinh(b) + std::sin(b));
  const double x = b * at;
  return std::cosh(x) - std::cos(x) - sigma * (std::sinh(x) - std::sin(x));
}

/// Integral of a mode over part of the length, in lengths; Simpson's rule to 1e-10.
double mode_integral(int k, double from, double to) {
  constexpr int n = 200;
  const double h = (to - from) / n;
  double sum = mode_shape(k, from) + mode_shape(k, to);
  for (int i = 1; i < n; ++i) sum += (i % 2 == 1 ? 4.0 : 2.0) * mode_shape(k, from + h * i);
  return sum * h / 3.0;
}

using Three = std::array<double, reed_modes>;

double dot(const Three& a, const Three& b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }

/// How far x reaches into seat or stop, its beginning rounded: 0 before they touch, x²/4d up to twice the contact's
/// depth d, then x - d. `slope` gets its derivative, 0..1.
double overlap(double x, double& slope) {
  const double in = std::max(0.0, x);
  slope = std::min(1.0, in / (2.0 * reed_contact_depth));
  return in - 2.0 * reed_contact_depth < 0.0 ? 0.5 * in * slope : in - reed_contact_depth;
}

/// Symmetric 3 by 3, positive definite: A x = b by Cholesky.
Three solve(const std::array<Three, reed_modes>& a, const Three& b) {
  const double l00 = std::sqrt(a[0][0]), l10 = a[1][0] / l00, l20 = a[2][0] / l00;
  const double l11 = std::sqrt(a[1][1] - l10 * l10), l21 = (a[2][1] - l20 * l10) / l11;
  const double l22 = std::sqrt(a[2][2] - l20 * l20 - l21 * l21);
  const double y0 = b[0] / l00, y1 = (b[1] - l10 * y0) / l11, y2 = (b[2] - l20 * y0 - l21 * y1) / l22;
  const double x2 = y2 / l22, x1 = (y1 - l21 * x2) / l11;
  return {(y0 - l10 * x1 - l20 * x2) / l00, x1, x2};
}

/// One implicit step: (M + h/2 C + h²/4 K) dv = h (F(q + h v/2) - C v).
void sub_step(const Reed& reed, ReedState& state, double push, double h) {
  Three middle, force, change;
  std::array<Three, reed_modes> left{};
  for (std::size_t k = 0; k < reed_modes; ++k) {
    middle[k] = state.q[k] + 0.5 * h * state.v[k];
    force[k] = push * reed.sweep[k] - reed.stiffness[k] * middle[k] - reed.damping[k] * state.v[k];
    left[k][k] = reed.mass + 0.5 * h * reed.damping[k] + 0.25 * h * h * reed.stiffness[k];
  }
  for (std::size_t i = 0; i < reed_stations; ++i) {
    const Three& phi = reed.shape[i];
    const double lift = dot(phi, middle), speed = dot(phi, state.v);
    double on_seat, on_stop;
    const double seat = overlap(-lift, on_seat), stop = overlap(lift - reed.stop[i], on_stop);
    const double thin = 1.0 + std::max(0.0, lift) / reed_contact_depth;
    const double drag = reed.contact_loss * (on_seat * on_seat + on_stop * on_stop) + reed.film / (thin * thin * thin);
    const double total = reed.contact * (seat - stop) - drag * speed;
    const double stiff = 0.25 * h * h * reed.contact * (on_seat + on_stop) + 0.5 * h * drag;
    for (std::size_t k = 0; k < reed_modes; ++k) {
      force[k] += total * phi[k];
      for (std::size_t j = 0; j <= k; ++j) left[k][j] += stiff * phi[k] * phi[j];
    }
  }
  for (std::size_t k = 0; k < reed_modes; ++k) force[k] *= h;
  change = solve(left, force);
  for (std::size_t k = 0; k < reed_modes; ++k) {
    state.q[k] += h * (state.v[k] + 0.5 * change[k]);
    state.v[k] += change[k];
  }
}

}  // namespace

Reed make_reed(const ReedShape& s) {
  Reed reed;
  reed.petals = s.petals;
  reed.mass = s.density * s.thickness * s.width * s.length;
  const double bending = std::sqrt(s.modulus * s.thickness * s.thickness / (12.0 * s.density));
  // The window ends a twentieth of the length before the tip, or begins at the clamp when it is that long.
  const double to = std::min(1.0, std::max(0.95, s.window_length / s.length));
  const double from = std::max(0.0, to - s.window_length / s.length);
  for (int k = 0; k < reed_modes; ++k) {
    const auto i = static_cast<std::size_t>(k);
    const double per_length = wave_numbers[i] / s.length, omega = per_length * per_length * bending;
    reed.stiffness[i] = reed.mass * omega * omega;
    reed.damping[i] = s.loss_ratio * omega * reed.mass;
    reed.sweep[i] = s.window_width * s.length * mode_integral(k, from, to);
    reed.tip[i] = mode_shape(k, 1.0);
  }
  const double spacing = 1.0 / reed_stations;
  for (int n = 0; n < reed_stations; ++n) {
    const auto i = static_cast<std::size_t>(n);
    const double at = (n + 1) * spacing;
    for (int k = 0; k < reed_modes; ++k) reed.shape[i][static_cast<std::size_t>(k)] = mode_shape(k, at);
    reed.stop[i] = s.stop_lift * at * at;
    // Both long edges where the window is, and the short one at the tip.
    const double over = std::clamp((std::min(at, to) - std::max(at - spacing, from)) / spacing, 0.0, 1.0);
    reed.edge[i] = 2.0 * s.length * spacing * over + (n + 1 == reed_stations ? s.window_width : 0.0);
    reed.leak += reed.edge[i] * s.gap;
  }
  reed.window = s.window_length * s.window_width * std::clamp(std::cos(0.5 * s.block_angle), 0.5, 1.0);
  // Half a bar on the window presses the petal its contact's depth into the seat.
  const double whole = 0.5e5 * s.window_length * s.window_width / reed_contact_depth;
  reed.contact = whole / reed_stations;
  reed.contact_loss = 0.3 * std::sqrt(reed.contact * reed.mass / reed_stations);
  // A film between strips 1.5 mm wide: mu l b³ / h³ at the contact's depth. @source{memory, lubrication of parallel
  // plates}
  const double strip = 1.5e-3;
  reed.film = 1.8e-5 * 2.0 * s.length * spacing * std::pow(strip / reed_contact_depth, 3);
  reed.longest_step = 6e-6;
  return reed;
}

void step(const Reed& reed, ReedState& state, double push, double dt) {
  const int parts = std::clamp(static_cast<int>(std::ceil(dt / reed.longest_step)), 1, 64);
  for (int i = 0; i < parts; ++i) sub_step(reed, state, push, dt / parts);
}

double area(const Reed& reed, const ReedState& state) {
  double gap = reed.leak;
  for (std::size_t i = 0; i < reed_stations; ++i) {
    const double lift = std::max(0.0, dot(reed.shape[i], state.q));
    gap += reed.edge[i] * lift * lift / (lift + reed_contact_depth);  // no gap and no slope on the seat
  }
  return reed.petals * gap * reed.window / std::sqrt(gap * gap + reed.window * reed.window);
}

double swept_volume(const Reed& reed, const ReedState& state) { return reed.petals * dot(reed.sweep, state.q); }

double swept_rate(const Reed& reed, const ReedState& state) { return reed.petals * dot(reed.sweep, state.v); }

double tip_lift(const Reed& reed, const ReedState& state) { return dot(reed.tip, state.q); }

double impact_speed(const Reed& reed, const ReedState& state) {
  constexpr double near = 1e-4;
  const double lift = tip_lift(reed, state), speed = dot(reed.tip, state.v);
  if (lift < near) return std::max(0.0, -speed);
  if (lift > reed.stop.back() - near) return std::max(0.0, speed);
  return 0.0;
}

double energy(const Reed& reed, const ReedState& state) {
  double sum = 0.0;
  for (std::size_t k = 0; k < reed_modes; ++k)
    sum += 0.5 * reed.mass * state.v[k] * state.v[k] + 0.5 * reed.stiffness[k] * state.q[k] * state.q[k];
  return reed.petals * sum;
}

double frequency(const Reed& reed, int mode) {
  return std::sqrt(reed.stiffness[static_cast<std::size_t>(mode)] / reed.mass) / (2.0 * std::numbers::pi);
}

}  // namespace portwright::flow
