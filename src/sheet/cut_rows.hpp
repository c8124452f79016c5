#pragma once
// A cut list as rows of a sheet: what, from what, where to stop and read, to what, and the wheel's angles there. Inside
// the module only.

#include <string>
#include <vector>

#include "sheet/labels.hpp"
#include "sheet/plan.hpp"

namespace portwright::sheet {

/// A cut stops short of its size by this much to be read [m], or by half of it where it is small. Own judgement: a
/// wheel or a caliper tells 0.1 mm, a grinder takes that in a touch.
inline constexpr double stop_short = 0.3e-3;
[[nodiscard]] double short_of(double amount);

struct CutRow {
  std::string what;  ///< "Exhaust roof higher"
  std::string now;   ///< by this cut's turn [mm, cm² ...]
  std::string stop;  ///< where to stop and read; "solder" where squish is what counts
  std::string then;
  std::string wheel_stop;  ///< "102.1° after"
  std::string wheel_end;
};

[[nodiscard]] std::vector<CutRow> cut_rows(const Plan& plan, const Labels& labels);

}  // namespace portwright::sheet
