// flow/boundary_open.cpp and flow/wave.hpp in lanes: the same two mass flows, made equal by Newton's rule in the place
// of the secant. Lanes whose gas leaves and lanes whose gas comes in go through the same rounds, each until it is
// there.
//
// The unknown is y with p = p_room + y² (out) or p_room - y² (in): so the nozzle's root becomes linear, and what the
// mass flows differ by falls with y, from no flow to the fastest. Where gas leaves through an opening all but as wide
// as the duct, the slope falls toward 0 at the root and more rounds are wanted; one as wide as the duct is not
// searched.
#if defined(PORTWRIGHT_FLOW_LANES_BOUNDARY) == defined(HWY_TARGET_TOGGLE)
#ifdef PORTWRIGHT_FLOW_LANES_BOUNDARY
#undef PORTWRIGHT_FLOW_LANES_BOUNDARY
#else
#define PORTWRIGHT_FLOW_LANES_BOUNDARY
#endif

#include "flow/lanes/duct-inl.hpp"
#include "flow/lanes/ends_lanes.hpp"

HWY_BEFORE_NAMESPACE();
namespace portwright::flow::HWY_NAMESPACE {

template <class V>
struct ReservoirV {
  V p, T, fresh, fuel;
};
/// As EndFlow: counted outward; floors is 1 in lanes that had one.
template <class V>
struct EndFlowV {
  V mass, momentum, energy, fresh, fuel;
  PrimitiveV<V> gas;
  V floors;
};

/// What hangs on a ratio of heats alone.
template <class D>
struct Exponents {
  using V = Vector<D>;
  V g, less, half_less, per_less;  ///< g, g - 1, (g - 1) / 2, 1 / (g - 1)
  V share, per_g;                  ///< (g - 1) / g, 1 / g
  V critical;                      ///< temperature over that at rest where the gas chokes, 2 / (g + 1)
  HWY_INLINE Exponents(D d, V gamma)
      : g(gamma),
        less(gamma - all(d, 1.0)),
        half_less(all(d, 0.5) * less),
        per_less(inverse(d, less)),
        share(less * inverse(d, gamma)),
        per_g(inverse(d, gamma)),
        critical(all(d, 2.0) * inverse(d, gamma + all(d, 1.0))) {}
};

/// The gas inside the duct with what the wave asks of it, once an end.
template <class D>
struct Inner {
  using V = Vector<D>;
  PrimitiveV<V> w;
  V e, sound, per_p;
  Exponents<D> x;
  V m, steep, B;  ///< (g - 1) / (g + 1); 2 / ((g + 1) rho); m p
  HWY_INLINE Inner(D d, const GasV<D>& gas, const PrimitiveV<V>& at) : Inner(d, gas, at, caloric(d, gas, at)) {}

  /// Sensible energy of gas of the same composition.
  HWY_INLINE V energy(D d, const GasV<D>& gas, const PrimitiveV<V>& at) const { return caloric(d, gas, at).e; }

