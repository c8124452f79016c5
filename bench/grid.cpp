// What the grid costs: bench_grid [saw file ..]. Net mean effective pressure of a repeating turn on the default cells
// and on cells 2, 4 and 8 times as short, every 500 rpm, with the observed order and the grid convergence index. Each
// grid starts from the turn that the coarser one found. Samples without words.
#include <cmath>

#include "support/saws.hpp"

namespace {

using namespace portwright;
using namespace portwright::bench;

constexpr int grids = 4;  // 1, 2, 4, 8 times as fine
constexpr double safety = 1.25;

struct Row {
  double rpm = 0.0;
  std::array<cycle::Point, grids> point;
};

bool stable(const Row& row) {
  return row.point.front().label == cycle::Label::stable && row.point.back().label == cycle::Label::stable;
}

/// The three finest give the order p = ln(|e32| / |e21|) / ln 2, kept within 0.5 and 2, and the index of the finest,
/// Fs |e21| / (2^p - 1). @source{roache1994}
double index_of(const Row& row, double& order) {
  const double f1 = row.point[3].imep, f2 = row.point[2].imep, f3 = row.point[1].imep;
  const double ratio = std::abs(f3 - f2) / std::max(1e-12, std::abs(f2 - f1));
  order = std::clamp(std::log2(ratio), 0.5, 2.0);
  return safety * std::abs(f2 - f1) / (std::exp2(order) - 1.0);
}

void table(const Saw& saw) {
  std::vector<cycle::Network> nets;
  for (int g = 0; g < grids; ++g) nets.push_back(network(saw, saw.engine, std::exp2(g)));
  const double peak = peak_rpm(nets.front());
  std::vector<Row> rows;
  for (const double rpm : ladder(500.0 * std::ceil(peak / 1000.0), 1.3 * peak, 500.0)) rows.push_back({rpm, {}});
  const cycle::CurvePlan plan;
  shared_out(rows.size(), [&](std::size_t i) {
    cycle::State state;
    for (std::size_t g = 0; g < grids; ++g) {
      if (g > 0) state = cycle::carried(nets[g - 1], state, nets[g]);
      rows[i].point[g] = cycle::reach(nets[g], rows[i].rpm / 60.0, plan, state);
    }
  });
  double greatest = 0.0, worst = 0.0;
  for (const Row& row : rows) greatest = std::max(greatest, row.point.back().imep);
  for (const Row& row : rows) {
    std::printf("| %s | %.0f |", saw.name.c_str(), row.rpm);
    for (const cycle::Point& p : row.point)
      std::printf(" %.4f%s |", p.imep / 1e5, p.label == cycle::Label::stable ? "" : "*");
    double order = 0.0;
    const double index = index_of(row, order);
    const double off = 100.0 * (row.point.front().imep - row.point.back().imep) / greatest;
    if (stable(row)) worst = std::max(worst, std::abs(off));
    std::printf(" %+.2f | %.1f | %.3f |\n", off, order, 100.0 * index / greatest);
  }
  std::printf("| %s | greatest where stable on both | | | | | %.2f | | |\n", saw.name.c_str(), worst);
  std::fflush(stdout);
}

}  // namespace

int main(int count, char** words) {
  std::vector<std::string> saws(words + 1, words + count);
  if (saws.empty()) saws = all_samples();
  std::printf(
      "| saw | rpm | default [bar] | 2x | 4x | 8x | default less finest, %% of the greatest | order | index %% |\n");
  for (const std::string& path : saws) table(load(path));
  return 0;
}
