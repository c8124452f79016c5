// What each cut moves, to the printed digits. Source: own arithmetic, exact, worked out on a 70 cm³ saw (bore 50,
// stroke 36, rod 65, intake 75 deg before TDC) apart from this program.

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "unit/cuts/bench_saw.hpp"

namespace portwright {
namespace {

struct Row {
  const char* cuts;
  double exhaust, transfer, blowdown, intake, cover, over_floors, squish, chamber, full, trapped;
};

constexpr Row table[] = {
    {"", 103.00, 121.00, 18.00, 75.00, 2.20, -0.20, 0.89, 8.90, 8.94, 6.40},
    {"base -0.5 mm", 104.76, 123.21, 18.45, 76.53, 1.70, 0.30, 0.39, 7.92, 9.93, 7.19},
    {"gasket out", 104.76, 123.21, 18.45, 76.53, 1.70, 0.30, 0.39, 7.92, 9.93, 7.19},
    {"band -0.5 mm", 103.00, 121.00, 18.00, 75.00, 2.20, -0.20, 1.39, 9.31, 8.59, 6.16},
    {"crown edge -0.5 mm wide 6 mm", 101.27, 118.86, 17.59, 75.00, 2.20, -0.70, 1.39, 9.31, 8.59, 6.05},
    {"base -1 mm; crown edge -1 mm wide 6 mm", 103.00, 121.00, 18.00, 78.07, 1.20, -0.20, 0.89, 7.77, 10.10, 7.18},
    {"base -1 mm; band -1 mm", 106.55, 125.51, 18.96, 78.07, 1.20, 0.80, 0.89, 7.77, 10.10, 7.44},
    {"roof exhaust +0.5 mm", 101.27, 121.00, 19.73, 75.00, 2.20, -0.20, 0.89, 8.90, 8.94, 6.29},
    {"base -0.5 mm; roof exhaust +0.5 mm", 103.00, 123.21, 20.21, 76.53, 1.70, 0.30, 0.39, 7.92, 9.93, 7.07},
};

void expect_printed(double value, double printed, const char* what, const char* cuts) {
  EXPECT_LE(std::abs(value - printed), 0.005 + 1e-9) << what << " of \"" << cuts << "\" is " << value;
}

void expect_row(const bench::Bench& bench, const geometry::Engine& e, const Row& row) {
  const auto& exhaust = bench.port(e, "exhaust");
  const auto& primary = bench.port(e, "primary");
  const double opens = *geometry::timing(e, exhaust).opens / bench::degree;
  const double transfer = *geometry::timing(e, primary).opens / bench::degree;
  const double area = std::numbers::pi * 25.0 * 25.0;
  const double chamber = *e.chamber * 1e6;
  const auto ratio = [&](double travel) { return (area * travel * 1e-3 + chamber) / chamber; };
  expect_printed(opens, row.exhaust, "exhaust", row.cuts);
  expect_printed(transfer, row.transfer, "transfer", row.cuts);
  expect_printed(transfer - opens, row.blowdown, "blowdown", row.cuts);
  expect_printed(*geometry::timing(e, bench.port(e, "intake")).opens / bench::degree, row.intake, "intake", row.cuts);
  expect_printed((*e.piston.skirt_exhaust - *exhaust.floor) * 1e3, row.cover, "skirt cover", row.cuts);
  expect_printed((*exhaust.floor - *e.stroke) * 1e3, row.over_floors, "crown over floors", row.cuts);
  expect_printed(*e.squish * 1e3, row.squish, "squish", row.cuts);
  expect_printed(chamber, row.chamber, "chamber", row.cuts);
  expect_printed(ratio(*e.stroke * 1e3), row.full, "full ratio", row.cuts);
  expect_printed(ratio(e.slider->drop(*geometry::timing(e, exhaust).closes) * 1e3), row.trapped, "trapped ratio",
                 row.cuts);
}

TEST(table_of_cuts, every_row_and_column_holds_to_its_printed_digits) {
  const bench::Bench bench;
  const bench::Bench thick(bench::with("base_gasket = \"0.45 mm\"", "base_gasket = \"0.5 mm\""));
  for (const Row& row : table) {
    if (std::string_view(row.cuts) == "gasket out")
      expect_row(thick, thick.after(row.cuts), row);
    else
      expect_row(bench, bench.after(row.cuts), row);
  }
}

}  // namespace
}  // namespace portwright
