#include "flow/boundary_open.hpp"

#include <algorithm>

#include "flow/wave.hpp"

namespace portwright::flow {

namespace {

/// How near the two mass flows must come, of rho c A and of the jet [-]: all that is left of it after a turn is
/// rounding.
constexpr double near_enough = 1e-13;

/// Mass flow per area of gas that has come from pressure p0 and sound c0 at rest to `ratio` of that pressure without
/// losses [kg/m²s]. @source{naca1135, eq. 59 and 60}
double isentropic(double p0, double c0, double g, double ratio) {
  const double t = std::pow(ratio, (g - 1.0) / g);  // temperature over total temperature
  return g * p0 / c0 * (ratio / t) * std::sqrt(std::max(0.0, 2.0 / (g - 1.0) * (1.0 - t)));
}

double critical(double g) { return std::pow(2.0 / (g + 1.0), g / (g - 1.0)); }

/// Zero of a monotone function in a bracket: secant steps from a guess, halved when they leave the bracket or dawdle.
/// `rises` says which way it goes. Ends when |f| <= enough or the bracket is narrower than a part in 1e14.
template <class F>
double bracketed(F&& f, double low, double high, bool rises, double guess, double enough) {
  double x = guess > low && guess < high ? guess : 0.5 * (low + high);
  double fx = f(x);
  double other = 0.0, f_other = 0.0;
  bool has_other = false;
  for (int i = 0; i < 100 && std::abs(fx) > enough && high - low > 1e-14 * high; ++i) {
    ((fx > 0.0) == rises ? high : low) = x;
    double next = 0.5 * (low + high);
    // Every third step halves, so the bracket shrinks whatever the secant does.
    if (has_other && i % 3 != 2 && fx != f_other) {
      const double secant = x - fx * (x - other) / (fx - f_other);
      if (secant > low && secant < high) next = secant;
    } else if (!has_other) {
      next = (fx > 0.0) == rises ? std::max(low, x - 1e-3 * x) : std::min(high, x + 1e-3 * x);
      if (!(next > low && next < high)) next = 0.5 * (low + high);
    }
    other = x;
    f_other = fx;
    has_other = true;
    x = next;
    fx = f(x);
  }
  return x;
}

EndFlow leaving(const gas::WorkingGas& gas, const Primitive& at) {
  EndFlow out;
  const double mass = at.rho * at.u, e = thermo(gas, at).e;
  out.flux = {mass, mass * at.u + at.p, mass * (e + at.p / at.rho + 0.5 * at.u * at.u), mass * at.fresh,
              mass * at.fuel};
  out.gas = at;
  return out;
}

EndFlow outflow(const gas::WorkingGas& gas, const Primitive& inner, const Thermo& t, double p_out, double area,
                double opening, double stopped, double guess) {
  const double g = t.gamma, per = 1.0 / (g - 1.0), share = 0.5 * (g - 1.0) / g, chokes = 2.0 / (g + 1.0);
  const double enough = near_enough * inner.rho * t.sound * area;
  const double spent = std::pow(p_out / inner.p, 2.0 * share);
  // The nozzle from the total state behind the wave. `sound` is (p / p_inner)^share: it stands in the wave as in the
  // nozzle, whose temperature ratio is spent / sound² over the rise to the total temperature.
  const auto through = [&](const Primitive& at, double sound) {
    const double c2 = g * at.p / at.rho, rise = 1.0 + 0.5 * (g - 1.0) * at.u * at.u / c2;
    const double rest = spent / (sound * sound), ratio = std::max(rest / rise, chokes);
    const double thin = rest < chokes * rise ? std::pow(chokes * rise, per) : p_out / (at.p * rest);
    return opening * at.rho * std::sqrt(c2 * rise) * thin * std::sqrt(std::max(0.0, 2.0 * per * (1.0 - ratio)));
  };
  if (inner.u >= t.sound && inner.rho * inner.u * area <= through(inner, 1.0)) return leaving(gas, inner);
  const auto at = [&](double p, double sound) {
    const Behind b = behind_wave(inner, t, p, sound);
    return Primitive{b.rho, b.u, p, inner.fresh, inner.fuel};
  };
  const auto sound_at = [&](double p) { return std::pow(p / inner.p, share); };
  const auto excess = [&](double p) {
    const double sound = sound_at(p);
    const Primitive w = at(p, sound);
    return w.rho * w.u * area - through(w, sound);
  };
  const double sonic = sonic_sound(inner, t);
  const bool may_reach_sound = sonic >= 1.0 || sonic * sonic > spent;
  const double low = may_reach_sound ? std::max(p_out, sonic_pressure(inner, t)) : p_out;
  // An opening as wide as the duct lets the gas out at the room's pressure, or at its own sound.
  const bool full = opening >= area || (may_reach_sound && excess(low) <= enough);
  const double p = full ? low : bracketed(excess, low, stopped, false, guess, enough);
  return leaving(gas, at(p, sound_at(p)));
}

EndFlow inflow(const gas::WorkingGas& gas, const Primitive& inner, const Thermo& t, const Reservoir& from, double area,
               double opening, double stopped, double guess) {
  const gas::Caloric k = gas::blend(gas, from.fresh, from.fuel);
  const gas::Caloric with_work = gas::with_work(k);
  const double gamma = 1.0 + k.R / gas::cv(k, gas.c, from.T), c0 = std::sqrt(gamma * k.R * from.T);
  const double enthalpy = gas::energy(with_work, gas.c, from.T), least = gas::energy(with_work, gas.c, from.T / 3.0);
  const double choked = critical(gamma);
  int floors = 0;
  const auto at = [&](double p) {
    const double u = behind_wave(inner, t, p).u;
    double h = enthalpy - 0.5 * u * u;
    if (h < least) {
      h = least;
      ++floors;
    }
    return Primitive{p / (k.R * gas::temperature(with_work, gas.c, h)), u, p, from.fresh, from.fuel};
  };
  const double most = opening * isentropic(from.p, c0, gamma, choked);
  const auto excess = [&](double p) {
    const Primitive w = at(p);
    const double ratio = std::min(p / from.p, 1.0);
    return -w.rho * w.u * area - (ratio > choked ? opening * isentropic(from.p, c0, gamma, ratio) : most);
  };
  const double enough = near_enough * inner.rho * t.sound * area;
  const double p = bracketed(excess, stopped, from.p, true, guess, enough);
  floors = 0;
  Primitive w = at(p);
  // Below the pressure to which a choked jet spreads over the duct without losses, the jet outruns every wave.
  const auto spread = [&](double ratio) { return isentropic(from.p, c0, gamma, ratio) * area - most; };
  if (p < choked * from.p && spread(p / from.p) < 0.0) {
    // An opening as wide as the duct spreads nothing.
    const bool full = spread(choked) <= near_enough * most;
    const double ratio = full ? choked : bracketed(spread, p / from.p, choked, true, choked, near_enough * most);
    const double rho = ratio * from.p / (k.R * from.T * std::pow(ratio, (gamma - 1.0) / gamma));
    w = {rho, -most / (rho * area), ratio * from.p, from.fresh, from.fuel};
    floors = 0;
  }
  const double mass = w.rho * w.u;
  EndFlow out;
  out.flux = {mass, mass * w.u + w.p, mass * enthalpy, mass * w.fresh, mass * w.fuel};
  out.gas = w;
  out.floors = floors;
  return out;
}

}  // namespace

EndFlow boundary_open(const gas::WorkingGas& gas, const Primitive& inner, const Reservoir& reservoir, double duct_area,
                      double opening, double guess) {
  const Thermo t = thermo(gas, inner);
  const double stopped = rest_pressure(inner, t);
  if (!(opening > 0.0) || stopped == reservoir.p) {
    const Primitive wall{behind_wave(inner, t, stopped).rho, 0.0, stopped, inner.fresh, inner.fuel};
    EndFlow out;
    out.flux.momentum = stopped;
    out.gas = wall;
    return out;
  }
  const double area = std::min(opening, duct_area);
  if (stopped > reservoir.p) return outflow(gas, inner, t, reservoir.p, duct_area, area, stopped, guess);
  return inflow(gas, inner, t, reservoir, duct_area, area, stopped, guess);
}

}  // namespace portwright::flow