 private:
  struct Found {
    V e, gamma, sound;
  };
  static HWY_INLINE Found caloric(D d, const GasV<D>& gas, const PrimitiveV<V>& w) {
    const CaloricV<V> k = gas.blend(w.fresh, w.fuel);
    const V T = w.p * inverse(d, w.rho * k.R), T_c = root(d, hn::MulAdd(T, T, gas.cc));
    const V gamma = hn::MulAdd(k.R * T_c, inverse(d, hn::MulAdd(k.a, T_c, k.b * T)), all(d, 1.0));
    return {hn::MulAdd(k.a, T, k.b * (T_c - gas.c)), gamma, root(d, gamma * k.R * T)};
  }
  HWY_INLINE Inner(D d, const GasV<D>&, const PrimitiveV<V>& at, const Found& t)
      : w(at),
        e(t.e),
        sound(t.sound),
        per_p(inverse(d, at.p)),
        x(d, t.gamma),
        m(hn::NegMulAdd(all(d, 1.0), x.critical, all(d, 1.0))),
        steep(x.critical * inverse(d, at.rho)),
        B(m * at.p) {}
};

/// Gas behind the wave at pressure p, outward speed, and how both change with p.
template <class V>
struct BehindV {
  V u, rho, du, drho;
};
/// behind_wave; `sound` is (p / p_i)^((g - 1) / 2g), read where p <= p_i.
template <class D, class V = Vector<D>>
HWY_INLINE BehindV<V> behind_wave(D d, const Inner<D>& in, V p, V ratio, V sound) {
  const V one = all(d, 1.0);
  const V over = p - in.w.p, per = inverse(d, p + in.B), f = root(d, in.steep * per);
  const V den = inverse(d, hn::MulAdd(in.m, ratio, one));
  const auto shock = ratio > one;
  const V c = in.sound * sound, per_square = inverse(d, sound * sound), per_c = inverse(d, c);
  const V rho = choose(shock, in.w.rho * (ratio + in.m) * den, in.w.rho * ratio * per_square);
  const V u = in.w.u - choose(shock, over * f, all(d, 2.0) * in.sound * in.x.per_less * (sound - one));
  const V du = hn::Neg(choose(shock, f * hn::NegMulAdd(all(d, 0.5) * over, per, one), per_c * inverse(d, rho)));
  const V drho = choose(shock, in.w.rho * hn::NegMulAdd(in.m, in.m, one) * den * den * in.per_p, per_c * per_c);
  return {u, rho, du, drho};
}

/// rest_pressure.
template <class D, class V = Vector<D>>
PORTWRIGHT_LANES_LONG V rest_pressure(D d, const Inner<D>& in) {
  const V zero = hn::Zero(d), one = all(d, 1.0), two = all(d, 2.0);
  const auto stops = in.w.u > zero;
  const V q = all(d, 0.5) * in.w.u * in.w.u * inverse(d, in.steep);
  const V shock = in.w.p + q + hn::Sqrt(q * hn::MulAdd(two, in.w.p + in.B, q));
  if (hn::AllTrue(d, stops)) return shock;
  const V sound = hn::MulAdd(in.x.half_less * in.w.u, inverse(d, in.sound), one);
  const V back = in.w.p * power(d, hn::Max(sound, all(d, 1e-6)), two * in.x.g * in.x.per_less);
  return choose(stops, shock, hn::IfThenElseZero(sound > zero, back));
}

/// isentropic of flow/boundary_open.cpp by the temperature ratio t: rho_0 c_0 t^(1/(g-1)) sqrt(2/(g-1) (1 - t)), `thin`
/// being the power. [kg/m²s]
template <class D, class V = Vector<D>>
HWY_INLINE V jet(D d, V rho_c, const Exponents<D>& x, V thin, V t) {
  return rho_c * thin * hn::Sqrt(hn::Max(hn::Zero(d), all(d, 2.0) * x.per_less * (all(d, 1.0) - t)));
}

/// d ln(flow) / d ln(pressure ratio) of a nozzle that does not choke.
template <class D, class V = Vector<D>>
HWY_INLINE V jet_slope(D d, const Exponents<D>& x, V t) {
  const V left = hn::Max(all(d, 1.0) - t, all(d, 1e-18));
  return hn::NegMulAdd(all(d, 0.5) * x.share * t, inverse(d, left), x.per_g);
}

/// What both flows differ by at a pressure, and how that changes with the pressure; the duct's gas there.
template <class V>
struct DifferV {
  V f, df;
  BehindV<V> at;
};

/// The gas of a room that streams into the duct: what does not change in a search.
template <class D>
struct Source {
  using V = Vector<D>;
  CaloricV<V> with_work;
  V R, T, p, fresh, fuel;
  V enthalpy, least;
  Exponents<D> x;
  V rho_c;  ///< g p / c [kg/m²s]
  HWY_INLINE Source(D d, const GasV<D>& gas, const ReservoirV<V>& from)
      : Source(d, gas, from, gas.blend(from.fresh, from.fuel)) {}

