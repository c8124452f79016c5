#pragma once
// The limits held against a case's figures. Inside the module only.

#include <vector>

#include "study/case.hpp"
#include "study/finding.hpp"
#include "study/samples.hpp"

namespace portwright::study {

/// What is known of one figure when it is held against a limit: its value and its samples [SI], and its place.
struct Held {
  const Entry* entry = nullptr;
  double value = 0.0;
  const Column* samples = nullptr;
};

/// Share of the samples that may pass `stop` before a value that holds is called a caution [-].
inline constexpr double stop_chance = 0.05;

/// Every limit that speaks of a figure with a value, worst first, in the limits' order within a state.
[[nodiscard]] std::vector<Finding> find(const geometry::Survey& survey, const geometry::Engine& engine,
                                        const Measures& measures, const std::vector<Held>& figures,
                                        base::UnitStyle style);

}  // namespace portwright::study
