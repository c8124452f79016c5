#include "heat/estimate.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "unit/heat/warm.hpp"

namespace portwright::heat {
namespace {

const Place* named(const std::vector<Place>& all, const std::string& name) {
  for (const Place& place : all)
    if (place.name == name) return &place;
  return nullptr;
}

TEST(places, are_the_same_ones_in_the_same_order_for_every_map_of_a_body) {
  const Cooling fins = fins_but(150, 210);
  const Load load{alder().body, fins, alder().gas};
  Assumptions other = middle_assumptions();
  other.film_share = 1.4;
  const auto one = see(load, middle_assumptions()), two = see(load, other);
  ASSERT_TRUE(one && two);
  ASSERT_EQ(one->places.size(), two->places.size());
  for (std::size_t i = 0; i < one->places.size(); ++i) {
    EXPECT_EQ(one->places[i].name, two->places[i].name);
    EXPECT_GT(two->places[i].T, one->places[i].T) << one->places[i].name;
  }
  EXPECT_NE(named(one->places, "without fins, at 180 deg"), nullptr);
  EXPECT_NE(named(one->places, "exhaust roof"), nullptr);
}

TEST(places, the_hottest_of_the_bore_is_no_colder_than_any_of_its_places) {
  const Cooling fins = fins_but(0, 0);
  const auto seen = see({alder().body, fins, alder().gas}, middle_assumptions());
  ASSERT_TRUE(seen);
  for (const Place& place : seen->places) {
    if (place.piston || place.round) continue;
    EXPECT_LE(place.T, seen->hottest.T + 1e-9) << place.name;
  }
  EXPECT_LT(seen->mean, seen->hottest.T);
}

TEST(growth, an_even_bore_stays_round_and_grows_by_its_expansion) {
  Map map;
  map.wall.assign(static_cast<std::size_t>(alder().body.shell.cells()), 293.15 + 150.0);
  map.piston = {293.15 + 150.0, 293.15 + 150.0, 293.15 + 150.0, 293.15 + 150.0};
  Assumptions take = middle_assumptions();
  take.piston_expansion = take.cylinder_expansion;
  const Growth grown = growth(alder().body, map, take);
  EXPECT_NEAR(grown.bore, alder().body.bore * take.cylinder_expansion * 150.0, 1e-12);
  EXPECT_NEAR(grown.out_of_round, 0.0, 1e-12);
  EXPECT_NEAR(grown.clearance, 0.0, 1e-12);
}

TEST(growth, a_bore_warmer_on_one_side_is_pushed_aside_and_one_warm_on_two_is_oval) {
  const Shell& shell = alder().body.shell;
  const auto grown = [&](int harmonic) {
    Map map;
    for (int row = 0; row < shell.rows; ++row)
      for (int column = 0; column < shell.around; ++column)
        map.wall.push_back(400.0 + 10.0 * std::cos(harmonic * shell.angle(column)));
    return growth(alder().body, map, middle_assumptions()).out_of_round;
  };
  EXPECT_NEAR(grown(1), 0.0, 1e-12);
  const Assumptions take = middle_assumptions();
  const double free = take.cylinder_expansion * shell.radius * 20.0;
  EXPECT_NEAR(grown(2) / (take.own_growth * free), 1.0, 0.01);
}

TEST(growth, the_skirt_has_less_room_hot_than_cold) {
  const Cooling fins = fins_but(0, 0);
  const auto seen = see({alder().body, fins, alder().gas}, middle_assumptions());
  ASSERT_TRUE(seen);
  EXPECT_LT(seen->growth.land, 0.0);
  EXPECT_GT(seen->growth.bore, 0.0);
  EXPECT_GT(seen->growth.out_of_round, 0.0);
}

TEST(spot, is_understood_from_its_words_or_asked_for_again) {
  EXPECT_TRUE(spot_of("plug seat")->plug);
  EXPECT_TRUE(spot_of("Washer under the plug")->plug);
  EXPECT_NEAR(spot_of("fins at -90 deg")->angle, -90.0 * rad, 1e-12);
  EXPECT_TRUE(spot_of("fins")->all_round);
  const auto nowhere = spot_of("muffler");
  ASSERT_FALSE(nowhere);
  EXPECT_EQ(nowhere.error().path, "readings.spot.where");
}

TEST(spot, a_map_brought_to_a_reading_shows_it) {
  const Cooling fins = fins_but(150, 210);
  const Load load{alder().body, fins, alder().gas};
  for (const char* where : {"plug seat", "fins at 90 deg", "fins"}) {
    const Spot spot = *spot_of(where);
    const auto air = fitted_air(spot, 273.15 + 190.0, load, middle_assumptions());
    ASSERT_TRUE(air) << where;
    Assumptions take = middle_assumptions();
    take.air_factor = *air;
    EXPECT_NEAR(at_spot(spot, load, *steady(load, take)), 273.15 + 190.0, 0.3) << where;
  }
  EXPECT_FALSE(fitted_air(*spot_of("plug seat"), 310.0, load, middle_assumptions()));
}

TEST(sets, a_reading_makes_temperatures_far_narrower) {
  const Cooling fins = fins_but(150, 210);
  const Load load{alder().body, fins, alder().gas};
  Spot spot = *spot_of("plug seat");
  spot.T = 273.15 + 200.0;
  spot.sigma = 5.0;
  const Sets open = sets_for(24, nullptr, nullptr), met = sets_for(24, &spot, &load);
  EXPECT_FALSE(open.calibrated);
  ASSERT_TRUE(met.calibrated);
  const auto width = [&](const Sets& sets) {
    std::vector<double> values;
    const auto all_seen = see_all(load, sets);
    for (const Seen& seen : *all_seen) values.push_back(seen.hottest.T);
    const Told all = told(values);
    EXPECT_LE(all.low, all.value);
    EXPECT_GE(all.high, all.value);
    return all.high - all.low;
  };
  EXPECT_GT(width(open), 60.0);  // never to be shown as bare degrees
  EXPECT_LT(width(met), 0.5 * width(open));
}

/// Width of the 95 % range of a value over sets.
template <class Value>
Told range_of(const std::vector<Seen>& seen, Value&& value) {
  std::vector<double> values;
  for (const Seen& one : seen) values.push_back(value(one));
  return told(values);
}

// Sets are seen on a tenth of the cells: their ranges must be those of the fine wall, and their middle the fine one's.
TEST(sets, few_cells_tell_the_same_ranges_as_many) {
  const Cooling fins = fins_but(150, 210);
  const Body coarse = body_of(alder().engine.engine, coarse_around, coarse_rows);
  const Load fine{alder().body, fins, alder().gas}, quick{alder().body, fins, alder().gas, &coarse};
  const Sets sets = sets_for(24, nullptr, nullptr);
  const auto all = see_all(fine, sets), few = see_all(quick, sets);
  ASSERT_TRUE(all && few);
  ASSERT_EQ(all->size(), few->size());
  for (std::size_t i = 0; i < all->front().places.size(); ++i) {
    const auto over_mean = [i](const Seen& seen) { return seen.places[i].T - seen.mean; };
    const Told many = range_of(*all, over_mean), less = range_of(*few, over_mean);
    EXPECT_EQ(many.value, less.value);
    EXPECT_NEAR(less.high - less.low, many.high - many.low, 0.15 * (many.high - many.low) + 1.0)
        << all->front().places[i].name;
  }
  const auto spot_met = [&](const Load& load) {
    Spot spot = *spot_of("plug seat");
    spot.T = 273.15 + 200.0;
    spot.sigma = 5.0;
    return range_of(*see_all(load, sets_for(24, &spot, &load)), [](const Seen& seen) { return seen.hottest.T; });
  };
  const Told many = spot_met(fine), less = spot_met(quick);
  EXPECT_NEAR(less.value, many.value, 0.1);
  EXPECT_NEAR(less.high - less.low, many.high - many.low, 0.2 * (many.high - many.low));
}

TEST(sets, a_reading_that_no_air_explains_calibrates_nothing) {
  const Cooling fins = fins_but(150, 210);
  const Load load{alder().body, fins, alder().gas};
  Spot spot = *spot_of("plug seat");
  spot.T = 312.0;
  spot.sigma = 5.0;
  const Sets sets = sets_for(12, &spot, &load);
  EXPECT_FALSE(sets.calibrated);
  EXPECT_EQ(sets.sets.size(), 12u);
}

}  // namespace
}  // namespace portwright::heat
