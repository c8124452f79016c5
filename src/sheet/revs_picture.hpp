#pragma once
// The bottom end as one picture: the ladder of speeds, loads over the turn, side thrust and the wall that is left for
// it; stock grey behind.

#include <string>
#include <vector>

#include "base/error.hpp"
#include "draw/canvas.hpp"
#include "draw/svg.hpp"

namespace portwright::sheet {

/// One rung; speeds [rpm], 0 where there is none.
struct LadderRung {
  std::string name;
  bool hard = false;
  double free = 0.0, low = 0.0, high = 0.0, cut = 0.0, stock = 0.0;
};

/// One line over the turn, a value for each angle.
struct TurnLine {
  std::string name;
  draw::Role role = draw::Role::ink;
  draw::Dash dash = draw::Dash::solid;  ///< tells lines apart where colours do not
  std::vector<double> now, stock;       ///< stock is empty without cuts
};

struct RevsInput {
  std::string saw, state, plan;          ///< as sheet::Labels; plan is empty without cuts
  double free_rpm = 0.0, cut_rpm = 0.0;  ///< looked at; cut_rpm is 0 where the engine was not turned
  std::vector<LadderRung> rungs;         ///< those that have a speed, lowest first
  std::vector<double> angles;            ///< [deg ATDC], rising
  std::vector<TurnLine> loads, thrust;   ///< [N]
  std::vector<TurnLine> wall;            ///< [%]; empty where it is not known
  std::string sentence;
};

/// One page 110 mm wide. Errors: not_found with fewer than three angles or no rung.
[[nodiscard]] base::Result<draw::Canvas> draw_revs(const RevsInput& input);

/// The same as SVG text; without a theme on paper.
[[nodiscard]] base::Result<std::string> revs_svg(const RevsInput& input, draw::SvgOptions options = {});

}  // namespace portwright::sheet
