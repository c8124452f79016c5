#include "study/rules_of_thumb.hpp"

#include <algorithm>
#include <cmath>

namespace portwright::study {

namespace {

constexpr double litres = 1e3, rpm = 60.0, mm = 1e3, bar = 1e5;

double root(double displacement, double speed) { return std::sqrt(displacement * litres * speed * rpm); }

}  // namespace

double carburettor_factor(double bore, double displacement, double speed) {
  return bore * mm / root(displacement, speed);
}

double carburettor_bore(double factor, double displacement, double speed) {
  return factor * root(displacement, speed) / mm;
}

double intake_time_area_for(double mean_pressure) { return (mean_pressure / bar + 1.528) / 774.0; }

double mean_pressure_of_intake(double specific_time_area) {
  return std::max(0.0, 774.0 * specific_time_area - 1.528) * bar;
}

}  // namespace portwright::study
