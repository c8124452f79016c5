#pragma once
// The air's way through one turn as widths: from the day through tract, case and every transfer passage to what is
// trapped, what goes straight through, and the exhaust.

#include <optional>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "draw/canvas.hpp"
#include "draw/svg.hpp"

namespace portwright::sheet {

/// What goes through one way in a turn, all windows of its name together.
struct AirStream {
  std::string name;  ///< port's name, or "tract"
  int count = 1;     ///< windows under this name
  double forward_mg = 0.0;
  double back_mg = 0.0;
  std::string loss;  ///< what costs most in it: "gasket"; empty: nothing is known
  double loss_mbar = 0.0;
};

struct AirwaySide {
  std::vector<AirStream> intake, transfers, exhaust;
  double trapped_mg = 0.0, straight_mg = 0.0;  ///< fresh charge: stays when the exhaust shuts; left before
};

struct AirwayInput {
  std::string saw, state, plan;  ///< as sheet::Labels; plan is empty without cuts
  double rpm = 0.0;
  AirwaySide now;
  std::optional<AirwaySide> stock;  ///< with cuts only
};

/// One page 110 mm wide. Errors: not_found where no air moves.
[[nodiscard]] base::Result<draw::Canvas> draw_airway(const AirwayInput& input);

/// The same as SVG text; without a theme on paper.
[[nodiscard]] base::Result<std::string> airway_svg(const AirwayInput& input, draw::SvgOptions options = {});

/// The picture's sentence, from the numbers it is drawn with.
[[nodiscard]] std::string airway_sentence(const AirwayInput& input);

}  // namespace portwright::sheet
