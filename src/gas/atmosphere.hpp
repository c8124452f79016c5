#pragma once
// The day: the standard atmosphere by height, moist air, and what a power read on one day would be on another.

namespace portwright::gas {

/// Pressure [Pa], temperature [K], density of dry air [kg/m³].
struct Atmosphere {
  double pressure = 101325.0, temperature = 288.15, density = 1.225;
};
/// Standard atmosphere up to 11 km. @source{iso2533}; the same as @source{ussa1976, at these heights}.
/// @param altitude geometric height above the sea [m], held within -2,000 .. 11,000
[[nodiscard]] Atmosphere standard_atmosphere(double altitude);

/// Pressure of water vapour over water at saturation [Pa], by Magnus' form, within 0.5 % at -20..50 deg C.
/// @source{memory, Magnus form with 611.2 Pa, 17.62, 243.12 K}
[[nodiscard]] double saturation_pressure(double temperature);

/// Kilograms of water vapour for each kilogram of dry air [-].
/// @param relative 0..1; a vapour pressure above a tenth of the whole is held there
[[nodiscard]] double humidity_ratio(double relative, double temperature, double pressure);
/// Pressure of the dry part of moist air [Pa].
[[nodiscard]] double dry_pressure(double relative, double temperature, double pressure);

/// Factor from power as read to power of the standard day [-]. @source{sae_j1349, 1990, CF of spark ignition engines}
/// @param dry         pressure of dry air [Pa]
/// @param temperature of the air taken in [K]
[[nodiscard]] double correction_j1349(double dry, double temperature);
/// The same by ISO 1585; the standard holds it good from 0.93 to 1.07. @source{iso1585, alpha_a, from memory}
[[nodiscard]] double correction_iso1585(double dry, double temperature);

}  // namespace portwright::gas
