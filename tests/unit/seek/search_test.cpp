#include "seek/search.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "seek/spread.hpp"

namespace {

using portwright::seek::best_of;
using portwright::seek::Design;
using portwright::seek::distance;
using portwright::seek::End;
using portwright::seek::Found;
using portwright::seek::front_of;
using portwright::seek::Judge;
using portwright::seek::Judged;
using portwright::seek::search;
using portwright::seek::SearchPlan;
using portwright::seek::Space;
using portwright::seek::Tried;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::Not;

/// A known function in six amounts, where its best lies, and how near that is to be found.
struct Known {
  const char* name;
  Space space;
  std::function<Judged(const Design&)> judged;
  Design best;
  double nearness;  ///< in any amount: where the function falls by about the noise
};

double squares(const Design& x) {
  double sum = 0.0;
  for (const double one : x) sum += one * one;
  return sum;
}

/// A hill with crosswise slopes and one steep amount.
Judged hill_inside(const Design& x) {
  const Design top{0.3, 0.6, 0.45, 0.7, 0.2, 0.55};
  double value = 0.0;
  std::array<double, 6> d{};
  for (std::size_t j = 0; j < 6; ++j) {
    d[j] = x[j] - top[j];
    value -= (0.05 + 0.02 * static_cast<double>(j)) * d[j] * d[j];
  }
  value += 0.02 * (d[0] * d[1] - d[2] * d[3]) - 0.05 * std::pow(d[4], 4);
  return {true, {value}, {}};
}

/// Rises towards a corner, in waves.
Judged rise_to_corner(const Design& x) {
  const Design far{1.2, -0.2, 1.3, -0.2, 1.1, 1.2};
  double value = 0.0;
  for (std::size_t j = 0; j < 6; ++j) value -= 0.1 * std::pow(x[j] - far[j], 2) * (1.0 + 0.3 * std::sin(4.0 * x[j]));
  return {true, {value}, {}};
}

const Design uphill{1.0, 2.0, 3.0, 1.5, 0.5, 2.5};

/// Rises in one direction, ever less.
Judged rise(const Design& x) {
  double sum = 0.0;
  for (std::size_t j = 0; j < 6; ++j) sum += uphill[j] * x[j];
  return {true, {0.3 * (1.0 - std::exp(-0.3 * sum))}, {}};
}

/// On the ball about nothing the best of that is in its direction.
Design on_ball() {
  Design out = uphill;
  for (double& one : out) one /= std::sqrt(squares(uphill));
  return out;
}

std::vector<Known> known_functions() {
  Space ball{6};
  ball.no_less = 1;
  ball.curved = [](const Design& x, std::span<double> out) { out[0] = 1.0 - squares(x); };
  const auto rise_held = [](const Design& x) {
    Judged out = rise(x);
    out.holds = {0.5 * (1.0 - squares(x))};
    return out;
  };
  return {{"inside", Space{6}, hill_inside, {0.3, 0.6, 0.45, 0.7, 0.2, 0.55}, 0.05},
          {"at a corner", Space{6}, rise_to_corner, {1.0, 0.0, 1.0, 0.0, 1.0, 1.0}, 0.001},
          {"on a curved side", ball, rise, on_ball(), 0.03},
          {"where only judging tells", Space{6}, rise_held, on_ball(), 0.03}};
}

Judge judge_by(std::function<Judged(const Design&)> judged, std::size_t* count = nullptr) {
  return [judged = std::move(judged), count](std::span<const Design> designs) {
    std::vector<Judged> out;
    for (const Design& x : designs) out.push_back(judged(x));
    if (count != nullptr) *count += out.size();
    return out;
  };
}

SearchPlan short_plan(unsigned seed = 1) {
  SearchPlan plan;
  plan.most = 120;
  plan.seed = seed;
  return plan;
}

double best_gain(std::span<const Tried> tried) {
  const std::size_t best = best_of(tried);
  return best < tried.size() ? tried[best].judged.gains[0] : -1e9;
}

/// Of so many even draws within the space.
double random_best(const Known& known, unsigned seed, int count) {
  std::mt19937 draw(seed);
  double best = -1e9;
  for (int done = 0; done < count;) {
    Design x(known.space.free);
    for (double& one : x) one = static_cast<double>(draw()) / 4294967296.0;
    if (known.space.worst(x) < 0.0) continue;
    ++done;
    const Judged judged = known.judged(x);
    if (judged.holds.empty() || judged.holds[0] >= 0.0) best = std::max(best, judged.gains[0]);
  }
  return best;
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return 0.5 * (values[(values.size() - 1) / 2] + values[values.size() / 2]);
}

TEST(search, known_tops_are_found_within_120_judgements) {
  for (const Known& known : known_functions()) {
    const Found found = search(known.space, judge_by(known.judged), short_plan());
    ASSERT_LT(best_of(found.tried), found.tried.size()) << known.name;
    EXPECT_LE(found.tried.size(), 120u) << known.name;
    EXPECT_LT(distance(found.tried[best_of(found.tried)].design, known.best), known.nearness) << known.name;
    EXPECT_NEAR(best_gain(found.tried), known.judged(known.best).gains[0], 2e-4) << known.name;
    EXPECT_EQ(found.end, End::no_more_to_gain) << known.name;
  }
}

TEST(search, it_beats_random_search_with_ten_times_the_judgements) {
  for (const Known& known : known_functions()) {
    std::vector<double> searched, drawn;
    for (unsigned seed = 1; seed <= 20; ++seed) {
      searched.push_back(best_gain(search(known.space, judge_by(known.judged), short_plan(seed)).tried));
      drawn.push_back(random_best(known, seed, 1200));
    }
    const double top = known.judged(known.best).gains[0];
    // Not only more: what it leaves is a tenth of what random search leaves.
    EXPECT_LT(top - median(searched), 0.1 * (top - median(drawn))) << known.name;
  }
}

TEST(search, every_design_judged_is_inside_and_none_is_near_another) {
  for (const Known& known : known_functions()) {
    const SearchPlan plan = short_plan(3);
    const Found found = search(known.space, judge_by(known.judged), plan);
    for (std::size_t i = 0; i < found.tried.size(); ++i) {
      EXPECT_GE(known.space.worst(found.tried[i].design), -1e-6) << known.name;
      for (std::size_t j = 0; j < i; ++j)
        EXPECT_GE(distance(found.tried[i].design, found.tried[j].design), 0.25 * plan.least_step) << known.name;
    }
    EXPECT_EQ(found.tried.front().design, Design(6, 0.0)) << known.name;
  }
}

/// Two gains, each with its top: what cannot be bettered lies on the line between the tops.
Judged two_tops(const Design& x) {
  double a = 0.0, b = 0.0;
  for (const double one : x) {
    a -= 0.1 * (one - 0.2) * (one - 0.2);
    b -= 0.1 * (one - 0.7) * (one - 0.7);
  }
  return {true, {a, b}, {}};
}

TEST(search, a_known_front_is_covered_from_end_to_end) {
  SearchPlan plan = short_plan();
  const Found found = search(Space{6}, judge_by(two_tops), plan);
  const double whole = 0.1 * 6.0 * 0.25;  // what either gain differs by along the front
  for (int step = 0; step <= 20; ++step) {
    const Judged on = two_tops(Design(6, 0.2 + 0.5 * step / 20.0));
    double least = 1e9;
    for (const std::size_t place : front_of(found.tried)) {
      const auto& gains = found.tried[place].judged.gains;
      least = std::min(least, std::max(on.gains[0] - gains[0], on.gains[1] - gains[1]));
    }
    EXPECT_LT(least, 0.05 * whole) << "at " << step;
  }
  EXPECT_NEAR(best_gain(found.tried), 0.0, 2e-4);
  double other = -1.0;
  for (const Tried& one : found.tried) other = std::max(other, one.judged.gains[1]);
  EXPECT_NEAR(other, 0.0, 0.005 * whole);
}

TEST(search, a_side_that_only_judging_tells_is_seldom_overstepped) {
  const Known known = known_functions()[3];
  std::size_t over = 0, all = 0;
  for (unsigned seed = 1; seed <= 10; ++seed) {
    const Found found = search(known.space, judge_by(known.judged), short_plan(seed));
    for (std::size_t i = 36; i < found.tried.size(); ++i, ++all) over += found.tried[i].judged.holds[0] < 0.0;
  }
  // Without a margin that learns it is more than a third.
  EXPECT_LT(3 * over, all);
}

TEST(search, a_higher_hill_come_upon_while_weighing_is_climbed_too) {
  // The aim's broad hill draws first; its higher one lies on the way to the other gain's top.
  const auto hill = [](const Design& x, double centre, double width) {
    double sum = 0.0;
    for (const double one : x) sum += (one - centre) * (one - centre);
    return std::exp(-sum / (2.0 * width * width));
  };
  const auto aim = [&](const Design& x) { return 0.08 * hill(x, 0.2, 0.5) + 0.1 * hill(x, 0.75, 0.3); };
  const auto judged = [&](const Design& x) {
    double off = 0.0;
    for (const double one : x) off -= 0.05 * (one - 0.95) * (one - 0.95);
    return Judged{true, {aim(x), off}, {}};
  };
  double top = 0.0;
  for (int step = 0; step <= 1000; ++step) top = std::max(top, aim(Design(6, 0.5 + 0.0005 * step)));
  for (unsigned seed = 1; seed <= 3; ++seed) {
    SearchPlan plan = short_plan(seed);
    plan.most = 180;
    EXPECT_NEAR(best_gain(search(Space{6}, judge_by(judged), plan).tried), top, 3e-4) << "seed " << seed;
  }
}

TEST(search, no_amounts_are_one_design) {
  const Found found = search(Space{0}, judge_by([](const Design&) { return Judged{true, {0.0}, {}}; }), short_plan());
  EXPECT_EQ(found.tried.size(), 1u);
  EXPECT_EQ(found.end, End::no_more_to_gain);
}

TEST(search, the_front_is_what_no_other_beats_best_aim_first) {
  const auto tried = [](bool possible, std::vector<double> gains, std::vector<double> holds) {
    return Tried{{0.0}, {possible, std::move(gains), std::move(holds)}};
  };
  const std::vector<Tried> all{tried(true, {0.1, 0.5}, {0.1}),  tried(true, {0.3, 0.2}, {0.0}),
                               tried(true, {0.2, 0.1}, {0.2}),  tried(true, {0.9, 0.9}, {-0.1}),
                               tried(false, {0.9, 0.9}, {0.1}), tried(true, {0.05, 0.6}, {0.3})};
  EXPECT_THAT(front_of(all), ElementsAre(1, 0, 5));
  EXPECT_EQ(best_of(all), 1u);
  EXPECT_EQ(best_of(std::span(all).subspan(3, 2)), 2u);
}

TEST(search, going_on_judges_nothing_again_and_comes_as_far) {
  for (const Known& known : known_functions()) {
    SearchPlan half = short_plan();
    half.most = 24;
    const Found first = search(known.space, judge_by(known.judged), half);
    ASSERT_EQ(first.tried.size(), 24u);
    std::size_t judged = 0;
    const Found then = search(known.space, judge_by(known.judged, &judged), short_plan(), first.tried);
    EXPECT_EQ(judged + 24, then.tried.size()) << known.name;
    for (std::size_t i = 0; i < 24; ++i) EXPECT_EQ(then.tried[i].design, first.tried[i].design);
    for (std::size_t i = 24; i < then.tried.size(); ++i)
      for (std::size_t j = 0; j < 24; ++j)
        EXPECT_GT(distance(then.tried[i].design, then.tried[j].design), 1e-3) << known.name;
    EXPECT_NEAR(best_gain(then.tried), known.judged(known.best).gains[0], 2e-4) << known.name;
    EXPECT_GE(best_gain(then.tried), best_gain(first.tried)) << known.name;
  }
}

TEST(search, the_same_question_gives_the_same_designs) {
  const Known known = known_functions()[3];
  const Found once = search(known.space, judge_by(known.judged), short_plan(5));
  const Found twice = search(known.space, judge_by(known.judged), short_plan(5));
  const Found other = search(known.space, judge_by(known.judged), short_plan(6));
  const auto designs = [](const Found& found) {
    std::vector<Design> out;
    for (const Tried& one : found.tried) out.push_back(one.design);
    return out;
  };
  EXPECT_EQ(designs(once), designs(twice));
  EXPECT_NE(designs(once), designs(other));
}

TEST(search, it_stops_when_told_and_where_the_judge_gives_fewer) {
  std::size_t told = 0;
  const Found stopped = search(Space{6}, judge_by(hill_inside), short_plan(), {}, [&](std::span<const Tried> tried) {
    told = tried.size();
    return tried.size() >= 18;
  });
  EXPECT_EQ(stopped.end, End::stopped);
  EXPECT_EQ(stopped.tried.size(), 18u);
  EXPECT_EQ(told, 18u);
  std::size_t judged = 0;
  const Judge tired = [&](std::span<const Design> designs) {
    std::vector<Judged> out;
    for (const Design& x : designs)
      if (judged < 20) out.push_back(hill_inside(x)), ++judged;
    return out;
  };
  const Found fewer = search(Space{6}, tired, short_plan());
  EXPECT_EQ(fewer.end, End::stopped);
  EXPECT_EQ(fewer.tried.size(), 20u);
}

TEST(search, as_many_as_asked_are_judged_and_no_more) {
  SearchPlan plan = short_plan();
  plan.most = 31;
  const Found found = search(Space{6}, judge_by(hill_inside), plan);
  EXPECT_EQ(found.end, End::as_many_as_asked);
  EXPECT_EQ(found.tried.size(), 31u);
  std::size_t judged = 0;
  EXPECT_EQ(search(Space{6}, judge_by(hill_inside, &judged), plan, found.tried).end, End::as_many_as_asked);
  EXPECT_EQ(judged, 0u);
}

TEST(search, an_empty_space_and_designs_that_are_all_impossible_are_told) {
  Space empty{2};
  empty.sides = {{{1.0, 1.0}, -3.0}};
  std::size_t judged = 0;
  const Found none = search(empty, judge_by([](const Design&) { return Judged{true, {0.0}, {}}; }, &judged), {});
  EXPECT_EQ(none.end, End::nothing_possible);
  EXPECT_EQ(judged, 0u);
  const Found vain = search(Space{2}, judge_by([](const Design&) { return Judged{}; }), short_plan());
  EXPECT_EQ(vain.end, End::nothing_possible);
  EXPECT_EQ(best_of(vain.tried), vain.tried.size());
  EXPECT_THAT(vain.tried, Not(IsEmpty()));
}

TEST(search, where_no_design_holds_that_is_told) {
  const auto never = [](const Design& x) { return Judged{true, {x[0]}, {-0.1 - 0.1 * x[0]}}; };
  const Found found = search(Space{2}, judge_by(never), short_plan());
  EXPECT_EQ(found.end, End::nothing_possible);
  EXPECT_LT(found.tried.size(), 120u);
}

TEST(search, what_is_to_hold_is_reached_from_where_nothing_holds) {
  // Nothing holds but near a far corner; the aim pulls the other way.
  const auto far_off = [](const Design& x) {
    double off = 0.0, sum = 0.0;
    for (const double one : x) off += (one - 0.9) * (one - 0.9), sum += one;
    return Judged{true, {-0.05 * sum}, {0.04 - off}};
  };
  const Found found = search(Space{6}, judge_by(far_off), short_plan());
  ASSERT_LT(best_of(found.tried), found.tried.size());
  const double each = 0.9 - std::sqrt(0.04 / 6.0);
  EXPECT_LT(distance(found.tried[best_of(found.tried)].design, Design(6, each)), 0.03);
}

TEST(search, impossible_designs_are_kept_away_from) {
  // The hill's top lies where nothing can be made; the best is at the edge of that.
  const auto broken = [](const Design& x) {
    Judged out = hill_inside(x);
    if (x[1] > 0.5) out = {false, {std::nan("")}, {}};
    return out;
  };
  const Found found = search(Space{6}, judge_by(broken), short_plan());
  ASSERT_LT(best_of(found.tried), found.tried.size());
  const Design& best = found.tried[best_of(found.tried)].design;
  EXPECT_GT(best[1], 0.4);
  // What it leaves to the best at that edge, by hand: d1 = -0.1, d0 = 0.2 d1 and the rest nothing.
  EXPECT_NEAR(best_gain(found.tried), -0.07 * 0.01 + 0.0001 / 5.0, 2e-4);
  const auto impossible =
      std::count_if(found.tried.begin() + 18, found.tried.end(), [](const Tried& one) { return !one.judged.possible; });
  // Coming to an edge by halves would go wrong every second time; not knowing of it, nearly always.
  EXPECT_LT(static_cast<double>(impossible), 0.4 * static_cast<double>(found.tried.size() - 18));
}

TEST(search, a_figure_that_is_no_number_counts_as_impossible) {
  const auto holes = [](const Design& x) {
    return Judged{true, {x[0] > 0.7 ? std::nan("") : -std::pow(x[0] - 0.5, 2)}, {}};
  };
  const Found found = search(Space{1}, judge_by(holes), short_plan());
  EXPECT_NEAR(found.tried[best_of(found.tried)].design[0], 0.5, 0.02);
  for (const Tried& one : found.tried) EXPECT_EQ(one.judged.possible, one.design[0] <= 0.7);
}

TEST(search, one_amount_is_searched_too) {
  const auto wave = [](const Design& x) { return Judged{true, {0.1 * std::sin(5.0 * x[0])}, {}}; };
  const Found found = search(Space{1}, judge_by(wave), short_plan());
  EXPECT_NEAR(found.tried[best_of(found.tried)].design[0], std::numbers::pi / 10.0, 0.01);
  EXPECT_EQ(found.end, End::no_more_to_gain);
}

TEST(search, a_space_as_thin_as_a_sheet_is_searched_within_it) {
  Space sheet{4};
  sheet.equal = 1;
  sheet.curved = [](const Design& x, std::span<double> out) { out[0] = squares(x) - 1.0; };
  const auto slope = [](const Design& x) {
    return Judged{true, {0.1 * (x[0] + 2.0 * x[1] + 3.0 * x[2] + 4.0 * x[3])}, {}};
  };
  const Found found = search(sheet, judge_by(slope), short_plan());
  ASSERT_LT(best_of(found.tried), found.tried.size());
  for (const Tried& one : found.tried) EXPECT_NEAR(squares(one.design), 1.0, 2e-6);
  EXPECT_NEAR(best_gain(found.tried), 0.1 * std::sqrt(30.0), 2e-4);
}

TEST(search, a_space_of_one_point_is_judged_once) {
  Space point{2};
  point.sides = {{{-1.0, 0.0}, 0.0}, {{0.0, -1.0}, 0.0}};
  const Found found = search(point, judge_by([](const Design&) { return Judged{true, {0.0}, {}}; }), short_plan());
  EXPECT_EQ(found.tried.size(), 1u);
  EXPECT_EQ(found.end, End::no_more_to_gain);
}

}  // namespace
