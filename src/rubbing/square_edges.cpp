#include "rubbing/square_edges.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <optional>

namespace portwright::rubbing {
namespace {

constexpr double reach = 2.4;       // to both sides of the edge [mm]
constexpr double least_step = 0.1;  // of light between ring and paper, against the brightest of the side

// First place from the dark end where the light passes a level upward for good; in steps.
std::optional<double> passing(const std::vector<double>& levels, double level) {
  std::size_t last_below = levels.size();
  const std::size_t middle = levels.size() / 2;
  double nearest = 1e9;
  std::optional<double> out;
  for (std::size_t i = 0; i + 1 < levels.size(); ++i) {
    if (!(levels[i] < level && levels[i + 1] >= level)) continue;
    last_below = i;
    const double place = static_cast<double>(last_below) + (level - levels[i]) / (levels[i + 1] - levels[i]);
    if (const double off = std::abs(place - static_cast<double>(middle)); off < nearest) nearest = off, out = place;
  }
  return out;
}

// One place: from the ring toward the paper. None where the light does not rise as it does elsewhere.
std::optional<EdgePoint> edge_at(const Light& light, const Camera& camera, int side, double along, double inward) {
  const double into_paper = inward < 0.0 ? -reach : reach;
  const Point dark_end = camera.to_picture(on_side(side, along, inward - into_paper));
  const Point light_end = camera.to_picture(on_side(side, along, inward + into_paper));
  if (!light.holds(dark_end) || !light.holds(light_end)) return std::nullopt;
  const double pixels = length(light_end - dark_end);
  const auto count = static_cast<std::size_t>(std::clamp(2.0 * pixels, 16.0, 400.0)) | 1U;
  const std::vector<double> levels = profile(light, dark_end, light_end, count);
  const auto quarter = static_cast<std::ptrdiff_t>(count / 4);
  const double low = median_of({levels.begin(), levels.begin() + quarter});
  const double high = median_of({levels.end() - quarter, levels.end()});
  if (high < least_step || low > 0.6 * high) return std::nullopt;
  const auto half = passing(levels, low + 0.5 * (high - low));
  const auto third = passing(levels, low + 0.35 * (high - low)), two = passing(levels, low + 0.65 * (high - low));
  if (!half || !third || !two) return std::nullopt;
  const double step = 1.0 / static_cast<double>(count - 1);
  return EdgePoint{dark_end + (*half * step) * (light_end - dark_end), side, along,
                   0.5 * std::abs(*two - *third) * step * 2.0 * reach};
}

using Nine = std::array<double, 9>;

Camera camera_of(const Nine& p, int width, int height) {
  return Camera({Point{p[0], p[1]}, Point{p[2], p[3]}, Point{p[4], p[5]}, Point{p[6], p[7]}}, p[8], width, height);
}

Eigen::VectorXd residuals(const std::vector<EdgePoint>& places, const Camera& camera) {
  Eigen::VectorXd out(static_cast<Eigen::Index>(places.size()));
  for (std::size_t i = 0; i < places.size(); ++i) out[static_cast<Eigen::Index>(i)] = inward_of(camera, places[i]);
  return out;
}

// Huber's weights about the residuals' own spread.
Eigen::VectorXd weights_of(const Eigen::VectorXd& off) {
  std::vector<double> sizes(off.data(), off.data() + off.size());
  for (double& size : sizes) size = std::abs(size);
  const double usual = std::max(0.005, 1.5 * 1.4826 * median_of(sizes));
  return off.unaryExpr([usual](double r) { return std::abs(r) <= usual ? 1.0 : usual / std::abs(r); });
}

struct Fit {
  Nine p{};
  double squares = 0.0;  ///< weighted sum of squares [mm²]
};

// Gauss-Newton over the corners, and over the bend with `with_bend`.
Fit fit(const std::vector<EdgePoint>& places, Nine p, bool with_bend, int width, int height) {
  const Eigen::Index unknowns = with_bend ? 9 : 8;
  double squares = 0.0;
  for (int round = 0; round < 7; ++round) {
    const Eigen::VectorXd off = residuals(places, camera_of(p, width, height));
    const Eigen::VectorXd weight = weights_of(off);
    squares = weight.dot(off.cwiseAbs2());
    Eigen::MatrixXd slope(off.size(), unknowns);
    for (Eigen::Index k = 0; k < unknowns; ++k) {
      Nine moved = p;
      const double h = k == 8 ? 1e-4 : 0.05;
      moved[static_cast<std::size_t>(k)] += h;
      slope.col(k) = (residuals(places, camera_of(moved, width, height)) - off) / h;
    }
    const Eigen::MatrixXd weighed = weight.asDiagonal() * slope;
    const Eigen::VectorXd step = (slope.transpose() * weighed).ldlt().solve(-(weighed.transpose() * off));
    if (!step.allFinite()) break;
    for (Eigen::Index k = 0; k < unknowns; ++k) p[static_cast<std::size_t>(k)] += step[k];
    p[8] = std::clamp(p[8], -0.25, 0.25);
    if (step.head(8).cwiseAbs().maxCoeff() < 1e-4) break;
  }
  return {p, squares};
}

}  // namespace

Point on_side(int side, double along, double inward) {
  switch (side) {
    case 0:
      return {along, inward};
    case 1:
      return {square_side - inward, along};
    case 2:
      return {square_side - along, square_side - inward};
    default:
      return {inward, square_side - along};
  }
}

std::vector<EdgePoint> edge_points(const Light& light, const Camera& camera, double inward) {
  std::vector<EdgePoint> out;
  for (int side = 0; side < 4; ++side)
    for (int i = 0; i < places_a_side; ++i) {
      const double along = 3.0 + (square_side - 6.0) * (i + 0.5) / places_a_side;
      if (const auto place = edge_at(light, camera, side, along, inward)) out.push_back(*place);
    }
  return out;
}

double inward_of(const Camera& camera, const EdgePoint& place) {
  const Point at = camera.to_sheet(place.pixel);
  switch (place.side) {
    case 0:
      return at.y;
    case 1:
      return square_side - at.x;
    case 2:
      return square_side - at.y;
    default:
      return at.x;
  }
}

Camera fitted_camera(const std::vector<EdgePoint>& places, const Camera& start, int width, int height) {
  Nine p{};
  for (std::size_t i = 0; i < 4; ++i) p[2 * i] = start.corners()[i].x, p[2 * i + 1] = start.corners()[i].y;
  const Fit plain = fit(places, p, false, width, height);
  Nine bent = plain.p;
  bent[8] = start.bend();
  const Fit lens = fit(places, bent, true, width, height);
  // Neighbours share their noise: a quarter of the places count. 7 is what chance reaches once in a hundred times.
  const double freedom = std::max(1.0, 0.25 * static_cast<double>(places.size()) - 9.0);
  const bool better = plain.squares - lens.squares > 7.0 * lens.squares / freedom;
  return camera_of(better ? lens.p : plain.p, width, height);
}

}  // namespace portwright::rubbing
