#pragma once
// The scalar reference that faster code is held against: uniform cells of 5 mm in every duct, from cold, plain turns to
// a stated true error. docs/performance.md describes it; tests/identity holds its numbers.

#include <cmath>
#include <vector>

#include "support/saws.hpp"

namespace portwright::bench {

inline constexpr double reference_cell = 0.005;      ///< [m]
inline constexpr double reference_tolerance = 5e-5;  ///< of the mean effective pressure [-]
inline constexpr int reference_most_turns = 400;

/// 5,000 to 10,500 rpm, every 500 [rev/s].
inline std::vector<double> reference_speeds() {
  std::vector<double> out;
  for (int i = 0; i < 12; ++i) out.push_back((5000.0 + 500.0 * i) / 60.0);
  return out;
}

/// Cells grow with the engine, so what they grow by is taken out.
inline cycle::Network reference_network(const Saw& saw) {
  const double cell = reference_cell / std::cbrt(*saw.engine.swept() / 60e-6);
  auto net = cycle::build(saw.engine, cycle::middle_assumptions(), saw.survey.needs, {cell, cell, cell});
  if (!net) std::exit(4);
  return *std::move(net);
}

/// What the turns come to [Pa]: net mean effective pressure to a fiftieth of the tolerance.
inline double reference_truth(const cycle::Network& net, double speed) {
  cycle::CurvePlan plan;
  plan.search = {reference_tolerance / 50.0, 400, 6, 3};
  cycle::State cold;
  return cycle::reach(net, speed, plan, cold).imep;
}

}  // namespace portwright::bench