 private:
  HWY_INLINE Source(D d, const GasV<D>& gas, const ReservoirV<V>& from, const CaloricV<V>& k)
      : with_work{k.R, k.a + k.R, k.b},
        R(k.R),
        T(from.T),
        p(from.p),
        fresh(from.fresh),
        fuel(from.fuel),
        enthalpy(at(d, gas, from.T)),
        least(at(d, gas, from.T * all(d, 1.0 / 3.0))),
        x(d, gamma(d, gas, k, from.T)),
        rho_c(x.g * from.p * inverse_root(d, x.g * k.R * from.T)) {}
  HWY_INLINE V at(D d, const GasV<D>& gas, V t) const {
    return hn::MulAdd(with_work.a, t, with_work.b * (root(d, hn::MulAdd(t, t, gas.cc)) - gas.c));
  }
  static HWY_INLINE V gamma(D d, const GasV<D>& gas, const CaloricV<V>& k, V t) {
    const V T_c = root(d, hn::MulAdd(t, t, gas.cc));
    return hn::MulAdd(k.R * T_c, inverse(d, hn::MulAdd(k.a, T_c, k.b * t)), all(d, 1.0));
  }
};

/// One end of all lanes while it is searched.
template <class D>
struct Search {
  using V = Vector<D>;
  D d;
  const GasV<D>& gas;
  const Inner<D>& in;
  const Source<D>& from;
  V area, opening, room;
  Mask<D> out;  ///< where gas leaves
  V log_room;   ///< ln(p_room / p_i)
  V spent;      ///< (p_room / p_i)^((g - 1) / g)

  HWY_INLINE Search(D tag, const GasV<D>& law, const Inner<D>& inner, const Source<D>& source, V duct_area, V wide, V p,
                    Mask<D> leaves)
      : d(tag),
        gas(law),
        in(inner),
        from(source),
        area(duct_area),
        opening(wide),
        room(p),
        out(leaves),
        log_room(ln(d, hn::Max(p * inner.per_p, all(d, 1e-9)))),
        spent(exponential(d, inner.x.share * log_room)) {}

  PORTWRIGHT_LANES_LONG DifferV<V> leaving(V p, V sound, BehindV<V> b, Mask<D> lanes) const {
    const V one = all(d, 1.0), half = all(d, 0.5);
    const Exponents<D>& x = in.x;
    const V per_p = inverse(d, p), per_rho = inverse(d, b.rho), c2 = x.g * p * per_rho, per_c2 = inverse(d, c2);
    const V stream = x.half_less * b.u * per_c2, rise = hn::MulAdd(stream, b.u, one), per_rise = inverse(d, rise);
    const V dc2 = hn::NegMulAdd(b.drho, per_rho, per_p);                              // of ln c²
    const V drise = stream * hn::NegMulAdd(b.u, dc2, all(d, 2.0) * b.du) * per_rise;  // of ln rise
    const V dp0 = hn::MulAdd(x.g * x.per_less, drise, per_p), dc0 = half * (dc2 + drise);
    const V rest = spent * inverse(d, sound * sound), t = rest * per_rise;
    const auto chokes = t < x.critical;
    V thin = room * per_p * inverse(d, rest), slope = jet_slope(d, x, t);
    if (!hn::AllFalse(d, hn::And(lanes, chokes))) {
      thin = choose(chokes, power(d, rise * x.critical, x.per_less), thin);
      slope = hn::IfThenZeroElse(chokes, slope);
    }
    const V flow = opening * jet(d, b.rho * root(d, c2 * rise), x, thin, hn::Max(t, x.critical));
    return {hn::MulSub(b.rho * b.u, area, flow),
            hn::NegMulAdd(flow, hn::NegMulAdd(slope, dp0, dp0 - dc0), area * hn::MulAdd(b.drho, b.u, b.rho * b.du)), b};
  }

  PORTWRIGHT_LANES_LONG DifferV<V> entering(V p, V t, BehindV<V> b, Mask<D> lanes) const {
    const Exponents<D>& x = from.x;
    const V left = hn::NegMulAdd(all(d, 0.5) * b.u, b.u, from.enthalpy), h = hn::Max(left, from.least);
    const V T = gas.temperature(d, from.with_work, h), per_p = inverse(d, p);
    const V T_c = root(d, hn::MulAdd(T, T, gas.cc));
    const V per_cp = T_c * inverse(d, hn::MulAdd(from.with_work.a, T_c, from.with_work.b * T));
    b.rho = p * inverse(d, from.R * T);
    const V cools = hn::IfThenElseZero(left > from.least, b.u * b.du * per_cp);
    b.drho = b.rho * hn::MulAdd(cools, inverse(d, T), per_p);
    const auto chokes = t < x.critical;
    V thin = p * inverse(d, from.p * t), slope = jet_slope(d, x, t);
    if (!hn::AllFalse(d, hn::And(lanes, chokes))) {
      thin = choose(chokes, power(d, x.critical, x.per_less), thin);
      slope = hn::IfThenZeroElse(chokes, slope);
    }
    const V flow = opening * jet(d, from.rho_c, x, thin, hn::Max(t, x.critical));
    return {hn::Neg(hn::MulAdd(b.rho * b.u, area, flow)),
            hn::Neg(hn::MulAdd(flow, slope * per_p, area * hn::MulAdd(b.drho, b.u, b.rho * b.du))), b};
  }

