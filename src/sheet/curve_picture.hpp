#pragma once
// Torque and power over speed as one picture: stock grey behind, the what-if before it, and what may be told.

#include <optional>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "draw/canvas.hpp"
#include "draw/svg.hpp"

namespace portwright::sheet {

/// One speed.
struct CurvePoint {
  double rpm = 0.0;
  double power_kw = 0.0, torque_nm = 0.0;
  std::string settled = "stable";  ///< any other word is marked at the point, and written there
};

/// Where a value lies at one speed over the assumptions; 95 %.
struct CurveBand {
  double rpm = 0.0, low = 0.0, high = 0.0;
};

struct CurveSide {
  std::vector<CurvePoint> points;  ///< by speed, ascending
  std::vector<CurveBand> power_kw, torque_nm;
};

/// Change in power from stock at one speed, member by member over the assumptions.
struct CurveChange {
  double rpm = 0.0, mean_kw = 0.0, low_kw = 0.0, high_kw = 0.0;
  [[nodiscard]] bool told_apart() const { return low_kw > 0.0 || high_kw < 0.0; }
};

struct CurveInput {
  std::string saw, state, plan;  ///< as sheet::Labels; plan is empty without cuts
  CurveSide now;
  std::optional<CurveSide> stock;    ///< with cuts only
  std::vector<CurveChange> changes;  ///< with cuts only
  double rated_rpm = 0.0;            ///< 0: none is marked
  bool anchored = false;             ///< the assumptions were weighed by what the saw is known to give
};

/// One page 110 mm wide. Errors: not_found where there is no point to draw.
[[nodiscard]] base::Result<draw::Canvas> draw_curve(const CurveInput& input);

/// The same as SVG text; without a theme on paper.
[[nodiscard]] base::Result<std::string> curve_svg(const CurveInput& input, draw::SvgOptions options = {});

/// The picture's sentence, from the numbers it is drawn with.
[[nodiscard]] std::string curve_sentence(const CurveInput& input);

}  // namespace portwright::sheet
