#pragma once
// Values of slots, and the part of resolve() that fills Breathing. Inside the module only.

#include <algorithm>
#include <span>

#include "geometry/survey.hpp"

namespace portwright::geometry {

inline double value_of(const Survey& survey, std::span<const double> values, int input) {
  const Input& i = survey.inputs[static_cast<std::size_t>(input)];
  return std::clamp(values[static_cast<std::size_t>(input)], i.least, i.greatest);
}

inline Known known_of(const Survey& survey, std::span<const double> values, const Slot& slot) {
  if (slot.input >= 0) return value_of(survey, values, slot.input);
  return slot.need >= 0 ? Known::waits_for(slot.need) : Known(slot.constant);
}

/// Fills `out`; no allocation, no text.
void resolve_breathing(const Survey& survey, std::span<const double> values, Breathing& out);

}  // namespace portwright::geometry
