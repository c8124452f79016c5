// Volumes and openings without ducts, marched as a turn of a network, against the same equations solved apart: own
// nozzle, own crank, own caloric inverse by Newton, and the adaptive Dormand-Prince of Boost.Odeint.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include <boost/numeric/odeint.hpp>

#include "cycle/turn.hpp"

namespace portwright::cycle {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double bore = 0.047, stroke = 0.034, rod = 0.061, chamber = 8e-6, case_at_tdc = 2.6e-4;
constexpr double exhaust_roof = 0.0235, transfer_roof = 0.0275, intake_floor = 0.0465, skirt = 0.037;
constexpr double exhaust_width = 0.020, transfer_width = 0.030, intake_width = 0.018;
constexpr double outside = 101325.0, outside_temperature = 300.0, leak = 2e-6;

geometry::Window oblong(double roof, double floor, double width) {
  return geometry::Window::from_shape({.roof = roof, .floor = floor, .width = width}, bore);
}

/// Cylinder and case; exhaust to the day, transfer between them, intake from the day, and a hole that never shuts.
Network rooms_only() {
  Network net;
  net.bore = bore;
  net.stroke = stroke;
  net.piston_area = 0.25 * pi * bore * bore;
  net.swept = net.piston_area * stroke;
  net.chamber = chamber;
  net.slider = geometry::CrankSlider(stroke, rod);
  net.start = -100.0 * pi / 180.0;
  net.exhaust_opens = 2.0;
  net.gas = *gas::working_gas(13.0, 0.0);
  net.day = {outside, outside_temperature, 1.0, 0.0};
  net.burning.air_fuel = 13.0;
  net.fires = false;
  net.assumptions = middle_assumptions();
  net.assumptions.woschni_factor = 0.0;
  Room cylinder, below;
  cylinder.by = SizedBy::cylinder;
  cylinder.size = chamber;
  below.by = SizedBy::crankcase;
  below.size = case_at_tdc;
  net.rooms = {cylinder, below};
  const auto window = [&](OpenedBy by, const geometry::Window& w, double discharge) {
    Opening o;
    o.by = by;
    o.window = w;
    o.discharge = discharge;
    o.skirt = skirt;
    net.openings.push_back(o);
    return static_cast<int>(net.openings.size()) - 1;
  };
  net.gaps.push_back({0, outdoors, window(OpenedBy::crown, oblong(exhaust_roof, stroke, exhaust_width), 0.7)});
  net.gaps.push_back({1, 0, window(OpenedBy::crown, oblong(transfer_roof, stroke, transfer_width), 0.65)});
  net.gaps.push_back({outdoors, 1, window(OpenedBy::skirt, oblong(0.038, intake_floor, intake_width), 0.66)});
  Opening hole;
  hole.area = leak;
  net.openings.push_back(hole);
  net.gaps.push_back({0, 1, 3});
  return net;
}

// --- the same, apart ------------------------------------------------------------------------------------------------
struct Law {
  double R, a, b, c;
};

struct Gas {
  double p, T, fresh;
};

/// Mass, energy and fresh charge of the cylinder, then of the case.
using Contents = std::array<double, 6>;

class Apart {
 public:
  explicit Apart(const gas::WorkingGas& gas)
      : air_{gas.air.R, gas.air.a, gas.air.b, gas.c}, burned_{gas.burned.R, gas.burned.a, gas.burned.b, gas.c} {}

  [[nodiscard]] Law law(double fresh) const {
    const auto mix = [&](double x, double y) { return fresh * x + (1.0 - fresh) * y; };
    return {mix(air_.R, burned_.R), mix(air_.a, burned_.a), mix(air_.b, burned_.b), air_.c};
  }
  static double energy(const Law& k, double T) { return k.a * T + k.b * (std::sqrt(T * T + k.c * k.c) - k.c); }
  static double cv(const Law& k, double T) { return k.a + k.b * T / std::sqrt(T * T + k.c * k.c); }

