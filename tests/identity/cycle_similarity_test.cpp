// Two engines of one shape and two sizes: with everything switched off that knows a size, they are one engine at equal
// rpm times stroke.
//
// What knows a size, beside wall friction, wall heat, mechanical losses (not in imep) and the burn's exponent of speed:
//   air box [m³] where none was read         scaled by k³ here
//   filter [Pa at 20 l/s]                    flow grows as k², so the same loss of pressure is read as k⁻⁴ here
//   areas read in m²                         scaled by k² here
// All else is a share, an angle, or grows with displacement to the 1/3 by itself: carburettor and tract lengths, end
// corrections in radii, cells of the grid, film areas. The table of the window under the skirt has a step of 0.1 mm in
// either size, and knock's time is a time, but nothing of the turn hangs on it.
#include <gtest/gtest.h>

#include <cmath>

#include "cycle/curve.hpp"
#include "unit/support/sample_engines.hpp"

namespace portwright::cycle {
namespace {

using base::Known;

void grow(Known& value, double factor) { value = value * Known(factor); }

void grow(geometry::Port& port, double k) {
  for (Known* length : {&port.roof, &port.floor, &port.passed, &port.width, &port.corner_roof, &port.corner_floor,
                        &port.roof_arch, &port.bridge, &port.bridge_at, &port.duct_length, &port.passage.length})
    grow(*length, k);
  for (Known* area : {&port.duct_outlet, &port.passage.foot, &port.passage.gasket, &port.passage.mouth})
    grow(*area, k * k);
}

/// The same engine k times as large.
geometry::Engine similar(const geometry::Engine& engine, double k) {
  geometry::Engine out = engine;
  geometry::Breathing& b = out.breathing;
  for (Known* length : {&out.bore, &out.stroke, &out.rod, &out.pin_offset, &out.crown_at_tdc, &out.venturi,
                        &out.piston.skirt_exhaust, &out.piston.skirt_intake, &out.piston.skirt_side,
                        &out.piston.skirt_exhaust_width, &b.tract_length, &b.tract_bore, &b.throttle})
    grow(*length, k);
  grow(out.muffler_outlets, k * k);
  for (Known& baffle : b.baffles) grow(baffle, k * k);
  for (Known* volume : {&out.chamber, &out.case_at_tdc, &b.air_box_volume}) grow(*volume, k * k * k);
  for (Known& box : b.boxes) grow(box, k * k * k);
  grow(b.filter_loss, std::pow(k, -4.0));
  geometry::rebuild_slider(out);
  for (geometry::Port& port : out.ports) {
    grow(port, k);
    EXPECT_EQ(geometry::rebuild_window(port, out.bore), geometry::ShapeFault::none);
  }
  return out;
}

Assumptions without_size(double k) {
  Assumptions take = middle_assumptions();
  take.friction_factor = take.woschni_factor = take.case_film = take.muffler_film = 0.0;
  take.friction_pressure = take.friction_speed = take.fan_pressure = take.burn_speed_exponent = 0.0;
  take.air_box *= k * k * k;
  take.filter_loss *= std::pow(k, -4.0);
  return take;
}

Point point_at(const bench::SampleEngine& sample, double k, double speed) {
  const auto net = build(similar(sample.engine, k), without_size(k), sample.survey.needs);
  if (!net) throw std::runtime_error(net.error().message);
  CurvePlan plan;
  plan.speeds = {speed / k};
  plan.both_ways = false;
  return run_curve(*net, plan).points.at(0);
}

TEST(similar_engines, give_one_imep_at_equal_rpm_times_stroke) {
  const bench::SampleEngine sample = bench::sample_engine("alder-60");
  const Point one = point_at(sample, 1.0, 150.0);
  EXPECT_GT(one.imep, 2e5);
  for (const double k : {0.8, 1.25}) {
    SCOPED_TRACE(k);
    const Point other = point_at(sample, k, 150.0);
    RecordProperty("imep apart at " + std::to_string(k), std::to_string(other.imep / one.imep - 1.0));
    EXPECT_NEAR(other.imep / one.imep, 1.0, 0.005);
    EXPECT_NEAR(other.delivery_ratio / one.delivery_ratio, 1.0, 0.005);
    EXPECT_NEAR(other.trapping / one.trapping, 1.0, 0.005);
    EXPECT_NEAR(other.peak_pressure / one.peak_pressure, 1.0, 0.005);
  }
}

TEST(similar_engines, differ_when_size_is_switched_on) {
  const bench::SampleEngine sample = bench::sample_engine("alder-60");
  const auto imep = [&](double k) {
    Assumptions take = without_size(k);
    take.woschni_factor = middle_assumptions().woschni_factor;
    const auto net = build(similar(sample.engine, k), take, sample.survey.needs);
    CurvePlan plan;
    plan.speeds = {150.0 / k};
    plan.both_ways = false;
    return run_curve(*net, plan).points.at(0).imep;
  };
  EXPECT_GT(imep(1.25), imep(0.8) * 1.002) << "a larger cylinder loses less of its heat";
}

}  // namespace
}  // namespace portwright::cycle
