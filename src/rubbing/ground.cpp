#include "rubbing/ground.hpp"

#include <Eigen/Dense>
#include <algorithm>

namespace portwright::rubbing {
namespace {

constexpr int patch = 20;  // cells along a side of one patch: 5 mm

// The bright level of each patch: what four fifths of it do not pass.
struct Patch {
  double x = 0.0, y = 0.0, light = 0.0;  // -1..1, -1..1, its logarithm
};

std::vector<Patch> patches_of(const Ground& ground) {
  std::vector<Patch> out;
  std::vector<float> levels;
  for (int top = 0; top + patch <= ground.size; top += patch)
    for (int left = 0; left + patch <= ground.size; left += patch) {
      levels.clear();
      for (int y = top; y < top + patch; y += 2)
        for (int x = left; x < left + patch; x += 2) levels.push_back(ground.at(x, y));
      const auto bright = levels.begin() + static_cast<std::ptrdiff_t>(levels.size() * 4 / 5);
      std::nth_element(levels.begin(), bright, levels.end());
      out.push_back({2.0 * (left + patch / 2) / ground.size - 1.0, 2.0 * (top + patch / 2) / ground.size - 1.0,
                     std::log(std::max(1e-3, static_cast<double>(*bright)))});
    }
  return out;
}

using Six = Eigen::Matrix<double, 6, 1>;
Six terms(double x, double y) { return Six(1.0, x, y, x * x, x * y, y * y); }

// A smooth surface through the bright patches: those that lie under it are shape or pencil, and are let go.
Six paper_of(const std::vector<Patch>& patches) {
  Six surface = Six::Zero();
  for (int round = 0; round < 6; ++round) {
    Eigen::Matrix<double, 6, 6> normal = 1e-6 * Eigen::Matrix<double, 6, 6>::Identity();
    Six right = Six::Zero();
    for (const Patch& p : patches) {
      const Six t = terms(p.x, p.y);
      const double under = round == 0 ? 0.0 : t.dot(surface) - p.light;
      const double weight = under > 0.12 ? 0.001 : 1.0;
      normal += weight * t * t.transpose();
      right += weight * p.light * t;
    }
    surface = normal.ldlt().solve(right);
  }
  return surface;
}

}  // namespace

std::size_t Ground::cell_at(Point sheet) const {
  const auto place = [this](double mm) {
    return static_cast<int>(std::clamp((mm - cell_rim) / cell, 0.0, static_cast<double>(size - 1)));
  };
  return index(place(sheet.x), place(sheet.y));
}

Ground ground_of(const Light& light, const Camera& camera) {
  Ground out;
  out.size = static_cast<int>((square_side - 2.0 * cell_rim) / cell);
  out.level.resize(static_cast<std::size_t>(out.size) * static_cast<std::size_t>(out.size));
  for (std::size_t i = 0; i < out.level.size(); ++i) {
    const Point p = out.middle(i);
    double sum = 0.0;
    for (const double dx : {-0.25 * cell, 0.25 * cell})
      for (const double dy : {-0.25 * cell, 0.25 * cell}) sum += light.at(camera.to_picture({p.x + dx, p.y + dy}));
    out.level[i] = static_cast<float>(0.25 * sum);
  }
  const Six paper = paper_of(patches_of(out));
  for (int y = 0; y < out.size; ++y)
    for (int x = 0; x < out.size; ++x) {
      const double bare = terms(2.0 * x / out.size - 1.0, 2.0 * y / out.size - 1.0).dot(paper);
      out.level[out.index(x, y)] *= static_cast<float>(std::exp(-bare));
    }
  return out;
}

}  // namespace portwright::rubbing
