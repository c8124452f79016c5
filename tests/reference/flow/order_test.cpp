// Observed order of accuracy where the flow is smooth. The method is of second order; at least 0.9 of it is asked for.

#include <numbers>

#include <gtest/gtest.h>

#include "gas/isentropic.hpp"
#include "reference/flow/rig.hpp"

namespace portwright::reference {
namespace {

constexpr double tau = 2.0 * std::numbers::pi;

flow::Duct uniform(int cells) {
  flow::Duct duct;
  duct.grid = uniform_grid(cells);
  return duct;
}

/// Mean distance of contents from those of another, kilograms and joules alike: both of order one here.
struct Distance {
  double mass = 0.0, momentum = 0.0, energy = 0.0, fresh = 0.0;
};
Distance distance(const flow::Contents& a, const flow::Contents& b) {
  Distance d;
  for (std::size_t i = 0; i < a.mass.size(); ++i) {
    d.mass += std::abs(a.mass[i] - b.mass[i]);
    d.momentum += std::abs(a.momentum[i] - b.momentum[i]);
    d.energy += std::abs(a.energy[i] - b.energy[i]);
    d.fresh += std::abs(a.fresh[i] - b.fresh[i]);
  }
  return d;
}

/// One row a grid.
struct Errors {
  std::vector<double> mass, momentum, energy, fresh;
  void add(const Distance& d) {
    mass.push_back(d.mass);
    momentum.push_back(d.momentum);
    energy.push_back(d.energy);
    fresh.push_back(d.fresh);
  }
};

// Exact: density and composition ride along with the gas, whose speed and pressure are even.
TEST(order_of_accuracy, a_carried_wave_of_density_and_composition) {
  const auto exact = [](double x, double t) {
    const double s = std::sin(tau * (x - t));
    return flow::Primitive{1.0 + 0.2 * s, 1.0, 1.0, 0.5 + 0.3 * std::cos(tau * (x - t)), 0.0};
  };
  Errors errors;
  for (const int n : {40, 80, 160, 320}) {
    Rig rig(perfect_gas(), uniform(n)), want = rig;
    rig.set([&](double x) { return exact(x, 0.0); });
    rig.march(1.0, 0.8, rig.ring());
    want.set([&](double x) { return exact(x, 1.0); });
    errors.add(distance(rig.contents, want.contents));
  }
  EXPECT_GE(order(errors.mass), 1.8);
  EXPECT_GE(order(errors.fresh), 1.8);
}

// Exact: a wave that runs one way keeps u - 2 c / (g - 1), and carries u along with u + c until it steepens to a shock,
// at 1 / (greatest slope of u + c).
TEST(order_of_accuracy, a_wave_of_sound_before_it_steepens) {
  constexpr double g = 1.4, swing = 0.1;
  const double c0 = std::sqrt(g), breaks = 1.0 / (0.5 * (g + 1.0) * swing * tau), until = 0.4 * breaks;
  const auto exact = [&](double x, double t) {
    double u = 0.0;
    for (int i = 0; i < 60; ++i) {
      const double from = x - (c0 + 0.5 * (g + 1.0) * u) * t;
      const double f = u - swing * std::sin(tau * from);
      u -= f / (1.0 + swing * tau * std::cos(tau * from) * 0.5 * (g + 1.0) * t);
    }
    const double ratio = 1.0 + 0.5 * (g - 1.0) * u / c0;
    return flow::Primitive{std::pow(ratio, 2.0 / (g - 1.0)), u, std::pow(ratio, 2.0 * g / (g - 1.0)), 1.0, 0.0};
  };
  Errors errors;
  for (const int n : {40, 80, 160, 320}) {
    Rig rig(perfect_gas(), uniform(n)), want = rig;
    rig.set([&](double x) { return exact(x, 0.0); });
    rig.march(until, 0.8, rig.ring());
    want.set([&](double x) { return exact(x, until); });
    errors.add(distance(rig.contents, want.contents));
  }
  EXPECT_GE(order(errors.mass), 1.8);
  EXPECT_GE(order(errors.momentum), 1.8);
  EXPECT_GE(order(errors.energy), 1.8);
}

/// A flow that was thought up, in a cone, and the sources that it takes; each function and its slopes by hand.
struct Manufactured {
  static constexpr double r0 = 1.0, rise = 0.5;  // area (r0 + rise x)²
  static double area(double x) { return (r0 + rise * x) * (r0 + rise * x); }
  struct Wave {
    double mean, swing, speed, shift, by;  // mean + swing sin(by (x - speed t) + shift)
    [[nodiscard]] double phase(double x, double t) const { return by * (x - speed * t) + shift; }
    [[nodiscard]] double value(double x, double t) const { return mean + swing * std::sin(phase(x, t)); }
    [[nodiscard]] double along(double x, double t) const { return swing * by * std::cos(phase(x, t)); }
    [[nodiscard]] double after(double x, double t) const { return -speed * along(x, t); }
  };
  Wave rho{1.0, 0.15, 0.3, 0.0, tau}, u{0.4, 0.1, 0.6, 1.0, tau}, p{1.0, 0.1, -0.4, 2.0, tau},
      z{0.5, 0.2, 0.5, 0.5, tau};
  [[nodiscard]] flow::Primitive at(double x, double t) const {
    return {rho.value(x, t), u.value(x, t), p.value(x, t), z.value(x, t), 0.0};
  }
  /// What the equations lack per volume: mass, momentum, energy, fresh.
  [[nodiscard]] std::array<double, 4> source(double x, double t) const {
    const double r = rho.value(x, t), v = u.value(x, t), q = p.value(x, t), y = z.value(x, t);
    const double rx = rho.along(x, t), vx = u.along(x, t), qx = p.along(x, t), yx = z.along(x, t);
    const double rt = rho.after(x, t), vt = u.after(x, t), qt = p.after(x, t), yt = z.after(x, t);
    const double spread = 2.0 * rise / (r0 + rise * x);  // A' / A
    const double E = 2.5 * q + 0.5 * r * v * v, Ex = 2.5 * qx + 0.5 * rx * v * v + r * v * vx,
                 Et = 2.5 * qt + 0.5 * rt * v * v + r * v * vt;
    const double mass = rt + rx * v + r * vx + r * v * spread;
    const double momentum = rt * v + r * vt + rx * v * v + 2.0 * r * v * vx + qx + r * v * v * spread;
    const double energy = Et + vx * (E + q) + v * (Ex + qx) + v * (E + q) * spread;
    const double fresh = mass * y + r * yt + r * v * yx;
    return {mass, momentum, energy, fresh};
  }
  void add(Rig& rig, double t, double dt) const {
    constexpr double node[] = {-0.7745966692414834, 0.0, 0.7745966692414834};
    constexpr double weight[] = {5.0 / 9.0, 8.0 / 9.0, 5.0 / 9.0};
    double from = 0.0;
    for (std::size_t i = 0; i < rig.cells(); ++i) {
      const double dx = rig.duct.grid.length[i];
      for (int k = 0; k < 3; ++k) {
        const double x = from + 0.5 * dx * (1.0 + node[k]), w = 0.5 * dx * weight[k] * area(x) * dt;
        const auto s = source(x, t);
        rig.contents.mass[i] += w * s[0];
        rig.contents.momentum[i] += w * s[1];
        rig.contents.energy[i] += w * s[2];
        rig.contents.fresh[i] += w * s[3];
      }
      from += dx;
    }
  }
};

TEST(order_of_accuracy, a_manufactured_flow_through_a_cone) {
  const Manufactured flow;
  constexpr double until = 0.5;
  Errors errors;
  for (const int n : {20, 40, 80, 160, 320}) {
    const flow::Station cone[] = {{0.0, Manufactured::area(0.0)}, {1.0, Manufactured::area(1.0)}};
    flow::Duct duct;
    duct.grid = flow::make_grid(cone, 1.0 / n);
    Rig rig(perfect_gas(), duct), want = rig;
    rig.set([&](double x) { return flow.at(x, 0.0); }, Manufactured::area);
    const int steps = 5 * n / 4;  // u + c reaches 1.9
    const double dt = until / steps;
    for (int k = 0; k < steps; ++k) {
      flow.add(rig, rig.time + 0.25 * dt, 0.5 * dt);
      const double half = rig.time + 0.5 * dt;
      rig.step(dt, [&](const flow::Primitive& a, const flow::Primitive& b) {
        flow::EndFlow near = rig.against(a, turned(flow.at(0.0, half))), far = rig.against(b, flow.at(1.0, half));
        return std::pair{near, far};
      });
      flow.add(rig, rig.time - 0.25 * dt, 0.5 * dt);
    }
    want.set([&](double x) { return flow.at(x, until); }, Manufactured::area);
    errors.add(distance(rig.contents, want.contents));
  }
  EXPECT_GE(order(errors.mass), 1.8);
  EXPECT_GE(order(errors.momentum), 1.8);
  EXPECT_GE(order(errors.energy), 1.8);
  EXPECT_GE(order(errors.fresh), 1.8);
}

/// A venturi between two spaces: smooth bore, narrowest in the middle.
struct Venturi {
  static constexpr double narrow = 0.25;
  static double area(double x) {
    const double bore = 1.0 - narrow * std::pow(std::sin(std::numbers::pi * x), 2.0);
    return bore * bore;
  }
};

/// Subsonic Mach number where the area is so many times that of sound.
double mach_of_area(double ratio, double g) {
  double low = 1e-3, high = 1.0;
  for (int k = 0; k < 60; ++k) {
    const double mid = 0.5 * (low + high);
    (gas::isentropic(mid, g).area > ratio ? low : high) = mid;
  }
  return low;
}

// Exact: one total state, so Mach number from area (NACA Report 1135), pressure from Mach number.
TEST(order_of_accuracy, a_steady_stream_through_a_venturi) {
  constexpr double g = 1.4, p0 = 1.0, T0 = 1.0, back = 0.93;
  const double exit = gas::mach_of_pressure(back / p0, g), throat = Venturi::area(1.0) / gas::isentropic(exit, g).area;
  std::vector<double> errors, heads, flows;
  for (const int n : {16, 32, 64}) {
    std::vector<flow::Station> stations;
    for (int i = 0; i <= n; ++i) stations.push_back({1.0 * i / n, Venturi::area(1.0 * i / n)});
    flow::Duct duct;
    duct.grid = flow::make_grid(stations, 1.0 / n);
    Rig rig(perfect_gas(), duct, flow::Primitive{1.0, 0.2, 1.0, 1.0, 0.0});
    const flow::Reservoir from{p0, T0, 1.0, 0.0}, to{back, T0, 1.0, 0.0};
    const auto ends = [&](const flow::Primitive& a, const flow::Primitive& b) {
      return std::pair{flow::boundary_open(rig.gas, a, from, rig.near_area(), rig.near_area(), a.p),
                       flow::boundary_open(rig.gas, b, to, rig.far_area(), rig.far_area(), b.p)};
    };
    rig.march(120.0, 0.8, ends);
    // The limiter leaves a ripple that does not die; what is steady is the mean over many passes of sound.
    const double dt = 0.8 / flow::decode(rig.gas, rig.duct, rig.contents, rig.scratch);
    const int steps = static_cast<int>(40.0 / dt);
    std::vector<double> mass(rig.cells() + 1), energy(rig.cells() + 1), p(rig.cells()), head(rig.cells());
    double ripple = 0.0;
    for (int k = 0; k < steps; ++k) {
      rig.step(dt, ends);
      for (std::size_t i = 0; i <= rig.cells(); ++i) {
        mass[i] += rig.scratch.flux[i].mass * duct.grid.area[i] / steps;
        energy[i] += rig.scratch.flux[i].energy * duct.grid.area[i] / steps;
        ripple = std::max(ripple, std::abs(rig.scratch.flux[i].mass * duct.grid.area[i] /
                                               (rig.scratch.flux[0].mass * duct.grid.area[0]) -
                                           1.0));
      }
      for (std::size_t i = 0; i < rig.cells(); ++i) {
        const flow::Primitive& w = rig.scratch.cell[i];
        p[i] += w.p / steps;
        head[i] += (3.5 * w.p / w.rho + 0.5 * w.u * w.u) / steps;
      }
    }
    double miss = 0.0, off = 0.0;
    for (std::size_t i = 0; i < rig.cells(); ++i) {
      const double wide = duct.grid.volume[i] / duct.grid.length[i];
      miss += std::abs(p[i] - p0 * gas::isentropic(mach_of_area(wide / throat, g), g).pressure) / n;
      off += std::abs(head[i] / (3.5 * T0) - 1.0) / n;
      // A step's ripple of the mass flow carries its own heat; the means agree to far less.
      EXPECT_NEAR(energy[i] / mass[i], 3.5 * T0, 2e-6 * 3.5 * T0);
      EXPECT_NEAR(mass[i], mass[0], 2e-6 * mass[0]);
    }
    EXPECT_LT(ripple, 2e-3);
    const gas::Isentropic out = gas::isentropic(exit, g);
    flows.push_back(std::abs(mass[0] / (out.density * exit * std::sqrt(g * out.temperature)) - 1.0));
    errors.push_back(miss);
    heads.push_back(off);
  }
  EXPECT_GE(order(errors), 1.8);
  EXPECT_GE(order(heads), 1.8);
  EXPECT_GE(order(flows), 1.8);
  EXPECT_LT(errors.front(), 3e-3);
  EXPECT_LT(flows.front(), 0.01);
}

}  // namespace
}  // namespace portwright::reference
