#pragma once
// From an Engine to its network.

#include <span>
#include <string>

#include "base/error.hpp"
#include "cycle/network.hpp"
#include "geometry/engine.hpp"

namespace portwright::cycle {

/// How finely the ducts of 60 cm3 are cut; cells grow with displacement to the 1/3, so that similar engines have
/// similar grids. Cold gas is slow, so its cells are shorter for the same time step.
struct Fineness {
  double tract = 0.008;     ///< [m]
  double transfer = 0.010;  ///< [m]
  double hot = 0.014;       ///< exhaust and pipe [m]
};

/// The network of an engine at its readings, with assumptions for whatever was not read (listed in `filled`).
/// What a simulation cannot do without is named, all of it at once: bore, stroke, exhaust and one transfer (opens,
/// floor, width), chamber, the intake's kind with its window or reed, venturi. So are a shut muffler, a port that
/// never opens, an air-head saw: a sentence each.
/// @param readings  path of each reading that an Engine's numbers may wait for, by number (Survey::needs)
[[nodiscard]] base::Result<Network> build(const geometry::Engine& engine, const Assumptions& assumptions,
                                          std::span<const std::string> readings, const Fineness& fineness = {},
                                          base::Errors* all = nullptr);

/// The advance at a speed [rev/s]: of the curve where there is one, flat beyond its ends [rad].
[[nodiscard]] double advance_at(const Network& network, double speed);

}  // namespace portwright::cycle
