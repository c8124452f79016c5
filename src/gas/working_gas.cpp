#include "gas/working_gas.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <vector>

namespace portwright::gas {
namespace {

constexpr double T0 = reference_temperature, coldest = 250.0, hottest = 3000.0, hottest_fuel = 1500.0, spacing = 25.0;

double exact_cv(const Mixture& mixture, double T) { return heat_capacity(mixture, T) - gas_constant(mixture); }

/// What the law is fitted to at one temperature: energy from 298 K [J/kg], heat capacity [J/kg K].
struct Point {
  double T, rise, heat;
};

struct Ingredient {
  Mixture exact;
  double hottest;
  std::vector<Point> points;
  Ingredient(const Mixture& mixture, double to) : exact(mixture), hottest(to) {
    const double u0 = energy(exact, T0);
    for (double T = coldest; T <= hottest; T += spacing)
      points.push_back({T, energy(exact, T) - u0, exact_cv(exact, T)});
  }
};

// Sums of a least-squares problem in (a, b).
struct Normal {
  double aa = 0.0, ab = 0.0, bb = 0.0, ay = 0.0, by = 0.0, yy = 0.0;
  void add(double fa, double fb, double y, double weight) {
    const double w = weight * weight;
    aa += w * fa * fa, ab += w * fa * fb, bb += w * fb * fb;
    ay += w * fa * y, by += w * fb * y, yy += w * y * y;
  }
};

struct Fit {
  Caloric law;
  double misfit = 0.0;
};

/// a and b at a given c. Relative errors of cv and of the energy from 298 K weigh alike, the latter softened by what 60
/// K hold.
Fit fit(const Ingredient& of, double c) {
  Normal sums;
  const double root0 = std::hypot(T0, c);
  for (const Point& at : of.points) {
    const double root = std::hypot(at.T, c);
    sums.add(at.T - T0, root - root0, at.rise, 1.0 / (std::abs(at.rise) + 60.0 * at.heat));
    sums.add(1.0, at.T / root, at.heat, 1.0 / at.heat);
  }
  const double determinant = sums.aa * sums.bb - sums.ab * sums.ab;
  const double a = (sums.ay * sums.bb - sums.by * sums.ab) / determinant;
  const double b = (sums.by * sums.aa - sums.ay * sums.ab) / determinant;
  return {{gas_constant(of.exact), a, b}, sums.yy - a * sums.ay - b * sums.by};
}

/// The c that fits all ingredients best [K], by thirds between 500 and 6000 K.
double best_c(const std::array<Ingredient, 3>& all) {
  const auto misfit = [&](double c) {
    double sum = 0.0;
    for (const Ingredient& one : all) sum += fit(one, c).misfit;
    return sum;
  };
  double low = 500.0, high = 6000.0;
  for (int step = 0; step < 40; ++step) {
    const double left = low + (high - low) / 3.0, right = high - (high - low) / 3.0;
    const bool falls = misfit(left) < misfit(right);
    (falls ? high : low) = falls ? right : left;
  }
  return 0.5 * (low + high);
}

/// Formation energy that the law leaves out [J/kg]: exact and fitted meet at 298 K.
double formation(const Mixture& exact, const Caloric& law, double c) { return energy(exact, T0) - energy(law, c, T0); }

FitErrors measure(const Ingredient& of, const Caloric& law, double c) {
  FitErrors worst;
  const double base = formation(of.exact, law, c);
  for (double T = coldest; T <= of.hottest; T += spacing / 5.0) {
    const double u = energy(of.exact, T), off = energy(law, c, T) + base - u;
    const double rise = std::abs(u - energy(of.exact, T0));
    if (std::abs(T - T0) >= 100.0) worst.energy = std::max(worst.energy, std::abs(off) / rise);
    const double heat = exact_cv(of.exact, T);
    worst.cv = std::max(worst.cv, std::abs(cv(law, c, T) / heat - 1.0));
    worst.temperature = std::max(worst.temperature, std::abs(temperature(law, c, u - base) / T - 1.0));
  }
  return worst;
}

FitErrors worse(const FitErrors& one, const FitErrors& other) {
  return {std::max(one.energy, other.energy), std::max(one.cv, other.cv), std::max(one.temperature, other.temperature)};
}

/// Heat that one kilogram of fuel sets free in the law's own energies [J/kg].
double heat(const WorkingGas& gas, double air_fuel, const Mixture& air, const Mixture& vapour, const Mixture& burned,
            const Caloric& burned_law) {
  return formation(vapour, gas.fuel, gas.c) + air_fuel * formation(air, gas.air, gas.c) -
         (1.0 + air_fuel) * formation(burned, burned_law, gas.c);
}

}  // namespace

base::Result<WorkingGas> working_gas(double air_fuel, double humidity_ratio, const Fuel& fuel) {
  if (!(humidity_ratio >= 0.0 && humidity_ratio <= 0.1))
    return base::fail(base::ErrorCode::out_of_range,
                      "air cannot hold " + std::to_string(humidity_ratio) + " of its weight as vapour", "day.humidity");
  const auto burned = burned_gas(air_fuel, humidity_ratio, fuel);
  if (!burned) return tl::unexpected(burned.error());
  const Mixture air = moist_air(humidity_ratio);
  Mixture vapour;
  vapour.fuel_moles = 1.0;
  vapour.fuel = fuel;
  WorkingGas gas;
  const std::array<Ingredient, 3> all = {Ingredient(air, hottest), Ingredient(vapour, hottest_fuel),
                                         Ingredient(*burned, hottest)};
  gas.c = best_c(all);
  gas.air = fit(all[0], gas.c).law;
  gas.fuel = fit(all[1], gas.c).law;
  gas.burned = fit(all[2], gas.c).law;
  gas.air_per_fuel = air_fuel;
  gas.humidity_ratio = humidity_ratio;
  gas.stoichiometric = stoichiometric_air(humidity_ratio, fuel);
  gas.latent = fuel.latent;
  gas.heat_per_fuel = heat(gas, air_fuel, air, vapour, *burned, gas.burned);
  const Mixture whole = burned_gas(gas.stoichiometric, humidity_ratio, fuel).value();
  gas.heat_complete = heat(gas, gas.stoichiometric, air, vapour, whole, fit(Ingredient(whole, hottest), gas.c).law);
  gas.error = worse(measure(all[0], gas.air, gas.c), measure(all[2], gas.burned, gas.c));
  gas.fuel_error = measure(all[1], gas.fuel, gas.c);
  return gas;
}

}  // namespace portwright::gas
