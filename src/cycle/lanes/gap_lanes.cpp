#include "cycle/lanes/gap_lanes.hpp"

#undef HWY_TARGET_INCLUDE
#define HWY_TARGET_INCLUDE "cycle/lanes/gap_lanes.cpp"
#include <hwy/foreach_target.h>
#include <hwy/highway.h>

#include "flow/lanes/duct-inl.hpp"
#include "gas/opening.hpp"

HWY_BEFORE_NAMESPACE();
namespace portwright::cycle::HWY_NAMESPACE {

namespace hn = hwy::HWY_NAMESPACE;
namespace fl = portwright::flow::HWY_NAMESPACE;
using fl::all;
using fl::choose;
using fl::inverse;
using fl::root;
using fl::take;

/// The gas on one side as it would stream: what a kg/s of it takes off the pressures' difference in the step, and what
/// its flow number is made of.
template <class D>
struct UpstreamV {
  using V = fl::Vector<D>;
  V p, levels, scale;            ///< [Pa], [Pa s/kg], area p / sqrt(R T) [kg/s]
  V share, per_g, steep, least;  ///< (g - 1) / g, 1 / g, 2 g / (g - 1), ln of the ratio where it chokes
  V enthalpy, fresh, fuel;
};

template <class D>
PORTWRIGHT_LANES_LONG UpstreamV<D> upstream(D d, const fl::GasV<D>& gas, const fl::Number<D>* row, int first,
                                            fl::Vector<D> area, fl::Vector<D> room) {
  using V = fl::Vector<D>;
  const V one = all(d, 1.0), p = take(d, row, first + gap_p), T = take(d, row, first + gap_T);
  const V fresh = take(d, row, first + gap_fresh), fuel = take(d, row, first + gap_fuel);
  const auto k = gas.blend(fresh, fuel);
  const V T_c = root(d, hn::MulAdd(T, T, gas.cc)), RT = k.R * T;
  const V less = k.R * T_c * inverse(d, hn::MulAdd(k.a, T_c, k.b * T)), g = less + one;  // g - 1, g
  const V per_g = inverse(d, g), share = less * per_g, per_share = inverse(d, share);
  return {p,
          g * RT * room,
          area * p * fl::inverse_root(d, RT),
          share,
          per_g,
          all(d, 2.0) * per_share,
          hn::Neg(per_share * fl::ln(d, all(d, 0.5) * (g + one))),
          hn::MulAdd(k.a + k.R, T, k.b * (T_c - gas.c)),
          fresh,
          fuel};
}

template <class D, class V = fl::Vector<D>>
HWY_INLINE UpstreamV<D> either(fl::Mask<D> first, const UpstreamV<D>& a, const UpstreamV<D>& b) {
  const auto pick = [&](V x, V y) { return choose(first, x, y); };
  return {pick(a.p, b.p),         pick(a.levels, b.levels), pick(a.scale, b.scale), pick(a.share, b.share),
          pick(a.per_g, b.per_g), pick(a.steep, b.steep),   pick(a.least, b.least), pick(a.enthalpy, b.enthalpy),
          pick(a.fresh, b.fresh), pick(a.fuel, b.fuel)};
}

/// gas::opening_flow under a difference of pressure.
template <class D, class V = fl::Vector<D>>
PORTWRIGHT_LANES_LONG V flow_under(D d, const UpstreamV<D>& up, V difference) {
  const V zero = hn::Zero(d), one = all(d, 1.0);
  const V ratio = (up.p - hn::Min(difference, up.p)) / up.p;
  const V lg = hn::Max(fl::ln(d, hn::Max(ratio, all(d, 1e-30))), up.least);
  const V square =
      hn::Neg(up.steep * fl::exponential(d, (lg + lg) * up.per_g) * fl::exponential_less_one(d, lg * up.share));
  const V t = hn::Min((one - ratio) * all(d, 1.0 / gas::soft_pressure_share), one);
  const V soft = hn::NegMulAdd(all(d, 0.25) * t, t, all(d, 1.25));
  return up.scale * hn::Sqrt(hn::Max(square * t, zero)) * soft;
}

template <class D>
HWY_INLINE void through_gap(D d, const fl::GasV<D>& gas, const fl::Number<D>* row, fl::Vector<D> dt,
                            fl::Number<D>* flow) {
  using V = fl::Vector<D>;
  const V zero = hn::Zero(d), one = all(d, 1.0), half = all(d, 0.5), least = all(d, 1e-7);
  const V area = take(d, row, gap_area), before = take(d, row, gap_before);
  const V room = dt * (inverse(d, take(d, row, gap_size)) + inverse(d, take(d, row, gap_other_size)));
  const UpstreamV<D> a = upstream(d, gas, row, gap_p, area, room), b = upstream(d, gas, row, gap_other_p, area, room);
  const V drop = a.p - b.p;
  const auto falls = hn::Or(drop > zero, hn::And(drop == zero, before > zero));
  const V had = before * choose(falls, a.levels, b.levels), middle = hn::MulAdd(half, had, drop);
  const UpstreamV<D> seen = either<D>(middle > zero, a, b);
  const V about = hn::Max(hn::Abs(middle), least * seen.p);
  // taken_at: where in the step the pressures are taken
  const V g = seen.levels * flow_under(d, seen, about) / about, g2 = g * g;
  const V theta = one - half * inverse(d, hn::MulAdd(all(d, 0.125) * g2, g2, one));
  const V unmoved = hn::MulAdd(theta, had, drop);
  const UpstreamV<D> up = either<D>(unmoved > zero, a, b);
  const V whole = hn::Abs(unmoved), taken = theta * up.levels;
  V mass = zero, left = whole;
  for (int round = 0; round < 3; ++round) {
    const V seen_left = hn::Max(left, least * up.p), c = flow_under(d, up, seen_left), per_c2 = seen_left / (c * c);
    mass = (whole + whole) / (taken + hn::Sqrt(hn::MulAdd(taken, taken, all(d, 4.0) * whole * per_c2)));
    left = mass * mass * per_c2;
  }
  const auto flows = hn::And(area > zero, hn::And(middle != zero, unmoved != zero));
  mass = hn::IfThenElseZero(flows, hn::CopySign(mass, unmoved));
  fl::put(d, mass, flow, gap_flow_mass);
  fl::put(d, mass * up.enthalpy, flow, gap_flow_energy);
  fl::put(d, mass * up.fresh, flow, gap_flow_fresh);
  fl::put(d, mass * up.fuel, flow, gap_flow_fuel);
}

template <class D>
void through_all(D d, const flow::WorkingGasLanes<fl::Number<D>>& gases, const flow::Table<fl::Number<D>>& gaps,
                 const flow::Table<fl::Number<D>>& dt, flow::Table<fl::Number<D>>& flows) {
  const fl::GasV<D> gas(d, gases);
  const fl::Vector<D> step = take(d, dt[0], 0);
  for (int i = 0; i < gaps.rows(); ++i) through_gap(d, gas, gaps[i], step, flows[i]);
}

void through_double(const flow::WorkingGasLanes<double>& gas, const flow::Table<double>& gaps,
                    const flow::Table<double>& dt, flow::Table<double>& flows) {
  through_all(hn::ScalableTag<double>(), gas, gaps, dt, flows);
}
void through_float(const flow::WorkingGasLanes<float>& gas, const flow::Table<float>& gaps,
                   const flow::Table<float>& dt, flow::Table<float>& flows) {
  through_all(hn::ScalableTag<float>(), gas, gaps, dt, flows);
}

}  // namespace portwright::cycle::HWY_NAMESPACE
HWY_AFTER_NAMESPACE();

#if HWY_ONCE
namespace portwright::cycle {

HWY_EXPORT(through_double);
HWY_EXPORT(through_float);

template <>
void through_gaps(const flow::WorkingGasLanes<double>& gas, const flow::Table<double>& gaps,
                  const flow::Table<double>& dt, flow::Table<double>& flows) {
  HWY_DYNAMIC_DISPATCH(through_double)(gas, gaps, dt, flows);
}
template <>
void through_gaps(const flow::WorkingGasLanes<float>& gas, const flow::Table<float>& gaps, const flow::Table<float>& dt,
                  flow::Table<float>& flows) {
  HWY_DYNAMIC_DISPATCH(through_float)(gas, gaps, dt, flows);
}

}  // namespace portwright::cycle
#endif
