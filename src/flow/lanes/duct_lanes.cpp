#include "flow/lanes/duct_lanes.hpp"

#undef HWY_TARGET_INCLUDE
#define HWY_TARGET_INCLUDE "flow/lanes/duct_lanes.cpp"
#include <hwy/foreach_target.h>
#include <hwy/highway.h>

#include "flow/lanes/duct-inl.hpp"

HWY_BEFORE_NAMESPACE();
namespace portwright::flow::HWY_NAMESPACE {

template <class T>
int width() {
  return static_cast<int>(hn::Lanes(hn::ScalableTag<T>()));
}

// One name for each kind of number: the table of machines below knows no templates.
int width_double() { return width<double>(); }
int width_float() { return width<float>(); }
void decode_double(const WorkingGasLanes<double>& gas, const DuctLanes<double>& duct,
                   const ContentsLanes<double>& contents, ScratchLanes<double>& scratch, Table<double>& rate) {
  decode_lanes(hn::ScalableTag<double>(), gas, duct, contents, scratch, rate);
}
void decode_float(const WorkingGasLanes<float>& gas, const DuctLanes<float>& duct, const ContentsLanes<float>& contents,
                  ScratchLanes<float>& scratch, Table<float>& rate) {
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

}  // namespace portwright::flow
#endif
