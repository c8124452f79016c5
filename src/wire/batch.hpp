#pragma once
// Many points of many cases as lines of JSON, one a line both ways.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"

namespace portwright::wire {

/// One line in.
struct BatchCase {
  std::string file = {};
  std::string cuts = {};
  double rpm = 0.0;
  std::string id = {};
};

/// What one point comes to.
struct BatchPoint {
  double power_kw = 0.0, torque_nm = 0.0, imep_bar = 0.0;
  double delivery_ratio = 0.0, trapping = 0.0, charging = 0.0;
  double peak_pressure_bar = 0.0, exhaust_c = 0.0, knock = 0.0, heat_w = 0.0;
  std::string label;
  double error = 0.0;
  int turns = 0;
};

/// One line out: the point, or what is wrong.
struct BatchLine {
  int line = 0;
  BatchCase of;
  std::optional<BatchPoint> point;
  base::Errors errors;
};

/// Errors: no JSON, a key that is not asked for, one that is missing or of another kind.
[[nodiscard]] base::Result<BatchCase> read_batch_case(std::string_view text);
/// On one line, its end with it.
[[nodiscard]] std::string batch_line_text(const BatchLine& line);
/// The number of the input's line that a line out speaks of; none: it is no such line.
[[nodiscard]] std::optional<int> batch_line_number(std::string_view text);

struct Schema;
[[nodiscard]] std::vector<Schema> batch_schemas();

}  // namespace portwright::wire