  HWY_INLINE BehindV<V> behind(V p) const {
    const V ratio = hn::Max(p * in.per_p, all(d, 1e-9));
    return behind_wave(d, in, p, ratio, power(d, ratio, all(d, 0.5) * in.x.share));
  }

  /// The powers at a pressure: of the wave, sound over the inner one, and of the nozzle into the duct, its temperature
  /// ratio.
  struct Powers {
    V sound, jet;
  };
  PORTWRIGHT_LANES_LONG Powers powers(V p) const {
    const V lg = ln(d, hn::Max(p * in.per_p, all(d, 1e-9)));
    return {exponential(d, all(d, 0.5) * in.x.share * lg), exponential(d, from.x.share * (lg - log_room))};
  }
  /// The same from those at a pressure `was` near by: by series where the change is a sixty-fourth or less.
  PORTWRIGHT_LANES_LONG Powers powers_near(const Powers& before, V was, V p, Mask<D> lanes) const {
    const V change = p - was;
    const auto far = hn::Abs(change) > all(d, 1.0 / 64.0) * was;
    const V z = change * inverse(d, p + was), z2 = z * z;  // ln(p / was) = 2 (z + z³/3 + z⁵/5 + z⁷/7)
    const V tail = hn::MulAdd(hn::MulAdd(all(d, 2.0 / 7.0), z2, all(d, 2.0 / 5.0)), z2, all(d, 2.0 / 3.0));
    const V lg = z * hn::MulAdd(tail, z2, all(d, 2.0));
    const auto grown = [&](V kept, V x) {  // kept exp(x)
      const V high = hn::MulAdd(hn::MulAdd(all(d, 1.0 / 120.0), x, all(d, 1.0 / 24.0)), x, all(d, 1.0 / 6.0));
      return hn::MulAdd(kept * x, hn::MulAdd(hn::MulAdd(high, x, all(d, 0.5)), x, all(d, 1.0)), kept);
    };
    Powers next{grown(before.sound, all(d, 0.5) * in.x.share * lg), grown(before.jet, from.x.share * lg)};
    if (HWY_UNLIKELY(!hn::AllFalse(d, hn::And(lanes, far)))) {
      const Powers afresh = powers(p);
      next = {choose(far, afresh.sound, next.sound), choose(far, afresh.jet, next.jet)};
    }
    return next;
  }

  /// In the lanes asked for; elsewhere it means nothing.
  PORTWRIGHT_LANES_LONG DifferV<V> at(V p, const Powers& powers, Mask<D> lanes) const {
    const BehindV<V> b = behind_wave(d, in, p, hn::Max(p * in.per_p, all(d, 1e-9)), powers.sound);
    const auto leave = hn::And(lanes, out), enter = hn::AndNot(out, lanes);
    if (hn::AllFalse(d, enter)) return leaving(p, powers.sound, b, leave);
    if (hn::AllFalse(d, leave)) return entering(p, powers.jet, b, enter);
    const DifferV<V> o = leaving(p, powers.sound, b, leave), i = entering(p, powers.jet, b, enter);
    return {choose(out, o.f, i.f), choose(out, o.df, i.df),
            BehindV<V>{b.u, choose(out, b.rho, i.at.rho), b.du, choose(out, b.drho, i.at.drho)}};
  }
  HWY_INLINE DifferV<V> at(V p, Mask<D> lanes) const { return at(p, powers(p), lanes); }
};

/// How near the two mass flows must come where a bound decides, of rho c A and of the jet: as in
/// flow/boundary_open.cpp; in float as near as it can tell.
template <class D>
HWY_INLINE Vector<D> near_enough(D d) {
  return all(d, sizeof(Number<D>) == 8 ? 1e-13 : 1e-6);
}

/// A pressure with the gas there.
template <class V>
struct PlaceV {
  V p, u, rho;
};

/// The zero between y = low (where the flows differ by something positive) and high, round by round. A lane is there
/// when its step is so small that the square of it is lost in rounding; it still takes that step, along the slopes.
template <class D>
struct Rounds {
  using V = Vector<D>;
  static constexpr bool fine = sizeof(Number<D>) == 8;
  static constexpr int most = fine ? 100 : 30;
  V low, high, y, least, small, sign;
  V was;  ///< the pressure of the round before
  typename Search<D>::Powers powers;
  Mask<D> left;  ///< lanes that are not there yet
  int done = 0;

