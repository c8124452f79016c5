#include "flow/lanes/ends_lanes.hpp"

#undef HWY_TARGET_INCLUDE
#define HWY_TARGET_INCLUDE "flow/lanes/ends_lanes.cpp"
#include <hwy/foreach_target.h>
#include <hwy/highway.h>

#include "flow/lanes/boundary-inl.hpp"

HWY_BEFORE_NAMESPACE();
namespace portwright::flow::HWY_NAMESPACE {

void pass_double(const WorkingGasLanes<double>& gas, const DuctLanes<double>& duct, const Table<double>& doors,
                 ScratchLanes<double>& scratch, ContentsLanes<double>& contents, Table<double>& passed) {
  pass_ends_lanes(hn::ScalableTag<double>(), gas, duct, doors, scratch, contents, passed);
}
void pass_float(const WorkingGasLanes<float>& gas, const DuctLanes<float>& duct, const Table<float>& doors,
                ScratchLanes<float>& scratch, ContentsLanes<float>& contents, Table<float>& passed) {
  pass_ends_lanes(hn::ScalableTag<float>(), gas, duct, doors, scratch, contents, passed);
}

}  // namespace portwright::flow::HWY_NAMESPACE
HWY_AFTER_NAMESPACE();

#if HWY_ONCE
namespace portwright::flow {

HWY_EXPORT(pass_double);
HWY_EXPORT(pass_float);

template <>
void pass_ends(const WorkingGasLanes<double>& gas, const DuctLanes<double>& duct, const Table<double>& doors,
               ScratchLanes<double>& scratch, ContentsLanes<double>& contents, Table<double>& passed) {
  HWY_DYNAMIC_DISPATCH(pass_double)(gas, duct, doors, scratch, contents, passed);
}
template <>
void pass_ends(const WorkingGasLanes<float>& gas, const DuctLanes<float>& duct, const Table<float>& doors,
               ScratchLanes<float>& scratch, ContentsLanes<float>& contents, Table<float>& passed) {
  HWY_DYNAMIC_DISPATCH(pass_float)(gas, duct, doors, scratch, contents, passed);
}

}  // namespace portwright::flow
#endif
