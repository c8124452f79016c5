#include "flow/profile.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace portwright::flow {

namespace {

/// A frustum between two areas [m²] over a length [m].
void add_cell(Grid& grid, double from, double to, double length, double count) {
  const double root = std::sqrt(from * to);
  const double bore_from = std::sqrt(from * 4.0 / std::numbers::pi), bore_to = std::sqrt(to * 4.0 / std::numbers::pi);
  const double slant = std::hypot(length, 0.5 * (bore_to - bore_from));
  const double wall = 0.5 * std::numbers::pi * (bore_from + bore_to) * slant;
  const double volume = (from + root + to) / 3.0 * length;
  grid.length.push_back(length);
  grid.volume.push_back(count * volume);
  grid.wall.push_back(count * wall);
  grid.bore.push_back(4.0 * volume / wall);
  grid.kinetic.push_back(volume / (length * root));
}

}  // namespace

Grid make_grid(std::span<const Station> stations, double cell, double count) {
  if (stations.size() < 2 || !(cell > 0.0)) throw std::logic_error("a duct needs two stations and a cell length");
  Grid grid;
  for (std::size_t s = 0; s + 1 < stations.size(); ++s) {
    const double length = stations[s + 1].place - stations[s].place;
    if (!(length >= 0.0) || !(stations[s].area > 0.0) || !(stations[s + 1].area > 0.0))
      throw std::logic_error("stations of a duct ascend and have areas");
    if (length == 0.0) continue;
    const double root = std::sqrt(stations[s].area), rise = std::sqrt(stations[s + 1].area) - root;
    const int n = std::max(1, static_cast<int>(std::lround(length / cell)));
    const auto area_at = [&](int i) {
      if (i == n) return stations[s + 1].area;
      const double side = root + rise * i / n;
      return side * side;
    };
    // A step: the face between two stretches is as wide as the narrower one.
    if (grid.area.empty())
      grid.area.push_back(count * stations[s].area);
    else
      grid.area.back() = std::min(grid.area.back(), count * stations[s].area);
    for (int i = 0; i < n; ++i) {
      add_cell(grid, area_at(i), area_at(i + 1), length / n, count);
      grid.area.push_back(count * area_at(i + 1));
    }
  }
  if (grid.cells() == 0) throw std::logic_error("a duct without length");
  return grid;
}

int cell_at(const Grid& grid, double place) {
  double from = 0.0;
  for (int i = 0; i < grid.cells(); ++i) {
    from += grid.length[static_cast<std::size_t>(i)];
    if (place < from) return i;
  }
  return grid.cells() - 1;
}

}  // namespace portwright::flow
