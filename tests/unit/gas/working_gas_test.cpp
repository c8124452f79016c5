#include <cmath>

#include <gtest/gtest.h>

#include "gas/working_gas.hpp"

namespace portwright::gas {
namespace {

const WorkingGas& usual() {
  static const WorkingGas gas = working_gas(12.8, 0.008).value();
  return gas;
}

/// Compositions over the whole triangle of fresh and fuel.
template <class F>
void for_every_blend(F&& check) {
  for (double fresh = 0.0; fresh <= 1.0; fresh += 0.125)
    for (double share : {0.0, 0.04, 0.075, 0.5, 1.0}) check(blend(usual(), fresh, share * fresh));
}

TEST(working_gas, energy_and_temperature_are_each_others_way_back) {
  const double c = usual().c;
  for_every_blend([&](const Caloric& k) {
    for (double T = 150.0; T <= 4000.0; T *= 1.09) {
      EXPECT_NEAR(temperature(k, c, energy(k, c, T)) / T, 1.0, 1e-12);
      EXPECT_NEAR(temperature_of_enthalpy(k, c, enthalpy(k, c, T)) / T, 1.0, 1e-12);
    }
  });
}

TEST(working_gas, heat_capacity_is_the_slope_of_the_energy_and_rises) {
  const double c = usual().c;
  for_every_blend([&](const Caloric& k) {
    double before = 0.0;
    for (double T = 200.0; T <= 3500.0; T += 150.0) {
      const double slope = (energy(k, c, T + 0.5) - energy(k, c, T - 0.5));
      EXPECT_NEAR(slope / cv(k, c, T), 1.0, 1e-7);
      EXPECT_GT(cv(k, c, T), before);
      before = cv(k, c, T);
      EXPECT_GT(gamma(k, c, T), 1.0);
      EXPECT_LT(gamma(k, c, T), 5.0 / 3.0);
    }
  });
}

TEST(working_gas, a_blend_holds_the_energy_of_its_parts) {
  const WorkingGas& gas = usual();
  for (double T : {250.0, 700.0, 2400.0}) {
    const double parts =
        0.63 * energy(gas.air, gas.c, T) + 0.05 * energy(gas.fuel, gas.c, T) + 0.32 * energy(gas.burned, gas.c, T);
    EXPECT_NEAR(energy(blend(gas, 0.68, 0.05), gas.c, T) / parts, 1.0, 1e-14);
  }
}

// Measured again here against the polynomials, on another grid than the fit's own.
TEST(working_gas, stated_errors_are_the_greatest_there_are) {
  for (double air_fuel : {11.5, 12.8, 14.7, 22.0}) {
    const WorkingGas gas = working_gas(air_fuel, 0.008).value();
    const Mixture air = moist_air(0.008), burned = burned_gas(air_fuel, 0.008, gasoline()).value();
    double energy_off = 0.0, cv_off = 0.0;
    const auto look = [&](const Mixture& exact, const Caloric& k, double T) {
      const double rise = energy(exact, T) - energy(exact, 298.15);
      if (std::abs(T - 298.15) >= 100.0)
        energy_off = std::max(energy_off, std::abs((energy(k, gas.c, T) - energy(k, gas.c, 298.15)) / rise - 1.0));
      cv_off = std::max(cv_off, std::abs(cv(k, gas.c, T) / (heat_capacity(exact, T) - gas_constant(exact)) - 1.0));
    };
    for (double T = 250.0; T <= 3000.0; T += 3.7) look(air, gas.air, T), look(burned, gas.burned, T);
    EXPECT_LE(energy_off, gas.error.energy * 1.02);
    EXPECT_GE(energy_off, gas.error.energy * 0.9);
    EXPECT_LE(cv_off, gas.error.cv * 1.02);
    EXPECT_LT(gas.error.energy, 0.02);
    EXPECT_LT(gas.error.cv, 0.05);
    EXPECT_LT(gas.error.temperature, 0.008);
    EXPECT_LT(gas.fuel_error.energy, 0.03);
    EXPECT_LT(gas.fuel_error.cv, 0.08);
  }
}

TEST(working_gas, sensible_heat_matches_the_polynomials_within_three_and_a_half_kelvin) {
  const WorkingGas& gas = usual();
  const Mixture air = moist_air(0.008), burned = burned_gas(12.8, 0.008, gasoline()).value();
  for (double T = 250.0; T <= 3000.0; T += 25.0) {
    for (const auto& [exact, k] : {std::pair{&air, &gas.air}, std::pair{&burned, &gas.burned}}) {
      const double sensible = energy(*exact, T) - energy(*exact, 298.15) + energy(*k, gas.c, 298.15);
      EXPECT_NEAR(temperature(*k, gas.c, sensible), T, 3.5) << T;
    }
  }
}

TEST(working_gas, burning_in_a_closed_vessel_gives_the_temperature_of_the_polynomials) {
  for (double air_fuel : {11.0, 12.5, 14.0, 14.8, 18.0, 40.0}) {
    const WorkingGas gas = working_gas(air_fuel, 0.008).value();
    const double fuel = 1.0 / (1.0 + air_fuel), start = 600.0;
    const Caloric fresh = blend(gas, 1.0, fuel);
    const double e = energy(fresh, gas.c, start) + fuel * gas.heat_per_fuel;

    Mixture vapour;
    vapour.fuel_moles = 1.0;
    vapour.fuel = gasoline();
    const double u = fuel * energy(vapour, start) + (1.0 - fuel) * energy(moist_air(0.008), start);
    const double exact = temperature_of_energy(burned_gas(air_fuel, 0.008, gasoline()).value(), u).value();
    EXPECT_NEAR(temperature(gas.burned, gas.c, e) / exact, 1.0, 0.004) << air_fuel << ' ' << exact;
  }
}

TEST(working_gas, a_rich_mixture_frees_less_heat_and_a_lean_one_all) {
  const WorkingGas whole = working_gas(14.8, 0.0).value();
  EXPECT_NEAR(whole.heat_per_fuel / whole.heat_complete, 1.0, 1e-4);
  EXPECT_NEAR(whole.heat_complete / lower_heating_value(gasoline()), 1.0, 0.005);
  EXPECT_NEAR(working_gas(25.0, 0.0)->heat_per_fuel / whole.heat_complete, 1.0, 1e-3);
  // The loss grows by about 1.3 for each unit of lambda: the rule of thumb has the water-gas balance in it.
  for (double lambda : {0.95, 0.9, 0.85, 0.8}) {
    const WorkingGas rich = working_gas(lambda * whole.stoichiometric, 0.0).value();
    EXPECT_NEAR(rich.heat_per_fuel / rich.heat_complete, 1.0 - 1.3 * (1.0 - lambda), 0.015) << lambda;
  }
}

TEST(working_gas, small_changes_of_the_mixture_are_small_changes_of_the_gas) {
  double before = 0.0;
  for (double air_fuel = 13.0; air_fuel <= 16.5; air_fuel += 0.05) {
    const WorkingGas gas = working_gas(air_fuel, 0.008).value();
    const double now = energy(gas.burned, gas.c, 2200.0);
    if (before > 0.0) {
      EXPECT_NEAR(now / before, 1.0, 0.002) << air_fuel;
    }
    before = now;
  }
}

TEST(working_gas, isentropes_of_the_law_go_there_and_back_and_keep_the_entropy) {
  const WorkingGas& gas = usual();
  const Caloric k = blend(gas, 0.75, 0.05);
  for (double ratio : {0.3, 0.9, 1.5, 8.0, 25.0}) {
    const double T = isentropic_temperature(k, gas.c, 420.0, ratio);
    EXPECT_NEAR(isentropic_temperature(k, gas.c, T, 1.0 / ratio), 420.0, 1e-9);
    // dT/T = R/cp dp/p along many small steps
    double t = 420.0;
    const int steps = 20000;
    for (int i = 0; i < steps; ++i) {
      const double part = std::log(ratio) / steps, half = t * (1.0 + 0.5 * part * k.R / (k.R + cv(k, gas.c, t)));
      t += half * part * k.R / (k.R + cv(k, gas.c, half));
    }
    EXPECT_NEAR(T, t, 1e-4);
  }
}

TEST(working_gas, refuses_mixtures_that_have_no_known_products) {
  EXPECT_FALSE(working_gas(7.0, 0.0));
  EXPECT_FALSE(working_gas(200.0, 0.0));
  EXPECT_FALSE(working_gas(13.0, -0.01));
  EXPECT_FALSE(working_gas(13.0, 0.5));
  EXPECT_FALSE(working_gas(std::nan(""), 0.0));
  EXPECT_FALSE(fuel("whisky"));
}

TEST(mixture, burning_keeps_every_atom_and_every_gram) {
  for (double air_fuel : {10.0, 12.0, 14.6, 16.0, 60.0}) {
    const Mixture air = moist_air(0.01), burned = burned_gas(air_fuel, 0.01, gasoline()).value();
    const double fuel_moles = mass(air) / air_fuel / gasoline().molar_mass;
    EXPECT_NEAR(mass(burned) / (mass(air) * (1.0 + 1.0 / air_fuel)), 1.0, 1e-12);
    const auto& m = burned;
    EXPECT_NEAR(m[Kind::CO2] + m[Kind::CO], air[Kind::CO2] + 8.26 * fuel_moles, 1e-12);
    EXPECT_NEAR(m[Kind::H2O] + m[Kind::H2], air[Kind::H2O] + 7.75 * fuel_moles, 1e-12);
    EXPECT_NEAR(2 * m[Kind::O2] + 2 * m[Kind::CO2] + m[Kind::CO] + m[Kind::H2O],
                2 * air[Kind::O2] + 2 * air[Kind::CO2] + air[Kind::H2O], 1e-12);
    for (double moles : m.moles) EXPECT_GE(moles, 0.0);
  }
}

TEST(mixture, rich_products_stand_in_water_gas_balance) {
  for (double air_fuel : {10.0, 11.5, 13.0, 14.3}) {
    const Mixture m = burned_gas(air_fuel, 0.0, gasoline()).value();
    EXPECT_NEAR(m[Kind::H2O] * m[Kind::CO] / (m[Kind::CO2] * m[Kind::H2]), water_gas_constant(1740.0), 1e-9);
  }
}

TEST(mixture, polynomials_meet_in_the_middle_and_go_on_beyond_their_range) {
  for (std::size_t i = 0; i < kinds; ++i) {
    const Nasa7& gas = species(static_cast<Kind>(i)).heat;
    EXPECT_NEAR(heat_capacity(gas, gas.middle - 1e-9) / heat_capacity(gas, gas.middle), 1.0, 1e-4);
    EXPECT_NEAR(enthalpy(gas, gas.middle - 1e-9), enthalpy(gas, gas.middle), 10.0);
    EXPECT_NEAR(entropy(gas, gas.middle - 1e-9), entropy(gas, gas.middle), 0.01);
    EXPECT_EQ(heat_capacity(gas, 100.0), heat_capacity(gas, gas.lowest));
    EXPECT_NEAR(enthalpy(gas, gas.lowest) - enthalpy(gas, 150.0), 50.0 * heat_capacity(gas, 150.0), 1e-6);
  }
  const Nasa7& vapour = gasoline().vapour;
  EXPECT_NEAR(heat_capacity(vapour, 999.999) / heat_capacity(vapour, 1000.0), 1.0, 0.003);
  EXPECT_NEAR(enthalpy(vapour, 999.999999), enthalpy(vapour, 1000.0), 1.0);
}

TEST(mixture, temperature_is_found_from_enthalpy_and_energy) {
  const Mixture air = moist_air(0.01);
  EXPECT_NEAR(temperature_of_enthalpy(air, enthalpy(air, 777.0)).value(), 777.0, 1e-6);
  EXPECT_NEAR(temperature_of_energy(air, energy(air, 2777.0)).value(), 2777.0, 1e-6);
  EXPECT_FALSE(temperature_of_energy(air, 1e9));
}

}  // namespace
}  // namespace portwright::gas
