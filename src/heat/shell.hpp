#pragma once
// The unrolled wall cut into cells, angle by height, with every window a hole: geometry alone.

#include <vector>

#include "geometry/engine.hpp"
#include "heat/thermal_network.hpp"

namespace portwright::heat {

/// A cell at the rim of a window.
struct RimCell {
  int cell = 0;
  double share = 0.0;  ///< of the window's rim; they sum to 1 over a window
};

/// The rim of one placed window.
struct Rim {
  int entry = 0;  ///< in Engine::ports
  std::vector<RimCell> cells;
};

/// Cells are numbered row by row from the crown edge's TDC place down, in a row from angle 0 (the exhaust's centre)
/// clockwise seen from the plug: cell = row * around + column.
struct Shell {
  int around = 0, rows = 0;
  double radius = 0.0;              ///< of the bore [m]
  double height = 0.0;              ///< from the crown edge's TDC place to the base face [m]
  std::vector<double> metal;        ///< share of each cell that is no window [-]
  std::vector<double> side, below;  ///< share of the face toward the next column, the next row that is metal [-]
  std::vector<Rim> rims;

  [[nodiscard]] int cells() const { return around * rows; }
  [[nodiscard]] int cell(int row, int column) const { return row * around + (column % around + around) % around; }
  [[nodiscard]] double row_height() const { return height / rows; }
  [[nodiscard]] double column_angle() const { return 6.283185307179586 / around; }
  /// Middle of a column [rad], -π..π, and of a row [m below the crown edge's TDC place].
  [[nodiscard]] double angle(int column) const;
  [[nodiscard]] double drop(int row) const { return (row + 0.5) * row_height(); }
  /// Whether so little of a cell is left that it counts as window.
  [[nodiscard]] bool hole(int cell) const { return metal[static_cast<std::size_t>(cell)] < 0.03; }
};

/// A wall without windows. @param around, rows > 2
[[nodiscard]] Shell plain_shell(double radius, double height, int around, int rows);

/// Cuts the windows of an engine out of it; those that are not known are left out.
void cut_windows(Shell& shell, const geometry::Engine& engine);

/// What the wall is made of.
struct WallMetal {
  double conductivity = 0.0, thickness = 0.0;  ///< [W/m K], [m]
  double heat_capacity = 0.0;                  ///< of a volume [J/m³ K]
};

/// Lays the wall into a network: a node a cell in the middle of its thickness, conduction to its four neighbours
/// through what is metal of the faces between. Second order in the cells. Nodes by cell, -1 for holes.
[[nodiscard]] std::vector<int> lay(ThermalNetwork& network, const Shell& shell, const WallMetal& metal);

}  // namespace portwright::heat
