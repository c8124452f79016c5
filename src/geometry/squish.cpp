#include "geometry/squish.hpp"

#include <cmath>
#include <numbers>

namespace portwright::geometry {

namespace {

using std::numbers::pi;

double disc(double diameter) { return 0.25 * pi * diameter * diameter; }

}  // namespace

double band_share(double bore, double band) {
  const double inner = bore - 2.0 * band;
  return 1.0 - (inner * inner) / (bore * bore);
}

double squish_velocity(const CrankSlider& crank, const SquishGap& gap, double angle, double crank_speed) {
  const double area = disc(gap.bore), inner = gap.bore - 2.0 * gap.band;
  const double band = area - disc(inner), drop = crank.drop(angle), height = gap.clearance + drop;
  const double volume = gap.chamber + area * drop;
  return -crank_speed * crank.velocity(angle) * band * (gap.chamber - area * gap.clearance) /
         (pi * inner * height * volume);
}

SquishPeak squish_peak(const CrankSlider& crank, const SquishGap& gap, double crank_speed) {
  const double area = disc(gap.bore), turn = 2.0 * pi;
  // Sign of the derivative of s' / (h V): positive near TDC, negative half way up.
  const auto slope = [&](double before) {
    const double angle = turn - before, drop = crank.drop(angle), height = gap.clearance + drop;
    const double volume = gap.chamber + area * drop, speed = crank.velocity(angle);
    return crank.acceleration(angle) * height * volume - speed * speed * (volume + area * height);
  };
  double low = 0.0, high = 0.5 * pi, f_low = slope(low), f_high = slope(high);
  int kept = 0;
  for (int step = 0; step < 60 && high - low > 1e-9; ++step) {  // the Illinois form of false position
    double x = high - f_high * (high - low) / (f_high - f_low);
    if (!(x > low && x < high)) x = 0.5 * (low + high);
    const double f = slope(x);
    if (std::abs(f) < 1e-14 * std::abs(slope(0.0))) return {squish_velocity(crank, gap, turn - x, crank_speed), x};
    if (f > 0.0) {
      low = x, f_low = f;
      if (kept == 1) f_high *= 0.5;
      kept = 1;
    } else {
      high = x, f_high = f;
      if (kept == -1) f_low *= 0.5;
      kept = -1;
    }
  }
  const double at = 0.5 * (low + high);
  return {squish_velocity(crank, gap, turn - at, crank_speed), at};
}

}  // namespace portwright::geometry
