// Whatever engine the box allows: it is refused with a sentence or turns, with figures that are numbers and a label.
#include <gtest/gtest.h>

#include "property/random_engines.hpp"

namespace portwright {
namespace {

TEST(random_engines, are_refused_with_a_sentence_or_turn_with_numbers_and_a_label) {
  bench::RandomEngines engines(1);
  cycle::Search search;
  search.most_turns = 6;  // whether they settle is not asked here
  search.plain_turns = 1;
  search.proof_turns = 2;
  int built = 0, refused = 0;
  for (int i = 0; i < 60; ++i) {
    const bench::Drawn drawn = engines.next();
    SCOPED_TRACE(drawn.sample + " draw " + std::to_string(i) + " at " + std::to_string(drawn.speed * 60.0));
    const bench::Outcome out = bench::turn_it(drawn, engines.needs(), search);
    if (!out.built) {
      ++refused;
      EXPECT_GT(out.refusal.size(), 15u);
      continue;
    }
    ++built;
    EXPECT_TRUE(out.finite);
    EXPECT_GE(static_cast<int>(out.point.label), 0);
    EXPECT_LE(static_cast<int>(out.point.label), static_cast<int>(cycle::Label::not_settled));
    EXPECT_LE(out.point.turns, search.most_turns + 2 * search.proof_turns);
    EXPECT_LT(std::abs(out.point.mass_residual), 1e-12);
    EXPECT_LT(std::abs(out.point.energy_residual), 1e-12);
    EXPECT_GT(out.point.peak_pressure, 2e4);
    EXPECT_GE(out.point.trapping, 0.0);
  }
  EXPECT_GT(built, 20);
  EXPECT_GT(refused, 3);
}

}  // namespace
}  // namespace portwright
