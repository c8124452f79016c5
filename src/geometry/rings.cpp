#include "geometry/rings.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace portwright::geometry {

double ring_tension(const RingSpring& ring) {
  const double outer = 0.5 * ring.bore, mean = outer - 0.5 * ring.radial;
  return ring.modulus * ring.closing * std::pow(ring.radial, 3) / (36.0 * std::numbers::pi * outer * std::pow(mean, 3));
}

double ring_bow(double span, double pressure, double modulus, double radial) {
  return pressure * std::pow(span, 4) / (32.0 * modulus * std::pow(radial, 3));
}

double flutter_acceleration(double height) {
  struct Row {
    double inch, feet;
  };
  constexpr std::array<Row, 5> rows{{{0.039, 138e3}, {0.047, 106e3}, {0.063, 80e3}, {0.094, 53e3}, {0.125, 40e3}}};
  constexpr double foot = 0.3048, inch = 0.0254;
  const double h = std::clamp(height / inch, rows.front().inch, rows.back().inch);
  std::size_t k = 1;
  while (k + 1 < rows.size() && rows[k].inch < h) ++k;
  const Row &a = rows[k - 1], &b = rows[k];
  return foot * (a.feet + (b.feet - a.feet) * (h - a.inch) / (b.inch - a.inch));
}

}  // namespace portwright::geometry