  /// Crown below its TDC place and its slope, by trigonometry of the plain crank.
  static double drop(double angle) {
    const double r = 0.5 * stroke, s = r * std::sin(angle);
    return r + rod - r * std::cos(angle) - std::sqrt(rod * rod - s * s);
  }
  static double volume(int room, double angle) {
    const double moved = 0.25 * pi * bore * bore * drop(angle);
    return room == 0 ? chamber + moved : case_at_tdc - moved;
  }
  [[nodiscard]] Gas gas_of(const Contents& y, int room, double angle) const {
    const double m = y[3 * room], e = y[3 * room + 1] / m, fresh = y[3 * room + 2] / m;
    const Law k = law(fresh);
    double T = 500.0;
    for (int i = 0; i < 30; ++i) T -= (energy(k, T) - e) / cv(k, T);
    return {m * k.R * T / volume(room, angle), T, fresh};
  }
  /// The textbook's nozzle; square root down to level.
  static double nozzle(const Law& k, const Gas& up, double p, double area) {
    const double gamma = 1.0 + k.R / cv(k, up.T);
    const double choked = std::pow(2.0 / (gamma + 1.0), gamma / (gamma - 1.0)), r = std::max(p / up.p, choked);
    const double psi =
        std::sqrt(2.0 * gamma / (gamma - 1.0) * (std::pow(r, 2.0 / gamma) - std::pow(r, (gamma + 1.0) / gamma)));
    return area * up.p / std::sqrt(k.R * up.T) * psi;
  }
  /// Adds what flows from a to b, each a room or -1 for the day.
  void pass(const Contents& y, double angle, int a, int b, double area, Contents& dy) const {
    const Gas day{outside, outside_temperature, 1.0};
    const Gas one = a < 0 ? day : gas_of(y, a, angle), other = b < 0 ? day : gas_of(y, b, angle);
    const Gas& up = one.p >= other.p ? one : other;
    const Law k = law(up.fresh);
    const double m = nozzle(k, up, std::min(one.p, other.p), area) * (one.p >= other.p ? 1.0 : -1.0);
    const double h = energy(k, up.T) + k.R * up.T;
    const double flow[3] = {m, m * h, m * up.fresh};
    for (int i = 0; i < 3; ++i) {
      if (a >= 0) dy[3 * a + i] -= flow[i];
      if (b >= 0) dy[3 * b + i] += flow[i];
    }
  }
  /// Square windows: chord to arc, height uncovered.
  static double open(double width, double height, double full) {
    return bore * std::asin(width / bore) * std::clamp(height, 0.0, full);
  }
  void operator()(const Contents& y, Contents& dy, double angle, double rate) const {
    dy = {};
    const double d = drop(angle);
    pass(y, angle, 0, -1, 0.7 * open(exhaust_width, d - exhaust_roof, stroke - exhaust_roof), dy);
    pass(y, angle, 1, 0, 0.65 * open(transfer_width, d - transfer_roof, stroke - transfer_roof), dy);
    pass(y, angle, -1, 1, 0.66 * open(intake_width, intake_floor - d - skirt, intake_floor - 0.038), dy);
    pass(y, angle, 0, 1, leak, dy);
    for (double& x : dy) x /= rate;  // per radian
    const double h = 1e-5;
    for (int room = 0; room < 2; ++room)
      dy[3 * room + 1] -= gas_of(y, room, angle).p * (volume(room, angle + h) - volume(room, angle - h)) / (2.0 * h);
  }

 private:
  Law air_, burned_;
};

State begin(const March& march) {
  State state = march.cold();
  const Network& net = march.network();
  const double moved = net.piston_area * net.slider.drop(net.start);
  state.rooms[0] = flow::filled(net.gas, {1.4e5, 600.0, 0.5, 0.0}, chamber + moved);
  state.rooms[1] = flow::filled(net.gas, {1.0e5, 340.0, 0.9, 0.0}, case_at_tdc - moved);
  return state;
}

TEST(rooms_without_ducts, follow_an_independent_integration_within_a_thousandth_of_pressure) {
  namespace odeint = boost::numeric::odeint;
  const Network net = rooms_only();
  for (const double speed : {50.0, 150.0}) {
    SCOPED_TRACE(speed * 60.0);
    // A network with ducts takes steps of about this length whatever its speed, as its waves ask for them.
    Pace pace;
    pace.greatest_angle = 2.0 * pi * speed * 18.5e-6;
    March march(net, speed, pace);
    State state = begin(march);
    const Apart apart(net.gas);
    Contents y{};
    for (int room = 0; room < 2; ++room) {
      const flow::Volume& v = state.rooms[static_cast<std::size_t>(room)];
      y[3 * room] = v.mass;
      y[3 * room + 1] = v.energy;
      y[3 * room + 2] = v.fresh;
    }
    double angle = net.start, worst = 0.0;
    for (int turn = 0; turn < 3; ++turn) {
      std::vector<Instant> instants;
      Turn sums = march.empty_turn();
      march.turn(state, sums, {}, &instants);
      for (std::size_t i = 0; i < instants.size(); ++i) {
        const double to = (i + 1 < instants.size() ? instants[i].angle : net.start + 2.0 * pi) + 2.0 * pi * turn;
        odeint::integrate_adaptive(
            odeint::make_controlled<odeint::runge_kutta_dopri5<Contents>>(1e-12, 1e-8),
            [&](const Contents& at, Contents& slope, double phi) { apart(at, slope, phi, 2.0 * pi * speed); }, y, angle,
            to, (to - angle) / 4.0);
        angle = to;
        worst = std::max(worst, std::abs(instants[i].cylinder / apart.gas_of(y, 0, to).p - 1.0));
        worst = std::max(worst, std::abs(instants[i].crankcase / apart.gas_of(y, 1, to).p - 1.0));
      }
      EXPECT_LT(sums.case_low, 0.97 * outside) << "it breathes";
    }
    RecordProperty("worst at " + std::to_string(speed), std::to_string(worst));
    EXPECT_LT(worst, 1e-3);
  }
}

}  // namespace
}  // namespace portwright::cycle