  HWY_INLINE Rounds(const Search<D>& s, V from, V to, V guess, Mask<D> wanted)
      : low(from),
        high(to),
        y(start(s.d, from, to, guess)),
        least(all(s.d, 1e30)),
        small(all(s.d, fine ? 1e-8 : 3e-4) * root(s.d, s.in.w.p)),
        sign(choose(s.out, all(s.d, 1.0), all(s.d, -1.0))),
        was(hn::MulAdd(sign * y, y, s.room)),
        powers(s.powers(was)),
        left(hn::And(wanted, to >= hn::Zero(s.d))) {}  // a lane whose engine has become no number waits for nothing
  static HWY_INLINE V start(D d, V low, V high, V guess) {
    const V rim = all(d, 1e-3) * (high - low);
    return hn::Min(hn::Max(guess, low + rim), high - rim);
  }
  [[nodiscard]] HWY_INLINE bool busy(D d) const { return done < most && !hn::AllFalse(d, left); }

  PORTWRIGHT_LANES_LONG void round(const Search<D>& s, PlaceV<V>& found) {
    const D d = s.d;
    const V half = all(d, 0.5);
    const V p = hn::MulAdd(sign * y, y, s.room);
    if (done > 0) powers = s.powers_near(powers, was, p, left);
    was = p;
    const DifferV<V> g = s.at(p, powers, left);
    const auto above = g.f > hn::Zero(d);
    low = choose(above, y, low);
    high = choose(above, high, y);
    const V newton = hn::NegMulAdd(g.f, inverse(d, sign * (y + y) * g.df), y), off = hn::Abs(g.f);
    const auto inside = hn::And(hn::And(newton >= low, newton <= high), hn::Not(off > least));
    least = half * off;
    const V next = choose(inside, newton, half * (low + high)), step = next - y;
    const auto near = hn::Or(hn::And(inside, hn::Abs(step) <= small), high - low <= all(d, 1e-8) * small);
    const V move = sign * step * (next + y);
    const auto take_it = ++done < most ? hn::And(left, near) : left;
    found = {choose(take_it, p + move, found.p), choose(take_it, hn::MulAdd(g.at.du, move, g.at.u), found.u),
             choose(take_it, hn::MulAdd(g.at.drho, move, g.at.rho), found.rho)};
    left = hn::AndNot(near, left);
    y = choose(left, next, y);
  }
};

/// Gas that comes in from a jet that outruns every wave: as it spreads from its choked opening over the duct, where the
/// pressure found lies under that. Seldom.
template <class D, class V = Vector<D>>
HWY_NOINLINE void spread_jet(const Search<D>& s, PlaceV<V>& at, Mask<D>& spreads) {
  const D d = s.d;
  const Exponents<D>& x = s.from.x;
  const V one = all(d, 1.0), half = all(d, 0.5);
  const auto flow = [&](V t) { return jet(d, s.from.rho_c, x, power(d, t, x.per_less), t); };
  const V most = s.opening * flow(x.critical);
  V low = power(d, hn::Max(at.p * inverse(d, s.from.p), all(d, 1e-6)), x.share), high = x.critical;
  spreads = hn::And(spreads, hn::And(low < high, flow(low) * s.area < most));
  if (hn::AllFalse(d, spreads)) return;
  // An opening as wide as the duct spreads nothing; else the temperature ratio is halved to its last digit.
  const auto full = hn::NegMulAdd(most, one, flow(high) * s.area) <= near_enough<D>(d) * most;
  low = choose(full, high, low);
  for (int i = 0; i < 60; ++i) {
    const V middle = half * (low + high);
    const auto under = flow(middle) * s.area < most;
    low = choose(under, middle, low);
    high = choose(under, high, middle);
  }
  const V t = half * (low + high), thin = power(d, t, x.per_less);
  const V rho = s.from.p * inverse(d, s.from.R * s.from.T) * thin;
  at.rho = choose(spreads, rho, at.rho);
  at.u = choose(spreads, hn::Neg(most * inverse(d, rho * s.area)), at.u);
  at.p = choose(spreads, s.from.p * thin * t, at.p);
}

/// boundary_open in three parts, so that two ends may be searched in the same rounds: while one waits for its own last
/// product, the other goes on. `guess` is the pressure to start from.
template <class D>
struct EndV {
  using V = Vector<D>;
  D d;
  const GasV<D>& gas;
  PrimitiveV<V> w;
  ReservoirV<V> room;
  V duct_area;
  Inner<D> in;
  Source<D> from;
  V stopped;
  Mask<D> open, out;
  Search<D> s;
  PlaceV<V> at;  ///< the gas in the duct at its end
  Rounds<D> rounds;

