#pragma once
// A pinhole camera with a lens, uneven light, blur, noise and JPEG, for photos of a sheet whose every point is known.

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>
#include <string>
#include <vector>

#include "picture/picture.hpp"
#include "picture/read.hpp"

namespace portwright::testing_support {

struct Shot {
  int width = 1000, height = 1000;
  double focal = 0.75;              // of the longer side
  double distance = 145.0;          // from the middle of the square [mm]
  double tilt = 0.0;                // of the camera against the sheet's upright [deg]
  double tilt_toward = 0.0;         // direction on the sheet into which it leans [deg]
  double turn = 0.0;                // of the sheet in the picture [deg], clockwise
  double off_x = 0.0, off_y = 0.0;  // the picture's middle against the lens's: a cut photo [pixels]
  double k1 = 0.0, k2 = 0.0;        // of the lens, by half diagonals
  double uneven = 1.0;              // brightest light against dimmest
  double light_from = 0.0;          // [deg]
  double blur = 0.8;                // one sigma [pixels]
  double noise = 1.5;               // one sigma [levels of 255]
  int quality = 90;                 // of the JPEG; 0: none
  unsigned seed = 1;
};

// Where a pixel of the picture looks on the sheet; 0, 0 the middle of the square [mm].
class VirtualCamera {
 public:
  explicit VirtualCamera(const Shot& shot) : shot_(shot) {
    constexpr double deg = std::numbers::pi / 180.0;
    const double t = shot.turn * deg, a = shot.tilt * deg, d = shot.tilt_toward * deg;
    // sheet to camera: turned in its plane, then leaned about an axis in it
    const double ux = -std::sin(d), uy = std::cos(d), c = std::cos(a), s = std::sin(a);
    const double lean[3][3] = {{c + ux * ux * (1 - c), ux * uy * (1 - c), uy * s},
                               {ux * uy * (1 - c), c + uy * uy * (1 - c), -ux * s},
                               {-uy * s, ux * s, c}};
    const double turned[3][3] = {{std::cos(t), -std::sin(t), 0}, {std::sin(t), std::cos(t), 0}, {0, 0, 1}};
    for (int i = 0; i < 3; ++i)
      for (int j = 0; j < 3; ++j)
        for (int k = 0; k < 3; ++k) r_[i][j] += lean[i][k] * turned[k][j];
  }

  struct Place {
    double x = 0.0, y = 0.0;
  };

  /// Where a ray through a pixel meets the sheet, `lift` above it [mm].
  [[nodiscard]] Place seen(double px, double py, double lift = 0.0) const {
    const double f = shot_.focal * std::max(shot_.width, shot_.height);
    const double half = 0.5 * std::hypot(shot_.width, shot_.height);
    const double dx = px - 0.5 * shot_.width - shot_.off_x, dy = py - 0.5 * shot_.height - shot_.off_y;
    double x = dx, y = dy;
    for (int k = 0; k < 4; ++k) {
      const double r2 = (x * x + y * y) / (half * half), grow = 1.0 + shot_.k1 * r2 + shot_.k2 * r2 * r2;
      x = dx / grow, y = dy / grow;
    }
    // camera at the origin looking along +z; the sheet's upright toward the camera is -z of its own
    const double ray[3] = {x / f, y / f, 1.0};
    double a[3], b[3];  // ray and camera place in the sheet's own frame
    for (int j = 0; j < 3; ++j) {
      a[j] = r_[0][j] * ray[0] + r_[1][j] * ray[1] + r_[2][j] * ray[2];
      b[j] = -r_[2][j] * shot_.distance;
    }
    const double way = (-lift - b[2]) / a[2];
    return {b[0] + way * a[0], b[1] + way * a[1]};
  }

