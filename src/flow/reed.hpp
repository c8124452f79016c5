#pragma once
// A reed's petal as a cantilever in three modes, with contact on its seat and its stop.
//
//   M q_k'' + eta omega_k M q_k' + omega_k² M q_k = dp S_k + sum over stations of (contact + film) phi_k
//   omega_k = (beta_k / L)² sqrt(E t² / 12 rho),   beta = 1.8751, 4.6941, 7.8548,   mean of phi_k² over the length = 1
//
// S_k is the volume that the petal's part over its window sweeps for a unit of q_k, so the work that the pressure does
// on the petal is the work that the gas on both sides gives. All petals are alike and move alike; displacements count
// away from the seat. @source{timoshenko_vibration, cantilever wave numbers}
//
// Stepping takes no memory and no branch on contact: seat and stop push back with a force that begins smoothly over a
// few hundredths of a millimetre, and a thin film of gas brakes the petal near its seat.

#include <array>

namespace portwright::flow {

/// Sizes of one petal and its window [m], its material, and how many there are.
struct ReedShape {
  int petals = 1;
  double length = 0.0, width = 0.0, thickness = 0.0;  ///< free length from the clamp
  double modulus = 0.0, density = 0.0;                ///< [Pa], [kg/m³]
  double window_length = 0.0, window_width = 0.0;
  double stop_lift = 0.0;    ///< of the tip at the stop, whose profile is an arc tangent to the seat at the clamp
  double block_angle = 0.0;  ///< of the seat against the tract's middle line [rad]
  double loss_ratio = 0.15;  ///< eta, loss factor of every mode [-]
  double gap = 0.0;          ///< mean distance of a petal at rest from its seat, along the edge [m]
};

inline constexpr int reed_modes = 3, reed_stations = 12;

/// What stepping needs, computed once.
struct Reed {
  int petals = 1;
  double mass = 0.0;                                      ///< modal, the same for all modes: the petal's own [kg]
  std::array<double, reed_modes> stiffness{}, damping{};  ///< [N/m], [N s/m]
  std::array<double, reed_modes> sweep{};                 ///< S_k of one petal [m²]
  std::array<std::array<double, reed_modes>, reed_stations> shape{};  ///< phi_k at the stations, clamp to tip
  std::array<double, reed_modes> tip{};                               ///< phi_k at the tip
  std::array<double, reed_stations> stop{};                           ///< lift of the stop at the stations [m]
  std::array<double, reed_stations> edge{};  ///< length of the gap's edge that a station's lift opens, one petal [m]
  double leak = 0.0;                         ///< area under one petal at rest [m²]
  double window = 0.0;                       ///< area seen through one window, by the block's angle [m²]
  double contact = 0.0;                      ///< stiffness of seat and stop at one station [N/m]
  double contact_loss = 0.0;                 ///< the same, of speed [N s/m]
  double film = 0.0;                         ///< of the film at a lift of nothing, one station [N s/m]
  double longest_step = 0.0;                 ///< [s]
};

struct ReedState {
  std::array<double, reed_modes> q{}, v{};  ///< [m], [m/s]
};

/// Lift over which contact begins [m].
inline constexpr double reed_contact_depth = 20e-6;

/// Contract: sizes, modulus and density above 0, the window inside the petal.
[[nodiscard]] Reed make_reed(const ReedShape& shape);

/// Marches by dt [s] under a pressure difference [Pa], upstream less case, positive opens. Sub-steps of at most
/// `longest_step`, each the implicit midpoint rule with the contact's stiffness taken at the forward point: second
/// order, bounded for any dt.
void step(const Reed& reed, ReedState& state, double push, double dt);

/// Gap between petals and seats, all petals, capped smoothly by their windows [m²]; 0 on the seat.
[[nodiscard]] double area(const Reed& reed, const ReedState& state);

/// Volume between the seats and the petals over their windows, all petals [m³], and how fast it grows [m³/s].
[[nodiscard]] double swept_volume(const Reed& reed, const ReedState& state);
[[nodiscard]] double swept_rate(const Reed& reed, const ReedState& state);

[[nodiscard]] double tip_lift(const Reed& reed, const ReedState& state);  ///< [m]
/// Speed at which the tip comes at seat or stop while within 0.1 mm of it [m/s]; else 0.
[[nodiscard]] double impact_speed(const Reed& reed, const ReedState& state);
/// Of all petals: kinetic and elastic, without what contact stores [J].
[[nodiscard]] double energy(const Reed& reed, const ReedState& state);

/// Natural frequency of a mode, 0-based [Hz].
[[nodiscard]] double frequency(const Reed& reed, int mode);

}  // namespace portwright::flow
