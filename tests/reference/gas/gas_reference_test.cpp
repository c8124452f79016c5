// Published and remembered values of gases, nozzles and the atmosphere.

#include <cmath>

#include <gtest/gtest.h>

#include "gas/atmosphere.hpp"
#include "gas/isentropic.hpp"
#include "gas/opening.hpp"
#include "gas/working_gas.hpp"

namespace portwright::gas {
namespace {

// NACA Report 1135, isentropic flow at gamma 1.4; seen.
TEST(naca_1135, isentropic_flow) {
  const double rows[][5] = {{0.10, .9930, .9950, .9980, 5.8218},
                            {0.50, .8430, .8852, .9524, 1.3398},
                            {0.90, .5913, .6870, .8606, 1.0089},
                            {1.00, .5283, .6339, .8333, 1.0000},
                            {1.10, .4684, .5817, .8052, 1.0079}};
  for (const auto& row : rows) {
    const Isentropic at = isentropic(row[0], 1.4);
    EXPECT_NEAR(at.pressure, row[1], 6e-5);
    EXPECT_NEAR(at.density, row[2], 6e-5);
    EXPECT_NEAR(at.temperature, row[3], 6e-5);
    EXPECT_NEAR(at.area, row[4], 6e-5);
  }
}

// NACA Report 1135, normal shock at gamma 1.4; seen.
TEST(naca_1135, normal_shock) {
  const double rows[][5] = {{1.5, .7011, 2.4583, 1.8621, 1.3202}, {2.0, .5774, 4.5, 2.6667, 1.6875}};
  for (const auto& row : rows) {
    const NormalShock behind = normal_shock(row[0], 1.4);
    EXPECT_NEAR(behind.mach, row[1], 6e-5);
    EXPECT_NEAR(behind.pressure, row[2], 6e-5);
    EXPECT_NEAR(behind.density, row[3], 6e-5);
    EXPECT_NEAR(behind.temperature, row[4], 6e-5);
  }
}

// Cengel & Boles ex. 17-5: air 150 m/s, 600 C, 1 MPa into a convergent nozzle of 50 cm2, cp 1.005, k 1.4: behind it
// 0.7 MPa 6.77 kg/s (exact 6.785), 0.4 MPa choked 7.11 kg/s; seen.
TEST(cengel_boles_17_5, convergent_nozzle) {
  const double T0 = 873.0 + 150.0 * 150.0 / 2.0 / 1005.0, p0 = 1e6 * std::pow(T0 / 873.0, 3.5);
  EXPECT_NEAR(opening_flow(p0, T0, 287.0, 1.4, 50e-4, 0.7e6), 6.785, 0.003);
  EXPECT_NEAR(opening_flow(p0, T0, 287.0, 1.4, 50e-4, 0.7e6), 6.77, 0.02);
  EXPECT_NEAR(opening_flow(p0, T0, 287.0, 1.4, 50e-4, 0.4e6), 7.11, 0.015);
}

// Fox & McDonald, Introduction to Fluid Mechanics, ex. p. 634: 1000 kPa, 333 K, behind 591 kPa, exit .001 m2: M 0.90,
// 2.20 kg/s; seen.
TEST(fox_mcdonald_p634, convergent_nozzle) {
  EXPECT_NEAR(mach_of_pressure(0.591, 1.4), 0.90, 0.002);
  EXPECT_NEAR(opening_flow(1e6, 333.0, 287.0, 1.4, 1e-3, 591e3), 2.20, 0.005);
}

// m sqrt(R T0) / (p0 A) of choked flow at gamma 1.4: .684731; own arithmetic.
TEST(choked_flow, flow_number) { EXPECT_NEAR(flow_number(0.3, 1.4), 0.684731, 5e-7); }

// US Standard Atmosphere 1976, the same as ISO 2533 at these heights; seen.
TEST(us_standard_atmosphere_1976, three_heights) {
  const double rows[][4] = {{0, 288.15, 101325, 1.2250}, {500, 284.900, 95461, 1.1673}, {2000, 275.15, 79501, 1.0066}};
  for (const auto& row : rows) {
    const Atmosphere air = standard_atmosphere(row[0]);
    EXPECT_NEAR(air.temperature, row[1], 0.006);
    EXPECT_NEAR(air.pressure, row[2], 0.7);
    EXPECT_NEAR(air.density, row[3], 6e-5);
  }
}

// SAE J1349 (1990): CF = 1.180 [(990/Pd) sqrt((Tc+273)/298)] - 0.18, dry hPa, deg C; CF(990, 25) = 1; seen.
TEST(sae_j1349, factor_is_one_on_its_own_day) {
  EXPECT_NEAR(correction_j1349(990e2, 298.0), 1.0, 1e-12);
  EXPECT_NEAR(correction_j1349(950e2, 308.0), 1.180 * (990.0 / 950.0 * std::sqrt(308.0 / 298.0)) - 0.18, 1e-12);
}

// ISO 1585: alpha = (99/ps)^1.2 (T/298)^0.6, dry kPa; memory (sure).
TEST(iso_1585, factor_by_hand) {
  EXPECT_NEAR(correction_iso1585(99e3, 298.0), 1.0, 1e-12);
  EXPECT_NEAR(correction_iso1585(95e3, 308.0), 1.07175, 2e-5);  // 1.05074 * 1.02000, own arithmetic
}

struct HeatRow {
  Kind kind;
  double cp[3], rise[2];  // J/mol K at 300, 1000, 2000 K; kJ/mol at 1000, 2000 K
};

void expect_heat(const HeatRow& row, double band) {
  const Nasa7& gas = species(row.kind).heat;
  const double T[3] = {300.0, 1000.0, 2000.0};
  for (int i = 0; i < 3; ++i) EXPECT_NEAR(heat_capacity(gas, T[i]) / row.cp[i], 1.0, band);
  for (int i = 0; i < 2; ++i)
    EXPECT_NEAR((enthalpy(gas, T[i + 1]) - enthalpy(gas, 298.15)) / (1e3 * row.rise[i]), 1.0, band);
}

// McBride, Gordon, Reno, NASA TM-4513 (1993); memory (sure). Five digits: a wrong digit of a coefficient would show.
TEST(nasa_tm4513, heat_of_every_species) {
  for (const HeatRow& row : {HeatRow{Kind::N2, {29.125, 32.683, 36.009}, {21.465, 56.091}},
                             HeatRow{Kind::O2, {29.388, 34.883, 37.855}, {22.707, 59.168}},
                             HeatRow{Kind::CO2, {37.218, 54.321, 60.466}, {33.397, 91.345}},
                             HeatRow{Kind::H2O, {33.596, 41.295, 51.678}, {26.003, 73.054}},
                             HeatRow{Kind::CO, {29.143, 33.163, 36.288}, {21.690, 56.687}},
                             HeatRow{Kind::H2, {28.851, 30.163, 34.195}, {20.687, 52.986}}})
    expect_heat(row, 4e-5);
}

// JANAF/NIST tables of N2; memory (sure).
TEST(janaf, heat_of_nitrogen) { expect_heat({Kind::N2, {29.125, 32.697, 35.971}, {21.463, 56.137}}, 0.0012); }

// NIST Shomate equation of N2 (Chase 1998), 500-2000 K: cp = A + Bt + Ct2 + Dt3 + E/t2, t = T/1000; seen. The two
// published curves part by 0.28 % near 1,300 K (by hand: 34.052 and 34.149 J/mol K); the heat taken up by 0.15 %.
TEST(nist_shomate, heat_capacity_of_nitrogen) {
  const Nasa7& gas = species(Kind::N2).heat;
  const auto shomate = [](double T) {
    const double t = T / 1000.0;
    return 19.50583 + t * (19.88705 + t * (-8.598535 + t * 1.369784)) + 0.527601 / (t * t);
  };
  double heat = 0.0;
  for (double T = 500.0; T < 2000.0; T += 1.0) {
    EXPECT_NEAR(heat_capacity(gas, T) / shomate(T), 1.0, 0.003) << T;
    heat += shomate(T + 0.5);
    EXPECT_NEAR((enthalpy(gas, T + 1.0) - enthalpy(gas, 500.0)) / heat, 1.0, 0.002) << T;
  }
}

// Formation enthalpies [kJ/mol]: CO2 -393.51, H2O -241.83, CO -110.53 (JANAF; memory, sure).
TEST(janaf, heats_of_formation) {
  EXPECT_NEAR(enthalpy(species(Kind::CO2).heat, 298.15) / 1e3, -393.51, 0.05);
  EXPECT_NEAR(enthalpy(species(Kind::H2O).heat, 298.15) / 1e3, -241.83, 0.05);
  EXPECT_NEAR(enthalpy(species(Kind::CO).heat, 298.15) / 1e3, -110.53, 0.05);
  for (Kind kind : {Kind::N2, Kind::O2, Kind::H2, Kind::Ar})
    EXPECT_NEAR(enthalpy(species(kind).heat, 298.15), 0.0, 10.0);
}

// Standard entropies at 1 bar [J/mol K]: N2 191.61, O2 205.15, CO2 213.8, H2O 188.84, CO 197.66, H2 130.68, Ar 154.85
// (JANAF; memory, sure).
TEST(janaf, entropies) {
  const std::pair<Kind, double> rows[] = {{Kind::N2, 191.61},  {Kind::O2, 205.15}, {Kind::CO2, 213.8},
                                          {Kind::H2O, 188.84}, {Kind::CO, 197.66}, {Kind::H2, 130.68},
                                          {Kind::Ar, 154.85}};
  for (const auto& [kind, s] : rows) EXPECT_NEAR(entropy(species(kind).heat, 298.15), s, 0.05);
}

// Heywood, Internal Combustion Engine Fundamentals: the water-gas balance of rich exhaust is that of 1740 K, where its
// constant is about 3.5; memory.
TEST(heywood, water_gas_constant) { EXPECT_NEAR(water_gas_constant(1740.0), 3.5, 0.15); }

// Gasoline: 14.6 kg of air for each of fuel, lower heating value 43-44 MJ/kg; memory (sure).
TEST(gasoline, air_and_heat) {
  EXPECT_NEAR(stoichiometric_air(0.0, gasoline()), 14.6, 0.05);
  EXPECT_GT(lower_heating_value(gasoline()) - gasoline().latent, 43.0e6);
  EXPECT_LT(lower_heating_value(gasoline()), 44.0e6);
}

// Iso-octane vapour: formation -224.0 kJ/mol, heat capacity 188.9 J/mol K at 298 K; lower heating value of the
// liquid 44.3 MJ/kg; memory.
TEST(isooctane, heat) {
  const Fuel octane = fuel("isooctane").value();
  EXPECT_NEAR(enthalpy(octane.vapour, 298.15) / 1e3, -224.0, 1.0);
  EXPECT_NEAR(heat_capacity(octane.vapour, 300.0), 189.5, 3.0);
  EXPECT_NEAR(lower_heating_value(octane) - octane.latent, 44.3e6, 0.15e6);
}

// Moran & Shapiro: octane, theoretical air AF 59.5 molar, 15.09 mass (ex. 13.1); liquid octane burned adiabatically at
// constant pressure from 298 K without dissociation: 2395 K at theoretical air, 962 K at 400 % (ex. 13.8); seen. Their
// air is 21 % oxygen and the rest nitrogen; formation of liquid octane -249.91 MJ/kmol (the book's table; memory).
class MoranShapiro : public testing::Test {
 protected:
  static constexpr double octane_formation = -249910.0;  // J/mol
  static Mixture products(double excess) {
    Mixture gas;
    gas[Kind::CO2] = 8.0;
    gas[Kind::H2O] = 9.0;
    gas[Kind::O2] = 12.5 * (excess - 1.0);
    gas[Kind::N2] = 12.5 * excess * 3.76;
    return gas;
  }
  static double flame(double excess) {
    const Mixture gas = products(excess);
    const double air =
        12.5 * excess * (enthalpy(species(Kind::O2).heat, 298.15) + 3.76 * enthalpy(species(Kind::N2).heat, 298.15));
    return temperature_of_enthalpy(gas, (octane_formation + air) / mass(gas)).value();
  }
  /// n-octane for the working gas: the vapour of its isomer, shifted so that the liquid has its formation enthalpy.
  static Fuel octane() {
    Fuel out = fuel("isooctane").value();
    const double wanted = octane_formation + out.latent * out.molar_mass;
    const double shift = (wanted - enthalpy(out.vapour, 298.15)) / universal_constant;
    out.vapour.low[5] += shift;
    out.vapour.high[5] += shift;
    return out;
  }
};

TEST_F(MoranShapiro, theoretical_air_of_octane) {
  const double air_moles = 12.5 * 4.76;
  EXPECT_NEAR(air_moles, 59.5, 1e-9);
  EXPECT_NEAR(air_moles * 28.97e-3 / octane().molar_mass, 15.09, 0.005);
  EXPECT_NEAR(stoichiometric_air(0.0, octane()), 15.09, 0.05);  // own air has argon and a little less oxygen
}

TEST_F(MoranShapiro, flame_of_octane_by_the_polynomials) {
  EXPECT_NEAR(flame(1.0) / 2395.0, 1.0, 0.003);
  EXPECT_NEAR(flame(4.0) / 962.0, 1.0, 0.003);
}

TEST_F(MoranShapiro, flame_of_octane_by_the_fitted_law) {
  for (const auto& [excess, published] : {std::pair{1.0, 2395.0}, std::pair{4.0, 962.0}}) {
    const WorkingGas gas = working_gas(excess * stoichiometric_air(0.0, octane()), 0.0, octane()).value();
    const double fuel_share = 1.0 / (1.0 + gas.air_per_fuel), T0 = 298.15;
    const Caloric fresh = blend(gas, 1.0, fuel_share);
    const double h = enthalpy(fresh, gas.c, T0) + fuel_share * (gas.heat_per_fuel - gas.latent);
    EXPECT_NEAR(temperature_of_enthalpy(gas.burned, gas.c, h) / published, 1.0, gas.error.temperature + 0.003);
  }
}

}  // namespace
}  // namespace portwright::gas
