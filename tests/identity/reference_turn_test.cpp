// The scalar reference that faster code is held against (docs/performance.md): its first turn from cold on uniform
// cells of 5 mm, number by number. Who changes a number here has changed the reference: every ratio published against
// it is measured anew, and the reference gets its next number in that page.
#include <gtest/gtest.h>

#include <cmath>

#include "cycle/build.hpp"
#include "cycle/settle.hpp"
#include "unit/support/sample_engines.hpp"

namespace portwright::cycle {
namespace {

constexpr double cell = 0.005;   // [m]
constexpr double speed = 150.0;  // [rev/s]
/// Between compilers and mathematical libraries, after one turn.
constexpr double alike = 1e-9;

struct First {
  double work = 0.0, case_work = 0.0, mass = 0.0, energy = 0.0, fresh = 0.0, peak = 0.0;
  int steps = 0, cells = 0;
};

First first_turn() {
  const auto file = saw::read_saw_file(PORTWRIGHT_SOURCE_DIR "/tests/identity/reference.saw.toml");
  if (!file) throw std::runtime_error("no reference saw");
  const bench::SampleEngine sample = bench::engine_of(file->readings);
  const double size = cell / std::cbrt(*sample.engine.swept() / 60e-6);  // cells grow with the engine
  const Network net = bench::network_of(sample, middle_assumptions(), {size, size, size});
  March march(net, speed);
  State state = march.cold();
  Turn turn = march.empty_turn();
  march.turn(state, turn);
  First out{turn.work, turn.case_work, 0.0, 0.0, 0.0, turn.peak_pressure, turn.steps, 0};
  for (std::size_t d = 0; d < state.ducts.size(); ++d) {
    const flow::Totals held = flow::totals(state.ducts[d]);
    out.mass += held.mass, out.energy += held.energy, out.fresh += held.fresh;
    out.cells += net.ducts[d].grid.cells();
  }
  for (const flow::Volume& room : state.rooms)
    out.mass += room.mass, out.energy += room.energy, out.fresh += room.fresh;
  return out;
}

TEST(scalar_reference, is_the_one_that_was_frozen) {
  const First now = first_turn();
  EXPECT_EQ(now.cells, 70);
  EXPECT_EQ(now.steps, 1515);
  EXPECT_NEAR(now.work / 0x1.8f1385043b8a7p+4, 1.0, alike);
  EXPECT_NEAR(now.case_work / -0x1.9a387503807ddp-1, 1.0, alike);
  EXPECT_NEAR(now.peak / 0x1.234c2b81bf094p+21, 1.0, alike);
  EXPECT_NEAR(now.mass / 0x1.03b535753612p-10, 1.0, alike);
  EXPECT_NEAR(now.energy / 0x1.15059cf56804ep+8, 1.0, alike);
  EXPECT_NEAR(now.fresh / 0x1.af4c948f00052p-11, 1.0, alike);
}

}  // namespace
}  // namespace portwright::cycle
