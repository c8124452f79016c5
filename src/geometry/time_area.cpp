#include "geometry/time_area.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <ranges>

#include "numerics/quadrature.hpp"

namespace portwright::geometry {

namespace {

constexpr double turn = 2.0 * std::numbers::pi;

/// One window over one crank: what is open, and the angles at which its law changes.
class Opening {
 public:
  Opening(const CrankSlider& crank, const Window& window, OpenedBy by, double skirt)
      : crank_(crank), window_(window), by_crown_(by == OpenedBy::crown), reach_(by_crown_ ? 0.0 : skirt) {}

  [[nodiscard]] double area(double angle) const {
    const double level = crank_.drop(angle) + reach_;
    return by_crown_ ? window_.area_above(level) : window_.area_below(level);
  }

  /// ∫ A dθ over the part of one turn between from and to, 0 <= from <= to <= 2π.
  [[nodiscard]] double over(double from, double to) const {
    const auto levels = window_.levels();
    double sum = 0.0, at = from;
    const auto advance = [&](double kink) {
      const double next = std::clamp(kink, at, to);
      sum += between(at, next);
      at = next;
    };
    for (const double level : levels) advance(crank_.angle_down(level - reach_));
    for (const double level : std::views::reverse(levels)) advance(crank_.angle_up(level - reach_));
    advance(to);
    return sum;
  }

 private:
  // Beside a corner's highest or lowest point the area goes with the level to the power 3/2. With θ = a + (b - a) t² (3
  // - 2 t) the integrand is smooth in t at both ends, so that ten nodes give eight digits and better.
  [[nodiscard]] double between(double a, double b) const {
    if (!(b > a)) return 0.0;
    const double level = crank_.drop(0.5 * (a + b)) + reach_;
    if (level <= window_.roof()) return by_crown_ ? 0.0 : (b - a) * window_.area();
    if (level >= window_.floor()) return by_crown_ ? (b - a) * window_.area() : 0.0;
    const auto integrand = [&](double t) { return area(a + (b - a) * t * t * (3.0 - 2.0 * t)) * 6.0 * t * (1.0 - t); };
    return (b - a) * numerics::integrate<10>(integrand, 0.0, 1.0);
  }

  const CrankSlider& crank_;
  const Window& window_;
  bool by_crown_;
  double reach_;
};

}  // namespace

double open_area(const CrankSlider& crank, const Window& window, OpenedBy by, double skirt, double angle) {
  return Opening(crank, window, by, skirt).area(angle);
}

double angle_area(const CrankSlider& crank, const Window& window, OpenedBy by, double skirt, double from, double to) {
  if (window.empty()) return 0.0;
  const Opening opening(crank, window, by, skirt);
  double sum = 0.0;
  for (double start = turn * std::floor(from / turn); start < to; start += turn) {
    sum += opening.over(std::max(from - start, 0.0), std::min(to - start, turn));
  }
  return sum;
}

double angle_area(const CrankSlider& crank, const Window& window, OpenedBy by, double skirt) {
  if (window.empty()) return 0.0;
  const Opening opening(crank, window, by, skirt);
  if (crank.pin_offset() == 0.0) return 2.0 * opening.over(0.0, std::numbers::pi);
  return opening.over(0.0, turn);
}

}  // namespace portwright::geometry
