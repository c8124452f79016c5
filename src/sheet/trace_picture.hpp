#pragma once
// One turn of the crank as one picture: what stands open, pressures, flows; stock grey behind.

#include <string>
#include <vector>

#include "base/error.hpp"
#include "draw/canvas.hpp"
#include "draw/svg.hpp"

namespace portwright::sheet {

/// One instant of the turn.
struct TraceRow {
  double angle = 0.0;                                                  ///< [deg ATDC]; the turn may pass 360 on its way
  double cylinder = 0.0, crankcase = 0.0, exhaust = 0.0, tract = 0.0;  ///< pressures, absolute [bar]
  double intake = 0.0, transfers = 0.0, out = 0.0;  ///< into the case, into and out of the cylinder [mg/deg]
};

enum class TraceKind { exhaust, transfers, intake };

/// What stands open of one port or of all of a kind.
struct TraceWindow {
  std::string name;
  TraceKind kind = TraceKind::exhaust;
  std::vector<double> area;  ///< by instant [cm2]
};

struct TraceSide {
  std::vector<TraceRow> rows;
  std::vector<TraceWindow> windows;
};

struct TraceInput {
  std::string saw, state, plan;  ///< as sheet::Labels; plan is empty without cuts
  double rpm = 0.0;
  TraceSide now, stock;  ///< stock with cuts only
};

/// One page 110 mm wide. Errors: not_found with fewer than three instants.
[[nodiscard]] base::Result<draw::Canvas> draw_trace(const TraceInput& input);

/// The same as SVG text; without a theme on paper.
[[nodiscard]] base::Result<std::string> trace_svg(const TraceInput& input, draw::SvgOptions options = {});

/// The picture's sentence, from the numbers it is drawn with.
[[nodiscard]] std::string trace_sentence(const TraceInput& input);

}  // namespace portwright::sheet
