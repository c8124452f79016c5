#pragma once
// How well fins and bare walls give heat to moving air.

#include "base/error.hpp"

namespace portwright::heat {

/// m = sqrt(2 h / (k t)) of a fin that air touches on both sides [1/m]. @source{incropera_dewitt, ch. 3}
[[nodiscard]] double fin_parameter(double film, double conductivity, double thickness);

/// Efficiency of an annular fin of even thickness from radius r1 to r2 [-], its edge taken for insulated: exact, by
/// modified Bessel functions. 1 where r2 = r1. Beyond m r2 = 300 an endless fin's, 2 r1 / (m (r2² - r1²)) times K1/K0
/// by its first terms. @source{incropera_dewitt, eq. 3.91}
[[nodiscard]] double annular_efficiency(double m, double r1, double r2);

/// Efficiency of a straight fin: tanh(m L) / (m L) [-]. @source{incropera_dewitt, table 3.5}
[[nodiscard]] double straight_efficiency(double m, double length);

/// Heat of a long rod [W] at `over` K above the air: sqrt(h P k A) times that. @source{incropera_dewitt, eq. 3.80}
[[nodiscard]] double long_rod_heat(double film, double conductivity, double diameter, double over);

/// One row of fins.
struct FinRow {
  double length = 0.0, pitch = 0.0, thickness = 0.0;  ///< [m]
};

/// Heat that a wall of radius `radius` gives through a row of annular fins, over that of the same wall bare under the
/// same film [-]: 1 - t/p for what is left of the wall, and eta times the fin's two faces and its edge, which counts as
/// half a thickness more of length. @source{incropera_dewitt, ex. 3.10}
[[nodiscard]] double finned_gain(const FinRow& fins, double radius, double film, double conductivity);

/// Film between the fins of an air-cooled cylinder [W/m² K]: 241.7 (0.0247 - 0.00148 l^0.8 / p^0.4) u^0.73, length and
/// pitch in mm, air between the fins in km/h. Error (out_of_range) for fins so long and close that less than a quarter
/// of the bracket is left: the correlation does not speak of them. @source{gibson}
/// @param air [m/s]
[[nodiscard]] base::Result<double> gibson_film(const FinRow& fins, double air);

/// Film of air that crosses a round body [W/m² K], Churchill and Bernstein's mean all round. @source{incropera_dewitt,
/// eq. 7.54}
/// @param air [m/s]  @param T of the air's film [K]
[[nodiscard]] double crossed_film(double diameter, double air, double T);

/// Conduction of one radian and one metre of a round wall from radius `from` out to `to` [W/K]: k / ln(to/from).
/// @source{incropera_dewitt, eq. 3.28}
[[nodiscard]] double round_wall(double conductivity, double from, double to);

}  // namespace portwright::heat
