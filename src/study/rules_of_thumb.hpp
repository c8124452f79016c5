#pragma once
// Published rules of thumb: what others found to go together. None of them is a limit.

namespace portwright::study {

/// Factor K of a carburettor of bore D [m] on an engine of displacement C [m³] at a speed N [rev/s]:
/// D[mm] = K sqrt(C[l] N[rpm]), which is published with K from 0.65 to 0.9.
/// @source{jennings1973, carburettor bore}
[[nodiscard]] double carburettor_factor(double bore, double displacement, double speed);

/// The bore [m] that a factor gives.
/// @source{jennings1973, carburettor bore}
[[nodiscard]] double carburettor_bore(double factor, double displacement, double speed);

/// Specific time-area of the intake [s/m] that goes with a mean effective pressure [Pa]:
/// (bmep[bar] + 1.528) / 774.
/// @source{blair1990, specific time-areas}
[[nodiscard]] double intake_time_area_for(double mean_pressure);

/// The mean effective pressure [Pa] that goes with a specific time-area of the intake [s/m]; never below 0.
/// @source{blair1990, specific time-areas}
[[nodiscard]] double mean_pressure_of_intake(double specific_time_area);

}  // namespace portwright::study
