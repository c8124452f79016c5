#include "flow/lanes/duct_lanes.hpp"

#undef HWY_TARGET_INCLUDE
#define HWY_TARGET_INCLUDE "flow/lanes/duct_lanes.cpp"
#include <hwy/foreach_target.h>
#include <hwy/highway.h>

#include "flow/lanes/boundary-inl.hpp"
#include "flow/lanes/duct-inl.hpp"

HWY_BEFORE_NAMESPACE();
namespace portwright::flow::HWY_NAMESPACE {

template <class T>
int width() {
  return static_cast<int>(hn::Lanes(hn::ScalableTag<T>()));
}

template <class T>
void pass_end(const WorkingGasLanes<T>& gases, const Table<T>& inner, const Table<T>& end, Table<T>& passed) {
  using D = hn::ScalableTag<T>;
  const D d;
  const GasV<D> gas(d, gases);
  const T* e = end[0];
  const ReservoirV<Vector<D>> room{take(d, e, end_p), take(d, e, end_T), take(d, e, end_fresh),
                                             take(d, e, end_fuel)};
  const auto out = boundary_open(d, gas, take_primitive(d, inner[0]), room, take(d, e, end_area),
                                 take(d, e, end_opening), take(d, e, end_guess));
  T* row = passed[0];
  put(d, out.mass, row, flux_mass);
  put(d, out.momentum, row, flux_momentum);
  put(d, out.energy, row, flux_energy);
  put(d, out.fresh, row, flux_fresh);
  put(d, out.fuel, row, flux_fuel);
  put(d, out.floors, row, passed_floors);
  put_primitive(d, out.gas, row + passed_gas * width<T>());
}

// One name for each kind of number: the table of machines below knows no templates.
int width_double() { return width<double>(); }
int width_float() { return width<float>(); }
void decode_double(const WorkingGasLanes<double>& gas, const DuctLanes<double>& duct,
                   const ContentsLanes<double>& contents, ScratchLanes<double>& scratch, Table<double>& rate) {
  decode_lanes(hn::ScalableTag<double>(), gas, duct, contents, scratch, rate);
}
void decode_float(const WorkingGasLanes<float>& gas, const DuctLanes<float>& duct,
                  const ContentsLanes<float>& contents, ScratchLanes<float>& scratch, Table<float>& rate) {
  decode_lanes(hn::ScalableTag<float>(), gas, duct, contents, scratch, rate);
}
void predict_double(const WorkingGasLanes<double>& gas, const DuctLanes<double>& duct,
                    const ContentsLanes<double>& contents, const Table<double>& dt, ScratchLanes<double>& scratch,
                    AccountLanes<double>& account) {
  predict_lanes(hn::ScalableTag<double>(), gas, duct, contents, dt, scratch, account);
}
void predict_float(const WorkingGasLanes<float>& gas, const DuctLanes<float>& duct,
                   const ContentsLanes<float>& contents, const Table<float>& dt, ScratchLanes<float>& scratch,
                   AccountLanes<float>& account) {
  predict_lanes(hn::ScalableTag<float>(), gas, duct, contents, dt, scratch, account);
}
void advance_double(const DuctLanes<double>& duct, const Table<double>& dt, const ScratchLanes<double>& scratch,
                    ContentsLanes<double>& contents, AccountLanes<double>& account) {
  advance_lanes(hn::ScalableTag<double>(), duct, dt, scratch, contents, account);
}
void advance_float(const DuctLanes<float>& duct, const Table<float>& dt, const ScratchLanes<float>& scratch,
                   ContentsLanes<float>& contents, AccountLanes<float>& account) {
  advance_lanes(hn::ScalableTag<float>(), duct, dt, scratch, contents, account);
}

void pass_double(const WorkingGasLanes<double>& gas, const Table<double>& inner, const Table<double>& end,
                 Table<double>& passed) {
  pass_end(gas, inner, end, passed);
}
void pass_float(const WorkingGasLanes<float>& gas, const Table<float>& inner, const Table<float>& end,
                Table<float>& passed) {
  pass_end(gas, inner, end, passed);
}

}  // namespace portwright::flow::HWY_NAMESPACE
HWY_AFTER_NAMESPACE();

#if HWY_ONCE
namespace portwright::flow {

HWY_EXPORT(width_double);
HWY_EXPORT(width_float);
HWY_EXPORT(decode_double);
HWY_EXPORT(decode_float);
HWY_EXPORT(predict_double);
HWY_EXPORT(predict_float);
HWY_EXPORT(advance_double);
HWY_EXPORT(advance_float);
HWY_EXPORT(pass_double);
HWY_EXPORT(pass_float);

template <>
int lanes_of_machine<double>() {
  return HWY_DYNAMIC_DISPATCH(width_double)();
}
template <>
int lanes_of_machine<float>() {
  return HWY_DYNAMIC_DISPATCH(width_float)();
}

template <>
void decode(const WorkingGasLanes<double>& gas, const DuctLanes<double>& duct, const ContentsLanes<double>& contents,
            ScratchLanes<double>& scratch, Table<double>& rate) {
  HWY_DYNAMIC_DISPATCH(decode_double)(gas, duct, contents, scratch, rate);
}
template <>
void decode(const WorkingGasLanes<float>& gas, const DuctLanes<float>& duct, const ContentsLanes<float>& contents,
            ScratchLanes<float>& scratch, Table<float>& rate) {
  HWY_DYNAMIC_DISPATCH(decode_float)(gas, duct, contents, scratch, rate);
}
template <>
void predict(const WorkingGasLanes<double>& gas, const DuctLanes<double>& duct, const ContentsLanes<double>& contents,
             const Table<double>& dt, ScratchLanes<double>& scratch, AccountLanes<double>& account) {
  HWY_DYNAMIC_DISPATCH(predict_double)(gas, duct, contents, dt, scratch, account);
}
template <>
void predict(const WorkingGasLanes<float>& gas, const DuctLanes<float>& duct, const ContentsLanes<float>& contents,
             const Table<float>& dt, ScratchLanes<float>& scratch, AccountLanes<float>& account) {
  HWY_DYNAMIC_DISPATCH(predict_float)(gas, duct, contents, dt, scratch, account);
}
template <>
void advance(const DuctLanes<double>& duct, const Table<double>& dt, const ScratchLanes<double>& scratch,
             ContentsLanes<double>& contents, AccountLanes<double>& account) {
  HWY_DYNAMIC_DISPATCH(advance_double)(duct, dt, scratch, contents, account);
}
template <>
void advance(const DuctLanes<float>& duct, const Table<float>& dt, const ScratchLanes<float>& scratch,
             ContentsLanes<float>& contents, AccountLanes<float>& account) {
  HWY_DYNAMIC_DISPATCH(advance_float)(duct, dt, scratch, contents, account);
}

template <>
void boundary_open(const WorkingGasLanes<double>& gas, const Table<double>& inner, const Table<double>& end,
                   Table<double>& passed) {
  HWY_DYNAMIC_DISPATCH(pass_double)(gas, inner, end, passed);
}
template <>
void boundary_open(const WorkingGasLanes<float>& gas, const Table<float>& inner, const Table<float>& end,
                   Table<float>& passed) {
  HWY_DYNAMIC_DISPATCH(pass_float)(gas, inner, end, passed);
}

}  // namespace portwright::flow
#endif
