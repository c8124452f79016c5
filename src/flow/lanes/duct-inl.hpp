// flow/duct.cpp, flow/limiter.hpp and flow/flux_hllc.hpp in lanes: the same equations, one pass over the cells for
// slopes, half step and flux, and divisions of one place put together (1/a and 1/b from 1/ab).
#if defined(PORTWRIGHT_FLOW_LANES_DUCT) == defined(HWY_TARGET_TOGGLE)
#ifdef PORTWRIGHT_FLOW_LANES_DUCT
#undef PORTWRIGHT_FLOW_LANES_DUCT
#else
#define PORTWRIGHT_FLOW_LANES_DUCT
#endif

#include <array>

#include "flow/lanes/duct_lanes.hpp"
#include "flow/lanes/vectors-inl.hpp"

HWY_BEFORE_NAMESPACE();
namespace portwright::flow::HWY_NAMESPACE {

// ---- gas

template <class V>
struct CaloricV {
  V R, a, b;
};

/// The working gas of some lanes, in registers.
template <class D>
struct GasV {
  using V = Vector<D>;
  V R, R_fresh, R_fuel, a, a_fresh, a_fuel, b, b_fresh, b_fuel, c, cc;
  HWY_INLINE GasV(D d, const WorkingGasLanes<Number<D>>& gas)
      : R(take(d, gas.law[0], gas_R)),
        R_fresh(take(d, gas.law[0], gas_R_fresh)),
        R_fuel(take(d, gas.law[0], gas_R_fuel)),
        a(take(d, gas.law[0], gas_a)),
        a_fresh(take(d, gas.law[0], gas_a_fresh)),
        a_fuel(take(d, gas.law[0], gas_a_fuel)),
        b(take(d, gas.law[0], gas_b)),
        b_fresh(take(d, gas.law[0], gas_b_fresh)),
        b_fuel(take(d, gas.law[0], gas_b_fuel)),
        c(take(d, gas.law[0], gas_c)),
        cc(c * c) {}
  HWY_INLINE CaloricV<V> blend(V fresh, V fuel) const {
    return {hn::MulAdd(fresh, R_fresh, hn::MulAdd(fuel, R_fuel, R)),
            hn::MulAdd(fresh, a_fresh, hn::MulAdd(fuel, a_fuel, a)),
            hn::MulAdd(fresh, b_fresh, hn::MulAdd(fuel, b_fuel, b))};
  }
  /// gas::temperature.
  HWY_INLINE V temperature(D d, const CaloricV<V>& k, V e) const {
    const V bc = k.b * c, s = e + bc;
    const V under = hn::MulAdd(s, s, hn::MulSub(k.a, k.a, k.b * k.b) * cc);
    return e * (s + bc) * inverse(d, hn::MulAdd(k.a, s, k.b * root(d, under)));
  }
};

template <class V>
struct PrimitiveV {
  V rho, u, p, fresh, fuel;
};
template <class V>
struct StreamV {
  V rho, flow, total, fresh, fuel;
};
/// A gas at a face with what the flux asks of it.
template <class V>
struct FaceV {
  PrimitiveV<V> w;
  V per_rho, gamma, sound, energy;  ///< energy: sensible and kinetic, per kilogram [J/kg]
};

/// The first columns of a row of states, sides or ends.
template <class D>
HWY_INLINE PrimitiveV<Vector<D>> take_primitive(D d, const Number<D>* row) {
  return {take(d, row, at_rho), take(d, row, at_u), take(d, row, at_p), take(d, row, at_fresh), take(d, row, at_fuel)};
}
template <class D>
HWY_INLINE void put_primitive(D d, const PrimitiveV<Vector<D>>& w, Number<D>* row) {
  put(d, w.rho, row, at_rho);
  put(d, w.u, row, at_u);
  put(d, w.p, row, at_p);
  put(d, w.fresh, row, at_fresh);
  put(d, w.fuel, row, at_fuel);
}

// ---- slopes

/// `stream` of flow/duct.cpp; `half_kinetic` is half the kinetic factor.
template <class V>
HWY_INLINE StreamV<V> stream(const PrimitiveV<V>& w, V area, V half_kinetic) {
  const V flow = w.rho * w.u;
  return {w.rho, flow * area, hn::MulAdd(half_kinetic * flow, w.u, w.p), w.fresh, w.fuel};
}

template <class V>
HWY_INLINE StreamV<V> between(const StreamV<V>& a, const StreamV<V>& b, V per) {
  return {(b.rho - a.rho) * per, (b.flow - a.flow) * per, (b.total - a.total) * per, (b.fresh - a.fresh) * per,
          (b.fuel - a.fuel) * per};
}

template <class V>
HWY_INLINE StreamV<V> moved(const StreamV<V>& s, const StreamV<V>& slope, V by) {
  return {hn::MulAdd(slope.rho, by, s.rho), hn::MulAdd(slope.flow, by, s.flow), hn::MulAdd(slope.total, by, s.total),
          hn::MulAdd(slope.fresh, by, s.fresh), hn::MulAdd(slope.fuel, by, s.fuel)};
}

template <class D>
HWY_INLINE Vector<D> limit(D d, Vector<D> a, Vector<D> b) {
  const auto mean = all(d, 0.5) * (a + b), cap = all(d, 2.0) * hn::Min(hn::Abs(a), hn::Abs(b));
  return hn::IfThenElseZero(a * b > hn::Zero(d), hn::CopySign(hn::Min(hn::Abs(mean), cap), mean));
}
template <class D>
HWY_INLINE Vector<D> limit_end(D d, Vector<D> in, Vector<D> end) {
  return hn::IfThenElseZero(in * end > hn::Zero(d), hn::CopySign(hn::Min(hn::Abs(in), hn::Abs(end)), in));
}
template <class D, class V = Vector<D>>
HWY_INLINE StreamV<V> limited(D d, const StreamV<V>& a, const StreamV<V>& b) {
  return {limit(d, a.rho, b.rho), limit(d, a.flow, b.flow), limit(d, a.total, b.total), limit(d, a.fresh, b.fresh),
          limit(d, a.fuel, b.fuel)};
}
template <class D, class V = Vector<D>>
HWY_INLINE StreamV<V> limited_end(D d, const StreamV<V>& in, const StreamV<V>& end) {
  return {limit_end(d, in.rho, end.rho), limit_end(d, in.flow, end.flow), limit_end(d, in.total, end.total),
          limit_end(d, in.fresh, end.fresh), limit_end(d, in.fuel, end.fuel)};
}

// ---- flux

/// Speed of a side's outer wave over the gas it runs into: hllc::outrun times sound, with c² = gamma p / rho drawn into
/// the root.
template <class D>
HWY_INLINE Vector<D> outer_wave(D d, Vector<D> p_star, const FaceV<Vector<D>>& side) {
  const auto over = hn::Max(hn::Zero(d), p_star - side.w.p);
  const auto steep = hn::MulAdd(side.gamma, all(d, 0.5), all(d, 0.5)) * side.per_rho;
  return root(d, hn::MulAdd(steep, over, side.sound * side.sound));
}

/// hllc::two_shocks, twice, where gases collide; seldom asked.
template <class D>
HWY_NOINLINE Vector<D> collided(D d, const FaceV<Vector<D>>& l, const FaceV<Vector<D>>& r, Vector<D> guess) {
  const auto one = all(d, 1.0);
  const auto per_pressure = [&](const FaceV<Vector<D>>& f) {
    return hn::Sqrt(all(d, 2.0) / (f.w.rho * hn::MulAdd(f.gamma + one, guess, (f.gamma - one) * f.w.p)));
  };
  for (int twice = 0; twice < 2; ++twice) {
    const auto a = per_pressure(l), b = per_pressure(r);
    guess = hn::Max(guess, (hn::MulAdd(a, l.w.p, b * r.w.p) - (r.w.u - l.w.u)) / (a + b));
  }
  return guess;
}

/// flux_hllc, into a row of fluxes.
template <class D>
HWY_INLINE void flux_hllc(D d, const FaceV<Vector<D>>& l, const FaceV<Vector<D>>& r, Number<D>* flux) {
  using V = Vector<D>;
  const V zero = hn::Zero(d), half = all(d, 0.5), two = all(d, 2.0);
  const PrimitiveV<V>&wl = l.w, &wr = r.w;
  const V faster = wr.u - wl.u;
  const V impedance = all(d, 0.25) * (wl.rho + wr.rho) * (l.sound + r.sound);
  V guess = hn::Max(zero, half * hn::NegMulAdd(faster, impedance, wl.p + wr.p));
  const auto collide = guess > two * hn::Max(wl.p, wr.p);
  if (HWY_UNLIKELY(!hn::AllFalse(d, collide))) guess = choose(collide, collided(d, l, r, guess), guess);

  const V left = hn::Neg(outer_wave(d, guess, l)), right = outer_wave(d, guess, r);
  const V s_left = wl.u + left, s_right = wr.u + right;

  const V mass_l = wl.rho * left, mass_r = wr.rho * right;
  const V contact = ((wr.p - wl.p) + hn::MulSub(wl.u, mass_l, wr.u * mass_r)) * inverse(d, mass_l - mass_r);
  const V p_star = half * (hn::MulAdd(mass_l, contact - wl.u, wl.p) + hn::MulAdd(mass_r, contact - wr.u, wr.p));
  const auto from_left = contact >= zero;
  const auto only_left = s_left >= zero, only_right = s_right <= zero;
  const V u = choose(from_left, wl.u, wr.u), p = choose(from_left, wl.p, wr.p);
  const V side_mass = choose(from_left, mass_l, mass_r), run = choose(from_left, s_left, s_right) - contact;
  // rho* = m / run; E* = rho* (E / rho + (s - u)(s + p / m))
  const V per = inverse(d, run * side_mass);
  const V rho = side_mass * side_mass * per;
  const V energy =
      rho * hn::MulAdd(contact - u, hn::MulAdd(p, run * per, contact), choose(from_left, l.energy, r.energy));
  const V mass = rho * contact;
  const V only_u = choose(only_left, wl.u, wr.u), only_p = choose(only_left, wl.p, wr.p);
  const V only_rho = choose(only_left, wl.rho, wr.rho), only_mass = only_rho * only_u;
  const V only_energy = only_rho * choose(only_left, l.energy, r.energy);
  const auto only = hn::Or(only_left, only_right);
  const auto carried_left = hn::Or(only_left, hn::AndNot(only_right, from_left));
  const V out_mass = choose(only, only_mass, mass);
  put(d, out_mass, flux, flux_mass);
  put(d, choose(only, hn::MulAdd(only_mass, only_u, only_p), hn::MulAdd(mass, contact, p_star)), flux, flux_momentum);
  put(d, choose(only, only_u * (only_energy + only_p), contact * (energy + p_star)), flux, flux_energy);
  put(d, out_mass * choose(carried_left, wl.fresh, wr.fresh), flux, flux_fresh);
  put(d, out_mass * choose(carried_left, wl.fuel, wr.fuel), flux, flux_fuel);
}

// ---- the parts of a step

template <class D>
HWY_INLINE void decode_lanes(D d, const WorkingGasLanes<Number<D>>& gases, const DuctLanes<Number<D>>& duct,
                             const ContentsLanes<Number<D>>& contents, ScratchLanes<Number<D>>& scratch,
                             Table<Number<D>>& rate) {
  using V = Vector<D>;
  const GasV<D> gas(d, gases);
  const V one = all(d, 1.0);
  V fastest = take(d, rate[0], 0);
  for (int i = 0, n = duct.cells; i < n; ++i) {
    const Number<D>*c = contents.cell[i], *grid = duct.cell[i];
    Number<D>* state = scratch.state[i];
    const V mass = take(d, c, content_mass), per = inverse(d, mass);
    const V rho = mass * take(d, grid, cell_per_volume), u = take(d, c, content_momentum) * per;
    const V fresh = take(d, c, content_fresh) * per, fuel = take(d, c, content_fuel) * per;
    const V e = hn::NegMulAdd(take(d, grid, cell_half_kinetic) * u, u, take(d, c, content_energy) * per);
    const CaloricV<V> k = gas.blend(fresh, fuel);
    const V T = gas.temperature(d, k, e), RT = k.R * T;
    const V cv = hn::MulAdd(k.b * T, inverse_root(d, hn::MulAdd(T, T, gas.cc)), k.a);
    const V gamma = hn::MulAdd(k.R, inverse(d, cv), one), sound = root(d, gamma * RT);
    put_primitive(d, PrimitiveV<V>{rho, u, rho * RT, fresh, fuel}, state);
    put(d, take(d, grid, cell_volume) * per, state, state_per_rho);
    put(d, T, state, state_T);
    put(d, gamma, state, state_gamma);
    put(d, sound, state, state_sound);
    put(d, cv, state, state_cv);
    put(d, k.R, state, state_R);
    fastest = hn::Max(fastest, (hn::Abs(u) + sound) * take(d, grid, cell_per_length));
  }
  put(d, fastest, rate[0], 0);
}

/// Slopes and the half step: gas at both faces of every cell.
template <class D>
HWY_INLINE void half_step(D d, const DuctLanes<Number<D>>& duct, const ContentsLanes<Number<D>>& contents,
                          const Table<Number<D>>& dt, ScratchLanes<Number<D>>& scratch,
                          AccountLanes<Number<D>>& account) {
  using V = Vector<D>;
  const V zero = hn::Zero(d), one = all(d, 1.0), half = all(d, 0.5), tenth = all(d, 0.1);
  const V half_dt = half * take(d, dt[0], 0);
  const int n = duct.cells;
  const auto of_cell = [&](const PrimitiveV<V>& w, int i) {
    return stream(w, take(d, duct.cell[i], cell_mean_area), take(d, duct.cell[i], cell_half_kinetic));
  };
  const auto of_end = [&](int end, int face) {
    return stream(take_primitive(d, contents.end[end]), take(d, duct.face[face], face_area), half);
  };
  PrimitiveV<V> w = take_primitive(d, scratch.state[0]);
  StreamV<V> here = of_cell(w, 0);
  StreamV<V> behind = between(of_end(near_end, 0), here, take(d, duct.face[0], face_per_distance));
  V floors = zero;
  for (int i = 0; i < n; ++i) {
    const Number<D>*grid = duct.cell[i], *near_face = duct.face[i], *far_face = duct.face[i + 1];
    Number<D>* state = scratch.state[i];
    const bool last = i + 1 == n;
    const PrimitiveV<V> w_next = take_primitive(d, scratch.state[last ? i : i + 1]);
    const StreamV<V> next = last ? of_end(far_end, n) : of_cell(w_next, i + 1);
    const StreamV<V> ahead = between(here, next, take(d, far_face, face_per_distance));
    const StreamV<V> slope = n == 1   ? StreamV<V>{zero, zero, zero, zero, zero}
                             : i == 0 ? limited_end(d, ahead, behind)
                             : last   ? limited_end(d, behind, ahead)
                                      : limited(d, behind, ahead);
    const V half_length = take(d, grid, cell_half_length);
    const StreamV<V> sl = moved(here, slope, hn::Neg(half_length)), sr = moved(here, slope, half_length);
    const V per_both = inverse(d, sl.rho * sr.rho);
    const V u_l = sl.flow * (sr.rho * per_both) * take(d, near_face, face_per_area);
    const V u_r = sr.flow * (sl.rho * per_both) * take(d, far_face, face_per_area);
    const V p_l = hn::NegMulAdd(half * sl.rho * u_l, u_l, sl.total);
    const V p_r = hn::NegMulAdd(half * sr.rho * u_r, u_r, sr.total);

    // change() of flow/duct.cpp over half the step
    const V per = half_dt * take(d, grid, cell_per_length);
    const V spread = half_dt * hn::MulSub(u_r, take(d, far_face, face_area), u_l * take(d, near_face, face_area)) *
                     take(d, grid, cell_per_volume);
    const V u_per = w.u * per;
    const V d_rho = hn::MulAdd(u_per, sl.rho - sr.rho, hn::Neg(w.rho * spread));
    const V d_u = per * hn::MulAdd(p_l - p_r, take(d, state, state_per_rho), half * (u_l + u_r) * (u_l - u_r));
    const V d_p = hn::MulAdd(u_per, p_l - p_r, hn::Neg(take(d, state, state_gamma) * w.p * spread));
    const V d_fresh = u_per * (sl.fresh - sr.fresh), d_fuel = u_per * (sl.fuel - sr.fuel);
    PrimitiveV<V> l{sl.rho + d_rho, u_l + d_u, p_l + d_p, sl.fresh + d_fresh, sl.fuel + d_fuel};
    PrimitiveV<V> r{sr.rho + d_rho, u_r + d_u, p_r + d_p, sr.fresh + d_fresh, sr.fuel + d_fuel};
    V rho_m = w.rho + d_rho, u_m = w.u + d_u, p_m = w.p + d_p;

    // is_gas() of all three
    const V lowest_rho = hn::Min(rho_m, hn::Min(l.rho, r.rho)), lowest_p = hn::Min(p_m, hn::Min(l.p, r.p));
    const V furthest = hn::Max(hn::Abs(d_u), hn::Max(hn::Abs(l.u - w.u), hn::Abs(r.u - w.u)));
    const auto sound_gas =
        hn::And(hn::And(lowest_rho > tenth * w.rho, lowest_p > tenth * w.p), furthest < take(d, state, state_sound));
    if (HWY_UNLIKELY(!hn::AllTrue(d, sound_gas))) {
      floors = floors + hn::IfThenZeroElse(sound_gas, one);
      const auto keep = [&](PrimitiveV<V>& x) {
        x = {choose(sound_gas, x.rho, w.rho), choose(sound_gas, x.u, w.u), choose(sound_gas, x.p, w.p),
             choose(sound_gas, x.fresh, w.fresh), choose(sound_gas, x.fuel, w.fuel)};
      };
      keep(l);
      keep(r);
      rho_m = choose(sound_gas, rho_m, w.rho);
      u_m = choose(sound_gas, u_m, w.u);
      p_m = choose(sound_gas, p_m, w.p);
    }
    put_primitive(d, l, scratch.side[2 * i]);
    put_primitive(d, r, scratch.side[2 * i + 1]);

    // What the wall pushes: 1/2 m²/rho (1/A_r - 1/A_l), without a division, from m² / (rho² A_m²) of this very gas.
    const V flow_m = rho_m * u_m, kinetic = flow_m * u_m, area = take(d, grid, cell_mean_area);
    put(d, hn::MulAdd(take(d, grid, cell_half_kinetic), kinetic, p_m), state, state_total);
    put(d, half * kinetic * area * area * take(d, grid, cell_throat), state, state_push);
    here = next;
    behind = ahead;
    w = w_next;
  }
  put(d, take(d, account.sum[0], account_floors) + floors, account.sum[0], account_floors);
}

/// What the gas at the faces is: ratio of heats, sound, energy.
template <class D>
HWY_INLINE void sides_thermo(D d, const WorkingGasLanes<Number<D>>& gases, int cells,
                             ScratchLanes<Number<D>>& scratch) {
  using V = Vector<D>;
  const GasV<D> gas(d, gases);
  const V one = all(d, 1.0), half = all(d, 0.5);
  for (int i = 1, n = 2 * cells - 1; i < n; ++i) {
    Number<D>* side = scratch.side[i];
    const PrimitiveV<V> w = take_primitive(d, side);
    const CaloricV<V> k = gas.blend(w.fresh, w.fuel);
    const V per = inverse(d, w.rho * k.R), T = w.p * per, RT = k.R * T;
    const V T_c = root(d, hn::MulAdd(T, T, gas.cc)), cv = hn::MulAdd(k.a, T_c, k.b * T);
    const V gamma = hn::MulAdd(k.R * T_c, inverse(d, cv), one);
    const V e = hn::MulAdd(k.a, T, k.b * (T_c - gas.c));
    put(d, k.R * per, side, side_per_rho);
    put(d, gamma, side, side_gamma);
    put(d, root(d, gamma * RT), side, side_sound);
    put(d, hn::MulAdd(half * w.u, w.u, e), side, side_energy);
  }
}

template <class D>
HWY_INLINE void inner_fluxes(D d, int cells, ScratchLanes<Number<D>>& scratch) {
  const auto face_of = [&](const Number<D>* side) {
    return FaceV<Vector<D>>{take_primitive(d, side), take(d, side, side_per_rho), take(d, side, side_gamma),
                            take(d, side, side_sound), take(d, side, side_energy)};
  };
  for (int face = 1; face < cells; ++face)
    flux_hllc(d, face_of(scratch.side[2 * face - 1]), face_of(scratch.side[2 * face]), scratch.flux[face]);
}

template <class D>
HWY_INLINE void predict_lanes(D d, const WorkingGasLanes<Number<D>>& gas, const DuctLanes<Number<D>>& duct,
                              const ContentsLanes<Number<D>>& contents, const Table<Number<D>>& dt,
                              ScratchLanes<Number<D>>& scratch, AccountLanes<Number<D>>& account) {
  half_step(d, duct, contents, dt, scratch, account);
  sides_thermo(d, gas, duct.cells, scratch);
  inner_fluxes(d, duct.cells, scratch);
}

/// New contents, then friction, losses and wall heat.
template <class D>
HWY_INLINE void advance_lanes(D d, const DuctLanes<Number<D>>& duct, const Table<Number<D>>& step,
                              const ScratchLanes<Number<D>>& scratch, ContentsLanes<Number<D>>& contents,
                              AccountLanes<Number<D>>& account) {
  using V = Vector<D>;
  const V zero = hn::Zero(d), one = all(d, 1.0), dt = take(d, step[0], 0);
  const V share = take(d, duct.wall[0], wall_heat_share) * dt, wall_T = take(d, duct.wall[0], wall_temperature);
  V slowed = zero, warmed = zero;
  V area = take(d, duct.face[0], face_area);
  const auto through = [&](int face, V a) {
    const Number<D>* f = scratch.flux[face];
    return std::array<V, 4>{take(d, f, flux_mass) * a, take(d, f, flux_energy) * a, take(d, f, flux_fresh) * a,
                            take(d, f, flux_fuel) * a};
  };
  std::array<V, 4> in = through(0, area);
  std::size_t next_loss = 0;
  for (int i = 0, n = duct.cells; i < n; ++i) {
    const Number<D>*grid = duct.cell[i], *state = scratch.state[i];
    Number<D>* c = contents.cell[i];
    const V area_r = take(d, duct.face[i + 1], face_area), p = take(d, state, state_total);
    const std::array<V, 4> out = through(i + 1, area_r);
    const V mass = hn::NegMulAdd(dt, out[0] - in[0], take(d, c, content_mass));
    const V pushed = hn::MulSub(take(d, scratch.flux[i + 1], flux_momentum) - p, area_r,
                                (take(d, scratch.flux[i], flux_momentum) - p) * area) -
                     take(d, state, state_push);
    V momentum = hn::NegMulAdd(dt, pushed, take(d, c, content_momentum));
    V energy = hn::NegMulAdd(dt, out[1] - in[1], take(d, c, content_energy));
    const V fresh = hn::NegMulAdd(dt, out[2] - in[2], take(d, c, content_fresh));
    const V fuel = hn::NegMulAdd(dt, out[3] - in[3], take(d, c, content_fuel));
    const V u_began = take(d, state, state_u), per_mass = inverse(d, mass);
    const V kinetic = take(d, grid, cell_half_kinetic) * mass;
    const auto slow = [&](V k) {
      const V u = momentum * per_mass, factor = inverse(d, hn::MulAdd(dt * k, hn::Abs(u), one));
      momentum = momentum * factor;
      return kinetic * u * u * hn::NegMulAdd(factor, factor, one);
    };
    if (duct.has_friction) slowed = slowed + slow(take(d, grid, cell_drag));
    for (; next_loss < duct.loss_cell.size() && duct.loss_cell[next_loss] == i; ++next_loss) {
      const Number<D>* loss = duct.loss[static_cast<int>(next_loss)];
      const int place = duct.loss_place[next_loss];
      const V k = choose(u_began >= zero, take(d, loss, loss_forward), take(d, loss, loss_backward));
      put(d, take(d, account.lost[0], place) + slow(k), account.lost[0], place);
    }
    if (duct.has_heat) {
      const V cv = take(d, state, state_cv), stored = mass * cv;
      const V film = hn::MulAdd(take(d, grid, cell_film_moving) * take(d, state, state_rho) * hn::Abs(u_began),
                                cv + take(d, state, state_R), take(d, grid, cell_film_at_rest));
      const V reach = share * film;  // over what the gas stores
      const V heat = stored * (wall_T - take(d, state, state_T)) * (reach * inverse(d, stored + reach));
      energy = energy + heat;
      warmed = warmed + heat;
    }
    put(d, mass, c, content_mass);
    put(d, momentum, c, content_momentum);
    put(d, energy, c, content_energy);
    put(d, fresh, c, content_fresh);
    put(d, fuel, c, content_fuel);
    in = out;
    area = area_r;
  }
  Number<D>* sum = account.sum[0];
  put(d, take(d, sum, account_wall_friction) + slowed, sum, account_wall_friction);
  put(d, take(d, sum, account_wall_heat) + warmed, sum, account_wall_heat);
}

}  // namespace portwright::flow::HWY_NAMESPACE
HWY_AFTER_NAMESPACE();

#endif
