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

/// What two mass flows differ by at a pressure [kg/s], and how that changes with the pressure.
struct Differ {
  double f, slope;
};

/// Pressure at which two mass flows are one: Newton's rule for y with p = room + sign y², in which a nozzle's root is
/// linear, between y = low, where they differ by something positive, and high; halved where the rule leaves the bracket
/// or does not halve the difference. Ends with a step whose square is lost in rounding.
template <class F>
double pressure_between(F&& differ, double room, double sign, double low, double high, double guess) {
  const double rim = 1e-3 * (high - low), small = 1e-8 * std::sqrt(room);
  double y = std::min(std::max(guess, low + rim), high - rim), least = 1e300;
  for (int i = 0; i < 100; ++i) {
    const Differ at = differ(room + sign * y * y);
    (at.f > 0.0 ? low : high) = y;
    double next = y - at.f / (sign * 2.0 * y * at.slope);
    const bool newton = next >= low && next <= high && std::abs(at.f) <= least;
    if (!newton) next = 0.5 * (low + high);
    least = 0.5 * std::abs(at.f);
    const bool there = (newton && std::abs(next - y) <= small) || high - low <= 1e-8 * small;
    y = next;
    if (there) break;
  }
  return room + sign * y * y;
}

/// The wave with its slopes: du/dp and drho/dp behind it.
struct WaveSlopes {
  double u, rho;
};
WaveSlopes slopes_behind(const Primitive& inner, const Thermo& t, const Primitive& at, double sound) {
  const double g = t.gamma;
  if (at.p <= inner.p) {
    const double c = t.sound * sound;
    return {-1.0 / (at.rho * c), 1.0 / (c * c)};
  }
  const double m = (g - 1.0) / (g + 1.0), per = 1.0 / (at.p + m * inner.p), over = at.p - inner.p;
  const double spread = inner.p / (m * at.p + inner.p);
  return {-std::sqrt(2.0 / ((g + 1.0) * inner.rho) * per) * (1.0 - 0.5 * over * per),
          inner.rho / inner.p * (1.0 - m * m) * spread * spread};
}

/// d ln(flow) / d ln(pressure ratio) of a nozzle that does not choke, by its temperature ratio.
double nozzle_slope(double g, double t) { return 1.0 / g - 0.5 * (g - 1.0) / g * t / std::max(1.0 - t, 1e-18); }

EndFlow outflow(const gas::WorkingGas& gas, const Primitive& inner, const Thermo& t, double p_out, double area,
                double opening, double stopped, double guess) {
  const double g = t.gamma, per = 1.0 / (g - 1.0), share = 0.5 * (g - 1.0) / g, chokes = 2.0 / (g + 1.0);
  const double spent = std::pow(p_out / inner.p, 2.0 * share);
  const auto sound_at = [&](double p) { return std::pow(p / inner.p, share); };
  const auto at = [&](double p, double sound) {
    const Behind b = behind_wave(inner, t, p, sound);
    return Primitive{b.rho, b.u, p, inner.fresh, inner.fuel};
  };
  // Duct less nozzle, from the total state behind the wave. `sound` is (p / p_inner)^share: it stands in the wave as in
  // the nozzle, whose temperature ratio is spent / sound² over the rise to the total temperature.
  const auto differ = [&](const Primitive& w, double sound) {
    const WaveSlopes d = slopes_behind(inner, t, w, sound);
    const double c2 = g * w.p / w.rho, stream = 0.5 * (g - 1.0) * w.u / c2, rise = 1.0 + stream * w.u;
    const double rest = spent / (sound * sound);
    const bool choked = rest < chokes * rise;
    const double ratio = choked ? chokes : rest / rise;
    const double thin = choked ? std::pow(chokes * rise, per) : p_out / (w.p * rest);
    const double flow =
        opening * w.rho * std::sqrt(c2 * rise) * thin * std::sqrt(std::max(0.0, 2.0 * per * (1.0 - ratio)));
    const double d_sound = 1.0 / w.p - d.rho / w.rho;  // of ln c², ln rise, ln p0
    const double d_rise = stream * (2.0 * d.u - w.u * d_sound) / rise, d_total = 1.0 / w.p + g * per * d_rise;
    const double d_flow = d_total * (choked ? 1.0 : 1.0 - nozzle_slope(g, ratio)) - 0.5 * (d_sound + d_rise);
    return Differ{w.rho * w.u * area - flow, area * (d.rho * w.u + w.rho * d.u) - flow * d_flow};
  };
  if (inner.u >= t.sound && differ(inner, 1.0).f <= 0.0) return leaving(gas, inner);
  const auto differ_at = [&](double p) {
    const double sound = sound_at(p);
    return differ(at(p, sound), sound);
  };
  const double sonic = sonic_sound(inner, t);
  const bool may_reach_sound = sonic >= 1.0 || sonic * sonic > spent;
  const double low = may_reach_sound ? std::max(p_out, sonic_pressure(inner, t)) : p_out;
  // An opening as wide as the duct lets the gas out at the room's pressure, or at its own sound.
  const double enough = near_enough * inner.rho * t.sound * area;
  double p = low;
  if (opening < area && !(may_reach_sound && differ_at(low).f <= enough))
    p = pressure_between(differ_at, p_out, 1.0, std::sqrt(low - p_out), std::sqrt(stopped - p_out),
                         std::sqrt(std::max(0.0, guess - p_out)));
  return leaving(gas, at(p, sound_at(p)));
}

