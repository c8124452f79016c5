#include "rubbing/camera.hpp"

#include <algorithm>

namespace portwright::rubbing {
namespace {

using Rows = std::array<double, 9>;

Point through(const Rows& m, Point p) {
  const double w = m[6] * p.x + m[7] * p.y + m[8];
  return {(m[0] * p.x + m[1] * p.y + m[2]) / w, (m[3] * p.x + m[4] * p.y + m[5]) / w};
}

// The homography that takes the unit square's corners to these, in closed form.
Rows from_unit_square(const Corners& c) {
  const Point one = c[1] - c[2], two = c[3] - c[2], sum = c[0] - c[1] + c[2] - c[3];
  const double g = cross(sum, two) / cross(one, two), h = cross(one, sum) / cross(one, two);
  return {c[1].x - c[0].x + g * c[1].x,
          c[3].x - c[0].x + h * c[3].x,
          c[0].x,
          c[1].y - c[0].y + g * c[1].y,
          c[3].y - c[0].y + h * c[3].y,
          c[0].y,
          g,
          h,
          1.0};
}

// Up to a factor, which a homography does not feel.
Rows inverse(const Rows& m) {
  return {m[4] * m[8] - m[5] * m[7], m[2] * m[7] - m[1] * m[8], m[1] * m[5] - m[2] * m[4],
          m[5] * m[6] - m[3] * m[8], m[0] * m[8] - m[2] * m[6], m[2] * m[3] - m[0] * m[5],
          m[3] * m[7] - m[4] * m[6], m[1] * m[6] - m[0] * m[7], m[0] * m[4] - m[1] * m[3]};
}

}  // namespace

Camera::Camera(const Corners& corners, double bend, int width, int height)
    : corners_(corners),
      bend_(bend),
      middle_{0.5 * width, 0.5 * height},
      half_diagonal_(0.5 * std::hypot(width, height)),
      out_(from_unit_square(corners)),
      back_(inverse(out_)) {}

Point Camera::bent(Point ideal) const {
  const Point off = ideal - middle_;
  const double r = length(off) / half_diagonal_;
  return middle_ + (1.0 + bend_ * r * r) * off;
}

Point Camera::straightened(Point pixel) const {
  const Point off = pixel - middle_;
  Point ideal = off;
  for (int round = 0; round < 6 && bend_ != 0.0; ++round) {
    const double r = length(ideal) / half_diagonal_;
    ideal = (1.0 / (1.0 + bend_ * r * r)) * off;
  }
  return middle_ + ideal;
}

Point Camera::to_picture(Point sheet) const { return bent(through(out_, (1.0 / square_side) * sheet)); }

Point Camera::to_sheet(Point pixel) const { return square_side * through(back_, straightened(pixel)); }

Camera::Scale Camera::scale_at(Point sheet, double across, double down) const {
  constexpr double h = 0.5;
  const Point a = (1.0 / across) * (to_picture({sheet.x + h, sheet.y}) - to_picture({sheet.x - h, sheet.y}));
  const Point b = (1.0 / down) * (to_picture({sheet.x, sheet.y + h}) - to_picture({sheet.x, sheet.y - h}));
  // the two singular values of the matrix with the columns a and b
  const double sum = a.x * a.x + a.y * a.y + b.x * b.x + b.y * b.y, det = std::abs(cross(a, b));
  const double root = std::sqrt(std::max(0.0, sum * sum - 4.0 * det * det));
  return {std::sqrt(std::max(0.0, 0.5 * (sum - root))), std::sqrt(0.5 * (sum + root))};
}

double Camera::tilt(double across, double down) const {
  const Camera pinhole(corners_, 0.0, static_cast<int>(2 * middle_.x), static_cast<int>(2 * middle_.y));
  const Scale scale = pinhole.scale_at({0.5 * square_side, 0.5 * square_side}, across, down);
  return std::acos(std::clamp(scale.least / scale.most, 0.0, 1.0));
}

}  // namespace portwright::rubbing
