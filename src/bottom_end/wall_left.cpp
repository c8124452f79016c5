#include "bottom_end/wall_left.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace portwright::bottom_end {

namespace {

constexpr int levels = 240;

/// Wall summed up from the top of its travel, so that any stretch of it is a difference.
struct Summed {
  double top = 0.0, step = 1.0;
  std::vector<double> sum;  ///< [m] of full wall above level top + i step

  [[nodiscard]] double above(double y) const {
    const double at = std::clamp((y - top) / step, 0.0, static_cast<double>(levels));
    const auto i = std::min(static_cast<std::size_t>(at), sum.size() - 2);
    return sum[i] + (at - static_cast<double>(i)) * (sum[i + 1] - sum[i]);
  }
};

Summed summed(const geometry::WindowMap& map, double direction, double top, double bottom) {
  Summed out{top, (bottom - top) / levels, {0.0}};
  for (int i = 0; i < levels; ++i) {
    const double middle = top + (i + 0.5) * out.step;
    out.sum.push_back(out.sum.back() + out.step * geometry::pressed_share_at(map, direction, middle));
  }
  return out;
}

}  // namespace

std::vector<double> wall_left(const geometry::WindowMap& map, double direction, const Skirt& skirt,
                              const TurnGrid& grid) {
  double lowest = 0.0;
  for (const TurnGrid::Node& node : grid.nodes) lowest = std::max(lowest, node.drop);
  const Summed wall = summed(map, direction, skirt.top, skirt.bottom + lowest);
  std::vector<double> out;
  out.reserve(grid.nodes.size());
  for (const TurnGrid::Node& node : grid.nodes) {
    const double left = wall.above(skirt.bottom + node.drop) - wall.above(skirt.top + node.drop);
    out.push_back(std::clamp(left / skirt.length(), 0.0, 1.0));
  }
  return out;
}

double wall_pressure(double thrust, double share, const Skirt& skirt, double bore) {
  const double force = std::abs(thrust);
  if (!(force > 0.0)) return 0.0;
  const double area = bore * std::numbers::sqrt2 / 2.0 * skirt.length() * share;
  return area > 0.0 ? force / area : std::numeric_limits<double>::infinity();
}

}  // namespace portwright::bottom_end
