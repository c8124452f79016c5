#pragma once
// The limits held against a case's figures. Inside the module only.

#include <functional>
#include <string>
#include <vector>

#include "study/case.hpp"
#include "study/finding.hpp"
#include "study/samples.hpp"
#include "tables/limits.hpp"

namespace portwright::study {

/// What is known of one figure when it is held against a limit: its value and its samples [SI], and its place.
struct Held {
  const Entry* entry = nullptr;
  double value = 0.0;
  const Column* samples = nullptr;
};

/// Share of the samples that may pass `stop` before a value that holds is called a caution [-].
inline constexpr double stop_chance = 0.05;

/// Whether a limit's condition is met by a figure of this saw.
[[nodiscard]] bool speaks_of(tables::When when, const Entry& entry, const geometry::Survey& survey);

/// A figure's number as a limit sees it, in the limit's unit, and what it is called.
struct HeldValue {
  std::string figure, label;
  double value = 0.0;
};

/// One limit held against one number, without a place.
/// @param chance  that the true value lies beyond a threshold [-]
[[nodiscard]] Finding hold_value(const tables::LimitRow& row, const HeldValue& held,
                                 const std::function<double(double threshold)>& chance, base::UnitStyle style);

/// Every limit that speaks of a figure with a value, worst first, in the limits' order within a state.
[[nodiscard]] std::vector<Finding> find(const geometry::Survey& survey, const geometry::Engine& engine,
                                        const Measures& measures, const std::vector<Held>& figures,
                                        base::UnitStyle style);

}  // namespace portwright::study
