// Laws of the duct solver that hold for any gas, any room and any opening.

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "flow/limiter.hpp"
#include "flow/wave.hpp"
#include "reference/flow/rig.hpp"

namespace portwright::flow {
namespace {

constexpr double duct_area = 2e-4;

double between(double low, double high) { return low + (high - low) * *rc::gen::inRange(0, 1000001) * 1e-6; }

const gas::WorkingGas& gas_here() {
  static const gas::WorkingGas gas = reference::engine_gas();
  return gas;
}

Primitive any_gas(double fastest = 2.0) {
  const double fresh = between(0.0, 1.0), mach = between(-fastest, fastest);
  Primitive w = reference::gas_of(gas_here(), 1e5 * std::pow(10.0, between(-0.7, 0.7)), between(250.0, 2500.0), fresh,
                                  between(0.0, 0.1) * fresh);
  w.u = mach * thermo(gas_here(), w).sound;
  return w;
}

Reservoir any_room(double p) {
  const double fresh = between(0.0, 1.0);
  return {p, between(250.0, 2500.0), fresh, between(0.0, 0.1) * fresh};
}

double outflow(const Primitive& w, const Reservoir& room, double opening) {
  return boundary_open(gas_here(), w, room, duct_area, opening, w.p).flux.mass;
}

double unit(const Primitive& w) { return w.rho * thermo(gas_here(), w).sound; }

// Twice the stated accuracy of the mass flow.
constexpr double accuracy = 2e-10;

TEST(boundary_laws, a_higher_pressure_in_the_room_never_draws_more_out) {
  RC_ASSERT(rc::check([] {
    const Primitive w = any_gas();
    const double p = w.p * std::pow(10.0, between(-1.3, 1.3)), opening = duct_area * between(0.0, 1.0);
    const Reservoir low = any_room(p);
    Reservoir high = low;
    high.p = p * (1.0 + std::pow(10.0, between(-6.0, 0.5)));
    RC_ASSERT(outflow(w, high, opening) <= outflow(w, low, opening) + accuracy * unit(w));
  }));
}

TEST(boundary_laws, a_wider_opening_never_passes_less_and_never_turns_the_flow) {
  RC_ASSERT(rc::check([] {
    const Primitive w = any_gas();
    const Reservoir room = any_room(w.p * std::pow(10.0, between(-1.3, 1.3)));
    const double a = duct_area * between(0.0, 1.0), b = a + (duct_area - a) * between(0.0, 1.0);
    const double narrow = outflow(w, room, a), wide = outflow(w, room, b);
    RC_ASSERT(narrow * wide >= 0.0);
    RC_ASSERT(std::abs(wide) >= std::abs(narrow) - accuracy * unit(w));
  }));
}

TEST(boundary_laws, the_guess_does_not_matter) {
  RC_ASSERT(rc::check([] {
    const Primitive w = any_gas();
    const Reservoir room = any_room(w.p * std::pow(10.0, between(-1.3, 1.3)));
    const double opening = duct_area * between(0.0, 1.0), guess = std::pow(10.0, between(-3.0, 9.0));
    const EndFlow a = boundary_open(gas_here(), w, room, duct_area, opening, w.p),
                  b = boundary_open(gas_here(), w, room, duct_area, opening, guess);
    RC_ASSERT(std::abs(a.flux.mass - b.flux.mass) <= accuracy * unit(w));
  }));
}

// A jet into the duct, or out of it, has no more total pressure than it had upstream; constant ratio of heats, for
// which "total pressure" has a closed form.
TEST(boundary_laws, an_end_makes_no_total_pressure) {
  RC_ASSERT(rc::check([] {
    const gas::WorkingGas gas = reference::perfect_gas(287.0);
    const auto total = [](const Primitive& w) {
      return w.p * std::pow(1.0 + 0.2 * w.u * w.u * w.rho / (1.4 * w.p), 3.5);
    };
    Primitive w = reference::gas_of(gas, 1e5 * std::pow(10.0, between(-0.7, 0.7)), between(250.0, 2500.0));
    w.u = between(-0.9, 0.9) * thermo(gas, w).sound;
    const Reservoir room{w.p * std::pow(10.0, between(-0.7, 0.7)), between(250.0, 2500.0), 1.0, 0.0};
    const EndFlow end = boundary_open(gas, w, room, duct_area, duct_area * between(0.01, 1.0), w.p);
    RC_PRE(end.floors == 0);
    if (end.flux.mass < 0.0)
      RC_ASSERT(total(end.gas) <= room.p * (1.0 + 1e-8));
    else if (end.flux.mass > 0.0)
      RC_ASSERT(total(end.gas) >= room.p * (1.0 - 1e-8));
  }));
}

TEST(wave_laws, speed_behind_falls_as_pressure_rises_and_is_zero_at_the_rest_pressure) {
  RC_ASSERT(rc::check([] {
    const Primitive w = any_gas();
    const Thermo t = thermo(gas_here(), w);
    const double p = w.p * std::pow(10.0, between(-1.3, 1.3)), higher = p * (1.0 + between(1e-6, 2.0));
    RC_ASSERT(behind_wave(w, t, higher).u < behind_wave(w, t, p).u);
    RC_ASSERT(std::abs(behind_wave(w, t, rest_pressure(w, t)).u) <= 1e-10 * t.sound);
    RC_ASSERT(behind_wave(w, t, w.p).u == w.u);
  }));
}

bool same(const Flux& a, const Flux& b) {
  return a.mass == b.mass && a.momentum == b.momentum && a.energy == b.energy && a.fresh == b.fresh && a.fuel == b.fuel;
}

TEST(flux_laws, mirrored_sides_give_the_mirrored_flux_bit_by_bit) {
  RC_ASSERT(rc::check([] {
    const Primitive l = any_gas(2.0), r = any_gas(2.0), ml = reference::turned(r), mr = reference::turned(l);
    const Thermo tl = thermo(gas_here(), l), tr = thermo(gas_here(), r);
    const Flux f = flux_hllc(l, tl, r, tr);
    RC_ASSERT(same(reference::toward_far(f), flux_hllc(ml, tr, mr, tl)));
    RC_ASSERT(std::isfinite(f.mass) && std::isfinite(f.momentum) && std::isfinite(f.energy));
  }));
}

TEST(flux_laws, equal_sides_give_that_gass_own_flux) {
  RC_ASSERT(rc::check([] {
    const Primitive w = any_gas(3.0);
    const Thermo t = thermo(gas_here(), w);
    const Flux f = flux_hllc(w, t, w, t);
    const double mass = w.rho * w.u, scale = w.rho * t.sound;
    RC_ASSERT(std::abs(f.mass - mass) <= 1e-13 * scale);
    RC_ASSERT(std::abs(f.momentum - (mass * w.u + w.p)) <= 1e-12 * scale * t.sound);
    const double energy = mass * (t.e + 0.5 * w.u * w.u) + w.u * w.p;
    RC_ASSERT(std::abs(f.energy - energy) <= 1e-12 * scale * (t.e + t.sound * t.sound));
  }));
}

TEST(flux_laws, a_contact_at_rest_passes_nothing) {
  RC_ASSERT(rc::check([] {
    Primitive l = any_gas(0.0), r = any_gas(0.0);
    l.u = r.u = 0.0;
    r.p = l.p;
    const Flux f = flux_hllc(l, thermo(gas_here(), l), r, thermo(gas_here(), r));
    RC_ASSERT(f.mass == 0.0 && f.energy == 0.0 && f.fresh == 0.0 && f.fuel == 0.0);
    RC_ASSERT(std::abs(f.momentum - l.p) <= 1e-15 * l.p);
  }));
}

TEST(limiter_laws, is_odd_symmetric_exact_on_a_line_and_never_steeper_than_twice_either_side) {
  RC_ASSERT(rc::check([] {
    const double a = between(-10.0, 10.0), b = between(-10.0, 10.0), s = limit(a, b);
    RC_ASSERT(limit(b, a) == s);
    RC_ASSERT(limit(-a, -b) == -s);
    RC_ASSERT(limit(a, a) == a);
    RC_ASSERT(std::abs(s) <= 2.0 * std::min(std::abs(a), std::abs(b)));
    RC_ASSERT(a * b > 0.0 || s == 0.0);
    RC_ASSERT(limit_end(-a, -b) == -limit_end(a, b));
    RC_ASSERT(std::abs(limit_end(a, b)) <= std::abs(a));
  }));
}

/// Marches a short duct between two rooms from any contents at all; `look` at every gas after every step.
template <class Look>
void march_anything(double courant, Look&& look) {
  const Station stations[] = {{0.0, between(1e-4, 6e-4)}, {0.03, between(1e-4, 6e-4)}, {0.06, between(1e-4, 6e-4)}};
  Duct duct;
  duct.grid = make_grid(stations, 0.006);
  reference::Rig rig(gas_here(), duct);
  for (std::size_t i = 0; i < rig.cells(); ++i) rig.set_cell(i, any_gas(1.0));
  rig.contents.end = {rig.gases().front(), rig.gases().back()};
  const double opening = between(0.0, 6e-4);
  const Reservoir a = any_room(between(2e4, 5e5)), b = any_room(between(2e4, 5e5));
  for (int k = 0; k < 20; ++k) {
    const double fastest = decode(rig.gas, rig.duct, rig.contents, rig.scratch);
    rig.step(courant / fastest, [&](const Primitive& l, const Primitive& r) {
      return std::pair{boundary_open(rig.gas, l, a, rig.near_area(), opening, l.p),
                       boundary_open(rig.gas, r, b, rig.far_area(), opening, r.p)};
    });
    for (const Primitive& w : rig.gases()) look(w);
  }
}

TEST(duct_laws, steps_from_any_contents_leave_gas) {
  RC_ASSERT(rc::check([] {
    march_anything(0.9, [](const Primitive& w) {
      RC_ASSERT(w.rho > 0.0);
      RC_ASSERT(w.p > 0.0);
      RC_ASSERT(std::isfinite(w.u));
    });
  }));
}

// Where gases collide and turn within a step, a face's share may lie a little outside those of its two cells: about one
// march in ten thousand, by up to a thousandth. Sums are kept (tests/unit/flow).
TEST(duct_laws, short_steps_from_any_contents_keep_shares_between_none_and_all) {
  RC_ASSERT(rc::check([] {
    march_anything(0.4, [](const Primitive& w) {
      RC_ASSERT(w.fresh >= -5e-3);
      RC_ASSERT(w.fresh <= 1.0 + 5e-3);
      RC_ASSERT(w.fuel >= -5e-3);
      RC_ASSERT(w.fuel <= w.fresh + 5e-3);
    });
  }));
}

}  // namespace
}  // namespace portwright::flow
