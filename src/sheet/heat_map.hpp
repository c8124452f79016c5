#pragma once
// The bore unrolled with lines of equal heat on it: by rank alone, or in degrees where a spot was read.

#include <optional>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "draw/canvas.hpp"
#include "draw/svg.hpp"
#include "geometry/engine.hpp"

namespace portwright::sheet {

/// An arc round the bore, clockwise seen from the plug [rad].
struct HeatArc {
  double from = 0.0, to = 0.0;
};

struct HeatMapInput {
  std::string saw, state, plan;  ///< as sheet::Labels; plan is empty without cuts
  double rpm = 0.0;
  const geometry::Engine* engine = nullptr;  ///< its windows; borrowed
  int around = 0, rows = 0;       ///< columns clockwise from the exhaust's centre, rows down from the TDC edge
  double height = 0.0;            ///< of all rows [m]
  std::vector<double> over_mean;  ///< row by row [K]
  std::vector<HeatArc> fins;
  std::string hottest;         ///< place that leads the ranking
  std::string hottest_range;   ///< "+40 K (+25 to +60)"
  std::optional<double> mean;  ///< of the bore's wall, where a spot was read [C]; none: the lines are ranks
};

/// A line of equal heat and what stands on it.
struct HeatLevel {
  double over_mean = 0.0;  ///< [K]
  std::string text;        ///< "200 °C"; "90 %": so much of the wall is cooler
  bool upper = false;      ///< above the middle of the wall
};
[[nodiscard]] std::vector<HeatLevel> heat_levels(const HeatMapInput& input);

/// One page 110 mm wide. Errors: not_found where there is no field to draw.
[[nodiscard]] base::Result<draw::Canvas> draw_heat_map(const HeatMapInput& input);

/// The same as SVG text; without a theme on paper.
[[nodiscard]] base::Result<std::string> heat_map_svg(const HeatMapInput& input, draw::SvgOptions options = {});

/// The picture's sentence, from the numbers it is drawn with.
[[nodiscard]] std::string heat_map_sentence(const HeatMapInput& input);

/// Lines of one level through a field on a grid, each as long as it goes. @source{memory, marching squares; a saddle is
/// parted by the mean of its corners}
/// @param x, y  of columns and rows [mm], ascending  @param field row by row
[[nodiscard]] std::vector<std::vector<draw::Point>> level_lines(const std::vector<double>& x,
                                                                const std::vector<double>& y,
                                                                const std::vector<double>& field, double level);

}  // namespace portwright::sheet
