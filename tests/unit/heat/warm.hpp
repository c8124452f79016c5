#pragma once
// Loads of sample saws for tests of heat.

#include <algorithm>
#include <numbers>
#include <stdexcept>
#include <vector>

#include "heat/map.hpp"
#include "unit/support/sample_engines.hpp"

namespace portwright::heat {

inline constexpr double rad = std::numbers::pi / 180.0;
inline constexpr FinRow usual_fins{0.018, 0.006, 0.002};

/// Fins of one kind all round but for a gap [deg].
inline Cooling fins_but(double gap_from, double gap_to) {
  Cooling out;
  if (gap_to > gap_from)
    out.sectors.push_back({gap_to * rad, (gap_from + 360.0) * rad, usual_fins});
  else
    out.sectors.push_back({0.0, 2.0 * std::numbers::pi, usual_fins});
  return out;
}

/// One settled turn of an engine.
inline GasSide gas_of(const cycle::Network& network, double rpm = 9000.0) {
  cycle::CurvePlan plan;
  return gas_side(network, cycle::run_traced(network, rpm / 60.0, plan));
}

/// A sample whose turn is settled once for all tests, on long cells.
struct Sample {
  bench::SampleEngine engine = bench::sample_engine("alder-60");
  cycle::Network network = bench::network_of(engine, cycle::middle_assumptions(), bench::coarse);
  Body body = body_of(engine.engine);
  GasSide gas = gas_of(network);
};

/// The same after somebody has been at the engine.
template <class Change>
GasSide changed(Change&& change, double rpm = 9000.0, const char* name = "alder-60") {
  bench::SampleEngine engine = bench::sample_engine(name);
  change(engine.engine);
  return gas_of(bench::network_of(engine, cycle::middle_assumptions(), bench::coarse), rpm);
}
inline const Sample& alder() {
  static const Sample sample;
  return sample;
}

inline Map map_of(const Body& body, const GasSide& gas, const Cooling& cooling,
                  const Assumptions& take = middle_assumptions()) {
  auto map = steady({body, cooling, gas}, take);
  if (!map) throw std::runtime_error(map.error().message);
  return *std::move(map);
}

inline double greatest(const std::vector<double>& field) { return *std::max_element(field.begin(), field.end()); }

}  // namespace portwright::heat
