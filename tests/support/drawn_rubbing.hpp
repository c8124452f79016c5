#pragma once
// A sheet with the printed square and a rubbing on it, every edge of it known in closed form. Made-up shapes.

#include <cmath>
#include <numbers>

#include "virtual_camera.hpp"

namespace portwright::testing_support {

/// A window with round corners [mm]; its middle is that of the square.
struct DrawnWindow {
  double width = 28.0, height = 14.0, corner = 4.0;
  double x = 0.0, y = 0.0;  // of its middle from the square's
  double turn = 0.0;        // [deg], clockwise
  [[nodiscard]] double area() const { return width * height - (4.0 - std::numbers::pi) * corner * corner; }
  /// Distance from its edge, inside negative.
  [[nodiscard]] double off(double px, double py) const {
    const double t = -turn * std::numbers::pi / 180.0;
    const double dx = px - x, dy = py - y;
    const double ax = std::abs(std::cos(t) * dx - std::sin(t) * dy) - 0.5 * width + corner;
    const double ay = std::abs(std::sin(t) * dx + std::cos(t) * dy) - 0.5 * height + corner;
    return std::hypot(std::max(ax, 0.0), std::max(ay, 0.0)) + std::min(std::max(ax, ay), 0.0) - corner;
  }
};

enum class Drawn { filled, line, ground };  // dark shape; pencil's line; rubbed grey all round, with a line

/// Cheap, repeatable unevenness, -1..1.
inline double ragged(double a, double b) {
  return (std::sin(1.7 * a + 0.6 * b) + std::sin(2.9 * b - 1.1 * a + 1.0) + std::sin(0.8 * a + 3.1 * b + 2.0)) / 3.0;
}

struct DrawnSheet {
  DrawnWindow window{};
  Drawn how = Drawn::filled;
  double line_width = 0.5;              // [mm]
  double line_off = 0.0;                // middle of the line outside the true edge [mm]
  double raggedness = 0.0;              // of both sides of the line [mm]
  double graphite = 0.3;                // light that the line sends back
  double rubbed = 0.65;                 // that the grey ground sends back
  double print_x = 1.0, print_y = 1.0;  // size of the print
  double lift = 0.0;                    // of the strip's middle above the sheet, a cylinder across [mm]
  double strip_half = 45.0;             // half of its length [mm]
  double open = 0.0;                    // gap in the line at its right side [mm]

  static constexpr double paper = 0.85, ink = 0.04;

  /// The sheet without the strip.
  [[nodiscard]] double printed(double x, double y) const {
    const double sx = std::abs(x / print_x), sy = std::abs(y / print_y), far = std::max(sx, sy);
    if (far > 60.0 && far < 65.0) return ink;
    const double tx = x / print_x + 73.0, ty = y / print_y + 61.0;  // triangle, its tip up
    if (ty > 0.0 && ty < 11.0 && std::abs(tx) < 0.5 * ty) return ink;
    return paper;
  }
  [[nodiscard]] double rubbed_at(double s, double y) const {
    const double off = window.off(s, y);
    if (how == Drawn::filled) return off < 0.0 ? 0.06 : paper;
    const double wave = raggedness * ragged(3.0 * s, 3.0 * y), wave_out = raggedness * ragged(3.0 * s + 7.0, 3.0 * y);
    const double from = line_off - 0.5 * line_width + wave, to = line_off + 0.5 * line_width + wave_out;
    const bool gap = open > 0.0 && s > window.x && std::abs(y - window.y) < 0.5 * open;
    if (off > from && off < to && !gap) return graphite;
    if (how == Drawn::ground && off > 0.0) return rubbed * (1.0 + 0.12 * ragged(11.0 * s, 13.0 * y)) * paper;
    return paper * (1.0 - 0.02 * (1.0 + ragged(0.3 * s, 0.4 * y)));
  }
  /// The light of the sheet where a ray meets it, the strip's cylinder before the sheet.
  [[nodiscard]] double seen(const VirtualCamera& camera, double px, double py) const {
    const auto flat = camera.seen(px, py);
    if (std::abs(flat.x) > 60.0 || std::abs(flat.y) > 60.0) return printed(flat.x, flat.y);
    auto on_strip = flat;
    double height = 0.0;
    for (int k = 0; lift > 0.0 && k < 3; ++k) {
      const double u = on_strip.x / strip_half;
      height = lift * std::max(0.0, 1.0 - u * u);
      on_strip = camera.seen(px, py, height);
    }
    if (std::abs(on_strip.x) > strip_half || std::abs(on_strip.y) > 20.0) return printed(flat.x, flat.y);
    const double l = strip_half, x = on_strip.x;
    const double s = x + 2.0 * lift * lift * x * x * x / (3.0 * l * l * l * l);  // along the paper
    return rubbed_at(s, on_strip.y);
  }
};

inline picture::Grey photo_of(const DrawnSheet& sheet, const Shot& shot) {
  return photographed(shot,
                      [&](const VirtualCamera& camera, double px, double py) { return sheet.seen(camera, px, py); });
}

}  // namespace portwright::testing_support
