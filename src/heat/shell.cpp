#include "heat/shell.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/walls.hpp"

namespace portwright::heat {

namespace {

constexpr int levels_a_row = 8;  // at which a window's sides are read within a row

using geometry::PlacedWindow;

/// A stretch of a level that a window takes, from the exhaust's centre along the wall [m].
struct Stretch {
  double from, to;
};

/// What a window takes of a level: one stretch, or two beside a bridge.
geometry::Few<Stretch, 2> taken_at(const PlacedWindow& placed, double level) {
  geometry::Few<Stretch, 2> out;
  const auto extent = placed.window->extent(level, level);
  if (extent.empty()) return out;
  const double sign = placed.mirrored ? -1.0 : 1.0;
  const auto put = [&](double left, double right) {
    if (!(right > left)) return;
    const double a = placed.x + sign * left, b = placed.x + sign * right;
    out.add({std::min(a, b), std::max(a, b)});
  };
  if (!(placed.bridge > 0.0)) {
    put(extent.left, extent.right);
    return out;
  }
  const double bridge = sign * placed.bridge_x;  // in the window's own sense
  put(extent.left, std::min(extent.right, bridge - 0.5 * placed.bridge));
  put(std::max(extent.left, bridge + 0.5 * placed.bridge), extent.right);
  return out;
}

/// Tells every column how much of it a stretch covers, as a share of the column.
template <class Tell>
void over_columns(const Shell& shell, const Stretch& stretch, Tell&& tell) {
  const double width = shell.radius * shell.column_angle();
  const int first = static_cast<int>(std::floor(stretch.from / width));
  const int last = static_cast<int>(std::floor(stretch.to / width));
  for (int c = first; c <= last; ++c) {
    const double left = std::max(stretch.from, c * width), right = std::min(stretch.to, (c + 1) * width);
    if (right > left) tell(c, (right - left) / width);
  }
}

/// Tells every face between columns that lies within a stretch, by the column before it.
template <class Tell>
void over_faces(const Shell& shell, const Stretch& stretch, Tell&& tell) {
  const double width = shell.radius * shell.column_angle();
  for (int face = static_cast<int>(std::ceil(stretch.from / width)); face * width < stretch.to; ++face) tell(face - 1);
}

void take(double& left, double share) { left = std::max(0.0, left - share); }

/// Shares of the cells that this window alone takes.
std::vector<double> cut_window(Shell& shell, const PlacedWindow& placed) {
  std::vector<double> own(static_cast<std::size_t>(shell.cells()), 0.0);
  const double height = shell.row_height();
  for (int row = 0; row < shell.rows; ++row) {
    const double top = std::max(row * height, placed.window->roof());
    const double bottom = std::min((row + 1) * height, placed.window->floor());
    if (!(bottom > top)) continue;
    const double part = (bottom - top) / levels_a_row;
    for (int k = 0; k < levels_a_row; ++k)
      for (const Stretch& stretch : taken_at(placed, top + (k + 0.5) * part)) {
        over_columns(shell, stretch, [&](int column, double share) {
          own[static_cast<std::size_t>(shell.cell(row, column))] += share * part / height;
        });
        over_faces(shell, stretch, [&](int column) {
          take(shell.side[static_cast<std::size_t>(shell.cell(row, column))], part / height);
        });
      }
    const double level = (row + 1) * height;
    if (level < placed.window->floor())
      for (const Stretch& stretch : taken_at(placed, level))
        over_columns(shell, stretch, [&](int column, double share) {
          take(shell.below[static_cast<std::size_t>(shell.cell(row, column))], share);
        });
  }
  for (std::size_t i = 0; i < own.size(); ++i) take(shell.metal[i], own[i]);
  return own;
}

/// How much of a window's rim each cell holds: where what it leaves of a cell meets what it takes of the cell or of its
/// neighbours.
Rim rim_of(const Shell& shell, const std::vector<double>& own, int entry) {
  Rim out;
  out.entry = entry;
  const double across = shell.radius * shell.column_angle(), down = shell.row_height();
  const auto taken = [&](int row, int column) {
    return row < 0 || row >= shell.rows ? 0.0 : own[static_cast<std::size_t>(shell.cell(row, column))];
  };
  double sum = 0.0;
  for (int row = 0; row < shell.rows; ++row)
    for (int column = 0; column < shell.around; ++column) {
      const int cell = shell.cell(row, column);
      if (shell.hole(cell)) continue;
      const double beside = taken(row, column - 1) + taken(row, column + 1);
      const double above = taken(row - 1, column) + taken(row + 1, column);
      const double within = 2.0 * taken(row, column);
      const double left = shell.metal[static_cast<std::size_t>(cell)];
      const double length = left * (beside * down + above * across + within * std::min(down, across));
      if (!(length > 0.0)) continue;
      out.cells.push_back({cell, length});
      sum += length;
    }
  for (RimCell& one : out.cells) one.share /= sum;
  return out;
}

}  // namespace

double Shell::angle(int column) const {
  const double a = (column + 0.5) * column_angle();
  return a > std::numbers::pi ? a - 2.0 * std::numbers::pi : a;
}

Shell plain_shell(double radius, double height, int around, int rows) {
  Shell out;
  out.around = around;
  out.rows = rows;
  out.radius = radius;
  out.height = height;
  const auto n = static_cast<std::size_t>(out.cells());
  out.metal.assign(n, 1.0);
  out.side.assign(n, 1.0);
  out.below.assign(n, 1.0);
  return out;
}

void cut_windows(Shell& shell, const geometry::Engine& engine) {
  const geometry::WindowMap map = geometry::map_windows(engine);
  std::vector<std::vector<double>> own;
  for (const PlacedWindow& placed : map.windows) own.push_back(cut_window(shell, placed));
  for (std::size_t i = 0; i < own.size(); ++i) {
    Rim rim = rim_of(shell, own[i], map.windows[i].entry);
    if (!rim.cells.empty()) shell.rims.push_back(std::move(rim));
  }
}

std::vector<int> lay(ThermalNetwork& network, const Shell& shell, const WallMetal& metal) {
  std::vector<int> node(static_cast<std::size_t>(shell.cells()), -1);
  const double middle = shell.radius + 0.5 * metal.thickness;
  const double across = middle * shell.column_angle(), down = shell.row_height();
  for (std::size_t i = 0; i < node.size(); ++i)
    if (!shell.hole(static_cast<int>(i)))
      node[i] = network.add(metal.heat_capacity * metal.thickness * across * down * shell.metal[i]);
  const double sideways = metal.conductivity * metal.thickness * down / across;
  const double downward = metal.conductivity * metal.thickness * across / down;
  for (int row = 0; row < shell.rows; ++row)
    for (int column = 0; column < shell.around; ++column) {
      const auto here = static_cast<std::size_t>(shell.cell(row, column));
      if (node[here] < 0) continue;
      const int beside = node[static_cast<std::size_t>(shell.cell(row, column + 1))];
      if (beside >= 0) network.couple(node[here], beside, sideways * shell.side[here]);
      const int under = row + 1 < shell.rows ? node[static_cast<std::size_t>(shell.cell(row + 1, column))] : -1;
      if (under >= 0) network.couple(node[here], under, downward * shell.below[here]);
    }
  return node;
}

}  // namespace portwright::heat