  HWY_INLINE EndV(D tag, const GasV<D>& law, const PrimitiveV<V>& inner, const ReservoirV<V>& behind, V area, V opening,
                  V guess)
      : d(tag),
        gas(law),
        w(inner),
        room(behind),
        duct_area(area),
        in(d, gas, w),
        from(d, gas, room),
        stopped(rest_pressure(d, in)),
        open(hn::And(opening > hn::Zero(d), stopped != room.p)),
        out(hn::And(open, stopped > room.p)),
        s(d, gas, in, from, duct_area, hn::Min(opening, duct_area), room.p, out),
        at{stopped, hn::Zero(d), w.rho},
        rounds(begin(opening, guess)) {}
  EndV(const EndV&) = delete;
  EndV& operator=(const EndV&) = delete;
  ~EndV() = default;

  [[nodiscard]] HWY_INLINE bool busy() const { return rounds.busy(d); }
  HWY_INLINE void round() { rounds.round(s, at); }

  /// What needs no search; the bounds of the search for the rest.
  PORTWRIGHT_LANES_LONG Rounds<D> begin(V opening, V guess) {
    const V zero = hn::Zero(d), one = all(d, 1.0);
    // An opening as wide as the duct lets the gas out at the room's pressure or, as any other, at the gas's own sound;
    // gas that leaves faster than that takes no wave.
    V low = zero, lowest = room.p;
    const V faster = hn::MulAdd(in.x.half_less * w.u, inverse(d, in.sound), one) * in.x.critical;  // sonic, over c_i
    const auto may_choke = hn::And(out, hn::Or(faster * faster > s.spent, w.u >= in.sound));
    auto full = hn::And(out, opening >= duct_area), free = hn::And(out, zero > one);
    if (HWY_UNLIKELY(!hn::AllFalse(d, may_choke))) {
      const V sonic = choose(faster >= one, w.p,
                             w.p * power(d, hn::Max(faster, all(d, 1e-3)), all(d, 2.0) * in.x.g * in.x.per_less));
      lowest = choose(may_choke, hn::Max(room.p, sonic), lowest);
      low = hn::Sqrt(hn::Max(zero, lowest - room.p));
      const V edge = s.at(lowest, may_choke).f, inner = s.at(w.p, may_choke).f;
      free = hn::And(may_choke, hn::And(w.u >= in.sound, inner <= zero));
      full = hn::AndNot(free, hn::Or(full, hn::And(may_choke, edge <= near_enough(d) * w.rho * in.sound * duct_area)));
    }
    if (!hn::AllFalse(d, full)) {
      const BehindV<V> b = s.behind(lowest);
      at = {choose(full, lowest, at.p), choose(full, b.u, at.u), choose(full, b.rho, at.rho)};
    }
    at = {choose(free, w.p, at.p), choose(free, w.u, at.u), choose(free, w.rho, at.rho)};
    const auto wanted = hn::AndNot(hn::Or(free, full), open);
    const V off = hn::Max(choose(out, guess - room.p, room.p - guess), zero);
    return {s, low, hn::Sqrt(hn::Abs(stopped - room.p)), hn::Sqrt(off), wanted};
  }