EndFlow inflow(const gas::WorkingGas& gas, const Primitive& inner, const Thermo& t, const Reservoir& from, double area,
               double opening, double stopped, double guess) {
  const gas::Caloric k = gas::blend(gas, from.fresh, from.fuel);
  const gas::Caloric with_work = gas::with_work(k);
  const double gamma = 1.0 + k.R / gas::cv(k, gas.c, from.T), c0 = std::sqrt(gamma * k.R * from.T);
  const double enthalpy = gas::energy(with_work, gas.c, from.T), least = gas::energy(with_work, gas.c, from.T / 3.0);
  const double choked = critical(gamma), share = (gamma - 1.0) / gamma;
  const auto sound_at = [&](double p) {
    return p > inner.p ? 1.0 : std::pow(p / inner.p, 0.5 * (t.gamma - 1.0) / t.gamma);
  };
  const auto left = [&](double u) { return enthalpy - 0.5 * u * u; };
  const auto at = [&](double p, double sound) {
    const double u = behind_wave(inner, t, p, sound).u;
    const double T = gas::temperature(with_work, gas.c, std::max(left(u), least));
    return Primitive{p / (k.R * T), u, p, from.fresh, from.fuel};
  };
  const double most = opening * isentropic(from.p, c0, gamma, choked);
  const auto differ_at = [&](double p) {
    const double sound = sound_at(p);
    const Primitive w = at(p, sound);
    const double du = slopes_behind(inner, t, {behind_wave(inner, t, p, sound).rho, w.u, p}, sound).u;
    const double T = p / (w.rho * k.R), cools = left(w.u) > least ? w.u * du / (gas::cv(with_work, gas.c, T) * T) : 0.0;
    double flow = most, d_flow = 0.0;
    if (p > choked * from.p) {
      const double ratio = std::min(p / from.p, 1.0), temperature = std::pow(ratio, share);
      flow = opening * gamma * from.p / c0 * (ratio / temperature) *
             std::sqrt(std::max(0.0, 2.0 / (gamma - 1.0) * (1.0 - temperature)));
      d_flow = flow * nozzle_slope(gamma, temperature) / p;
    }
    const double d_rho = w.rho * (1.0 / p + cools);
    return Differ{-w.rho * w.u * area - flow, -area * (d_rho * w.u + w.rho * du) - d_flow};
  };
  const double p = pressure_between(differ_at, from.p, -1.0, 0.0, std::sqrt(from.p - stopped),
                                    std::sqrt(std::max(0.0, from.p - guess)));
  Primitive w = at(p, sound_at(p));
  int floors = left(w.u) < least ? 1 : 0;
  // Below the pressure to which a choked jet spreads over the duct without losses, the jet outruns every wave.
  const auto spread = [&](double ratio) { return isentropic(from.p, c0, gamma, ratio) * area - most; };
  if (p < choked * from.p && spread(p / from.p) < 0.0) {
    // An opening as wide as the duct spreads nothing.
    const bool full = spread(choked) <= near_enough * most;
    const double ratio = full ? choked : bracketed(spread, p / from.p, choked, true, choked, near_enough * most);
    const double rho = ratio * from.p / (k.R * from.T * std::pow(ratio, share));
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
