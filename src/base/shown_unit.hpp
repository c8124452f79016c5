#pragma once
// The unit in which a kind of quantity is shown: one table for figures, readings and assumptions.

#include "base/quantity.hpp"

namespace portwright::base {

/// As a figure unit of the contract; shown = SI value times per_si plus offset.
struct ShownUnit {
  const char* unit;
  double per_si;
  double offset = 0.0;

  [[nodiscard]] double of(double si) const { return si * per_si + offset; }
};
[[nodiscard]] ShownUnit shown_unit(Dimension dimension);

}  // namespace portwright::base
