#include "geometry/passage.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace portwright::geometry {

namespace {

double squared(double x) { return x * x; }

/// Loss of the change from one area to the next, of the dynamic pressure in `window`.
double step_loss(double from, double to, double window) {
  const double loss = from < to ? widening_loss(from, to) : narrowing_loss(from, to);
  return loss * squared(window / std::min(from, to));
}

}  // namespace

double widening_loss(double smaller, double greater) { return squared(1.0 - smaller / greater); }

double narrowing_loss(double greater, double smaller) { return 0.5 * (1.0 - smaller / greater); }

double bend_loss(double angle) {
  struct Row {
    double deg, loss;
  };
  constexpr std::array<Row, 11> rows{{{0, 0},
                                      {10, .025},
                                      {20, .055},
                                      {30, .1},
                                      {40, .2},
                                      {50, .35},
                                      {60, .5},
                                      {70, .7},
                                      {80, .9},
                                      {90, 1.1},
                                      {120, 1.5}}};
  const double deg = std::clamp(std::abs(angle) * 180.0 / std::numbers::pi, 0.0, rows.back().deg);
  std::size_t k = 1;
  while (k + 1 < rows.size() && rows[k].deg < deg) ++k;
  const Row &a = rows[k - 1], &b = rows[k];
  return a.loss + (b.loss - a.loss) * (deg - a.deg) / (b.deg - a.deg);
}

double passage_loss(const PassageAreas& areas, double bend) {
  constexpr double sharp_entry = 0.5;  // narrowing from a case that is wide against the mouth
  return sharp_entry * squared(areas.window / areas.mouth) + step_loss(areas.mouth, areas.gasket, areas.window) +
         step_loss(areas.gasket, areas.foot, areas.window) + bend_loss(bend) * squared(areas.window / areas.foot) +
         step_loss(areas.foot, areas.window, areas.window);
}

}  // namespace portwright::geometry
