#include "flow/losses.hpp"

#include <algorithm>
#include <array>

namespace portwright::flow {

namespace {

struct Row {
  double at, value;
};

template <std::size_t N>
double between_rows(const std::array<Row, N>& rows, double at) {
  if (at <= rows.front().at) return rows.front().value;
  for (std::size_t i = 1; i < N; ++i)
    if (at <= rows[i].at) {
      const double t = (at - rows[i - 1].at) / (rows[i].at - rows[i - 1].at);
      return rows[i - 1].value + t * (rows[i].value - rows[i - 1].value);
    }
  return rows.back().value;
}

constexpr std::array<Row, 11> entrance{{{0.00, 0.50},
                                        {0.01, 0.44},
                                        {0.02, 0.37},
                                        {0.03, 0.31},
                                        {0.04, 0.26},
                                        {0.05, 0.22},
                                        {0.06, 0.20},
                                        {0.08, 0.15},
                                        {0.12, 0.09},
                                        {0.16, 0.06},
                                        {0.20, 0.03}}};
}  // namespace

double loss_entrance(double radius_over_bore) { return between_rows(entrance, radius_over_bore); }

double loss_mouth(double whole, double open, double discharge) {
  const double over = std::max(0.0, whole / (discharge * open) - 1.0);
  return over * over;
}

}  // namespace portwright::flow
