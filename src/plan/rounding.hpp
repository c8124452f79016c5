#pragma once
// Amounts that a hand can cut. Inside the module only.

#include <optional>

#include "plan/ways.hpp"

namespace portwright::plan {

/// The amounts as whole steps, each up or down, such that the goals are missed least. None when no such amounts hold
/// the bounds.
/// @param step [m], > 0
[[nodiscard]] std::optional<Amounts> rounded(const Task& task, const Amounts& amounts, double step);

/// What a miss of a figure is held against when misses of several are compared [mm, deg, cc, -, %]; own judgement.
[[nodiscard]] double usual_miss(const Goal& goal);

}  // namespace portwright::plan
