#pragma once
// What happens inside the cylinder: how the old charge leaves, how the new one burns, what the wall takes.

#include "cycle/state.hpp"

namespace portwright::cycle {

/// The charge as it was shut in.
[[nodiscard]] Charge trapped(const Network& network, const flow::Volume& contents, const flow::Reservoir& gas,
                             double size);

/// Gas as the exhaust gets it: the cylinder's pressure and temperature, but of its own composition.
///
///   displacement-biased blend   Y_exit = Y (1 - s (1 - Y²))
///   displacement then mixing    Y_exit = 0 until `displaced` volumes have come in, then Y
///
/// and of what streams in a share goes straight across to the exhaust. @source{benson_brandham1969} for the second
/// law; the first is own form.
[[nodiscard]] flow::Reservoir exhaust_exit(const Network& network, const Charge& charge, const flow::Reservoir& gas);

/// Film between the gas and every wall of the cylinder [W/m² K], by the form of Woschni times `woschni_factor`.
/// @source{woschni}
[[nodiscard]] double wall_film(const Network& network, const Charge& charge, const flow::Reservoir& gas, double size,
                               double speed, double angle);
/// Crown and head, the head a little domed: their area over the piston's [-].
inline constexpr double ends_of_piston_area = 2.15;
/// Heat into the cylinder's wall [W], by the form of Woschni times `woschni_factor`. @source{woschni}
/// @param angle  [rad ATDC]
[[nodiscard]] double wall_heat(const Network& network, const Charge& charge, const flow::Reservoir& gas, double size,
                               double speed, double angle);

/// What burnt between two angles: heat set free [J], fresh charge and fuel turned into burned gas [kg].
struct Burnt {
  double heat = 0.0, fresh = 0.0, fuel = 0.0;
};
/// Lights the charge when the spark comes, burns it along its curve, and follows the end gas and its knock integral.
[[nodiscard]] Burnt burn(const Network& network, Charge& charge, const flow::Volume& contents,
                         const flow::Reservoir& gas, double speed, double to, double dt, const Draw& draw);

/// [m³/kg]
[[nodiscard]] double specific_volume(const gas::WorkingGas& gas, const flow::Reservoir& r);
/// Temperature of moving gas brought to rest [K].
[[nodiscard]] double total_temperature(const gas::WorkingGas& gas, const flow::Primitive& w);
/// The day's gas in the composition that a duct holds on average, at rest.
[[nodiscard]] flow::Primitive at_rest(const gas::WorkingGas& gas, const flow::Reservoir& day, const flow::Contents& c);

}  // namespace portwright::cycle