  PORTWRIGHT_LANES_LONG EndFlowV<V> flow() {
    const V zero = hn::Zero(d), one = all(d, 1.0), half = all(d, 0.5);
    const auto enter = hn::AndNot(out, open), shut = hn::Not(open);
    V floors = zero, total = from.enthalpy;
    if (!hn::AllFalse(d, enter)) {
      floors = hn::IfThenElseZero(hn::And(enter, hn::NegMulAdd(half * at.u, at.u, from.enthalpy) < from.least), one);
      // No gas chokes above 0.65 of its pressure at rest.
      if (HWY_UNLIKELY(!hn::AllFalse(d, hn::And(enter, at.p < all(d, 0.65) * room.p)))) {
        auto spreads = hn::And(enter, at.p < room.p * power(d, from.x.critical, from.x.g * from.x.per_less));
        spread_jet(s, at, spreads);
        floors = hn::IfThenZeroElse(spreads, floors);
      }
    }
    if (!hn::AllFalse(d, shut)) at.rho = choose(shut, s.behind(stopped).rho, at.rho);
    const V mass = at.rho * at.u;
    if (!hn::AllFalse(d, out)) {
      const V e = in.energy(d, gas, {at.rho, at.u, at.p, w.fresh, w.fuel});
      total = choose(out, e + hn::MulAdd(at.p, inverse(d, at.rho), half * at.u * at.u), total);
    }
    const PrimitiveV<V> end{at.rho, at.u, at.p, choose(enter, room.fresh, w.fresh), choose(enter, room.fuel, w.fuel)};
    return {mass, hn::MulAdd(mass, at.u, at.p), mass * total, mass * end.fresh, mass * end.fuel, end, floors};
  }
};

/// Both ends of a duct: fluxes and gas there into scratch and contents, what passed outward into `passed`.
template <class D>
HWY_INLINE void pass_ends_lanes(D d, const WorkingGasLanes<Number<D>>& gases, const DuctLanes<Number<D>>& duct,
                                const Table<Number<D>>& doors, ScratchLanes<Number<D>>& scratch,
                                ContentsLanes<Number<D>>& contents, Table<Number<D>>& passed) {
  using V = Vector<D>;
  const GasV<D> gas(d, gases);
  const auto end_at = [&](int end) {
    const Number<D>* door = doors[end];
    PrimitiveV<V> w = take_primitive(d, scratch.side[end == near_end ? 0 : 2 * duct.cells - 1]);
    if (end == near_end) w.u = hn::Neg(w.u);
    return EndV<D>(d, gas, w,
                   ReservoirV<V>{take(d, door, door_p), take(d, door, door_T), take(d, door, door_fresh),
                                 take(d, door, door_fuel)},
                   take(d, duct.face[end == near_end ? 0 : duct.cells], face_area), take(d, door, door_opening),
                   take(d, door, door_guess));
  };
  EndV<D> near = end_at(near_end), far = end_at(far_end);
  while (near.busy() && far.busy()) {
    near.round();
    far.round();
  }
  while (near.busy()) near.round();
  while (far.busy()) far.round();
  for (const int end : {near_end, far_end}) {
    const EndFlowV<V> flow = end == near_end ? near.flow() : far.flow();
    const auto outward = [&](V v) { return end == near_end ? hn::Neg(v) : v; };
    Number<D>*flux = scratch.flux[end == near_end ? 0 : duct.cells], *out = passed[end];
    put(d, outward(flow.mass), flux, flux_mass);
    put(d, flow.momentum, flux, flux_momentum);
    put(d, outward(flow.energy), flux, flux_energy);
    put(d, outward(flow.fresh), flux, flux_fresh);
    put(d, outward(flow.fuel), flux, flux_fuel);
    put(d, flow.mass, out, passed_mass);
    put(d, flow.momentum, out, passed_momentum);
    put(d, flow.energy, out, passed_energy);
    put(d, flow.fresh, out, passed_fresh);
    put(d, flow.fuel, out, passed_fuel);
    PrimitiveV<V> there = flow.gas;
    put_primitive(d, there, out + passed_gas * static_cast<int>(hn::Lanes(d)));
    put(d, flow.floors, out, passed_floors);
    there.u = outward(there.u);
    put_primitive(d, there, contents.end[end]);
  }
}

}  // namespace portwright::flow::HWY_NAMESPACE
HWY_AFTER_NAMESPACE();

#endif
