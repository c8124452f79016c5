#include "plan/guard.hpp"

#include <cmath>

#include "base/number_text.hpp"

namespace portwright::plan {
namespace {

constexpr double aimed_short = 0.2, near_enough = 0.5;  // of the half band; see docs/handbook/cut_sheet.md

double scatter(const Gauge& gauge, const Hand& hand, int repeats) {
  return std::sqrt(gauge.fixed * gauge.fixed + gauge.each * gauge.each / repeats + hand.fine * hand.fine);
}

std::string narrowest(const Gauge& gauge, const Hand& hand, const std::string& unit) {
  const double half = sigmas_in_band * scatter(gauge, hand, most_repeats);
  // Rounded up, so that the band that is named is one that will do.
  const double step = unit == "deg" ? 0.1 : 0.01;
  return gauge.name + " read " + std::to_string(most_repeats) + " times: \u00B1" +
         base::number_text(step * std::ceil(half / step), unit == "deg" ? 1 : 2) + " " + unit;
}

}  // namespace

base::Result<Guard> guard_of(const std::vector<Gauge>& gauges, const Hand& hand, double half, const std::string& what,
                             const std::string& unit) {
  for (const Gauge& gauge : gauges) {
    for (int repeats = 1; repeats <= most_repeats; ++repeats) {
      const double sigma = scatter(gauge, hand, repeats);
      if (half < sigmas_in_band * sigma) continue;
      const double first = std::sqrt(gauge.fixed * gauge.fixed + gauge.each * gauge.each + hand.coarse * hand.coarse);
      return Guard{gauge.name,         repeats,    sigma, half, sigmas_in_band * first, aimed_short * half,
                   near_enough * half, gauge.reads};
    }
  }
  base::Error error{base::ErrorCode::impossible, {}, "band", "Take a wider band, or a surer reading and hand.", {}};
  error.message = "A band of \u00B1" + base::number_text(half, unit == "deg" ? 1 : 2) + " " + unit + " for " + what +
                  " is narrower than reading and hand allow";
  for (const Gauge& gauge : gauges) error.readings.push_back(narrowest(gauge, hand, unit));
  return tl::unexpected(std::move(error));
}

}  // namespace portwright::plan