 private:
  Shot shot_;
  double r_[3][3] = {};
};

inline double srgb_of(double light) {
  const double v = std::clamp(light, 0.0, 1.0);
  return 255.0 * (v <= 0.0031308 ? 12.92 * v : 1.055 * std::pow(v, 1.0 / 2.4) - 0.055);
}

inline void blur(std::vector<float>& light, int width, int height, double sigma) {
  if (sigma <= 0.0) return;
  const int reach = static_cast<int>(std::ceil(3.0 * sigma));
  std::vector<float> kernel;
  float sum = 0.0F;
  for (int k = -reach; k <= reach; ++k) kernel.push_back(static_cast<float>(std::exp(-0.5 * k * k / (sigma * sigma))));
  for (const float k : kernel) sum += k;
  for (float& k : kernel) k /= sum;
  std::vector<float> row(light.size());
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x) {
      float v = 0.0F;
      for (int k = -reach; k <= reach; ++k)
        v += kernel[k + reach] * light[static_cast<std::size_t>(y) * width + std::clamp(x + k, 0, width - 1)];
      row[static_cast<std::size_t>(y) * width + x] = v;
    }
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x) {
      float v = 0.0F;
      for (int k = -reach; k <= reach; ++k)
        v += kernel[k + reach] * row[static_cast<std::size_t>(std::clamp(y + k, 0, height - 1)) * width + x];
      light[static_cast<std::size_t>(y) * width + x] = v;
    }
}

/// The photo. `scene(camera, px, py)`: the light that a point of the picture gets, 0..1, evenly lit.
template <class Scene>
picture::Grey photographed(const Shot& shot, Scene&& scene) {
  const VirtualCamera camera(shot);
  std::vector<float> light(static_cast<std::size_t>(shot.width) * shot.height);
  constexpr double deg = std::numbers::pi / 180.0;
  const double lx = std::cos(shot.light_from * deg), ly = std::sin(shot.light_from * deg);
  const double half = 0.5 * std::hypot(shot.width, shot.height);
  const auto at = [&](int x, int y) { return static_cast<std::size_t>(y) * shot.width + x; };
  for (int y = 0; y < shot.height; ++y)
    for (int x = 0; x < shot.width; ++x) light[at(x, y)] = static_cast<float>(scene(camera, x + 0.5, y + 0.5));
  // once more, and finely, where something changes
  const std::vector<float> rough = light;
  for (int y = 1; y + 1 < shot.height; ++y)
    for (int x = 1; x + 1 < shot.width; ++x) {
      const float here = rough[at(x, y)];
      float most = 0.0F;
      for (const int i : {-1, 0, 1})
        for (const int j : {-1, 0, 1}) most = std::max(most, std::abs(rough[at(x + i, y + j)] - here));
      if (most < 0.08F) continue;
      double sum = 0.0;
      for (const double ax : {0.125, 0.375, 0.625, 0.875})
        for (const double ay : {0.125, 0.375, 0.625, 0.875}) sum += scene(camera, x + ax, y + ay);
      light[at(x, y)] = static_cast<float>(sum / 16.0);
    }
  std::vector<float> by_column, by_row;
  for (int x = 0; x < shot.width; ++x)
    by_column.push_back(static_cast<float>(std::pow(shot.uneven, 0.5 * (x - 0.5 * shot.width) * lx / half - 0.5)));
  for (int y = 0; y < shot.height; ++y)
    by_row.push_back(static_cast<float>(std::pow(shot.uneven, 0.5 * (y - 0.5 * shot.height) * ly / half)));
  for (int y = 0; y < shot.height; ++y)
    for (int x = 0; x < shot.width; ++x) light[at(x, y)] *= by_column[x] * by_row[y];
  blur(light, shot.width, shot.height, shot.blur);
  std::mt19937 random(shot.seed);
  std::normal_distribution<double> noise(0.0, std::max(1e-9, shot.noise));
  std::vector<float> levels(4097), grain(4096);
  for (std::size_t i = 0; i < levels.size(); ++i)
    levels[i] = static_cast<float>(srgb_of(static_cast<double>(i) / 4096));
  for (float& g : grain) g = static_cast<float>(noise(random));
  picture::Picture out{shot.width, shot.height, std::vector<std::uint8_t>(light.size() * 3)};
  for (std::size_t i = 0; i < light.size(); ++i) {
    const float place = std::clamp(light[i], 0.0F, 0.9999F) * 4096.0F;
    const auto below = static_cast<std::size_t>(place);
    const float level = levels[below] + (place - static_cast<float>(below)) * (levels[below + 1] - levels[below]) +
                        grain[random() % grain.size()];
    for (std::size_t k = 0; k < 3; ++k)
      out.rgb[3 * i + k] = static_cast<std::uint8_t>(std::clamp(level + 0.5F, 0.0F, 255.0F));
  }
  if (shot.quality <= 0) return picture::grey_of(out);
  return picture::grey_of(*picture::read_picture(*picture::to_jpeg(out, shot.quality)));
}

}  // namespace portwright::testing_support
