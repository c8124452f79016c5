// Where it runs hot, through the desk: what may be said with a spot that was read and what may not without one.
#include "desk/heat.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "unit/desk/turning_samples.hpp"
#include "wire/json.hpp"

namespace {

using namespace portwright;
using namespace turning_samples;
using ::testing::HasSubstr;
using ::testing::Not;

constexpr const char* fins_line =
    "\n[cooling]\nfan = true\nfins = [ { from = \"60 deg\", to = \"300 deg\", length = \"18 mm\", pitch = \"6 mm\", "
    "thickness = \"2 mm\" } ]\n";

/// Larch without the spot that was read on it.
std::string unread_text() {
  return changed(text_of(sample("larch-70")), "spot = { where = \"plug seat\", value = \"190 C\", at = \"8500 rpm\" }",
                 "");
}

desk::HeatRequest asked(const std::string& file, const std::string& cuts = {}, int members = 6) {
  desk::HeatRequest out;
  out.file = file;
  out.cuts = cuts;
  out.speed = "8500";
  out.members = members;
  return out;
}

const wire::HeatAnswer& unread() {
  static const wire::HeatAnswer answer = [] {
    const Folder folder;
    desk::HeatRequest request = asked(folder.file("a.saw.toml", unread_text()), "widen exhaust +1 mm");
    request.picture = folder.at("map.svg");
    auto heat = desk::heat(request);
    if (!heat) throw std::runtime_error(heat.error().front().message);
    const std::string svg = text_of(request.picture);
    if (svg.find("<svg") == std::string::npos) throw std::runtime_error("no picture");
    if (svg.find("\u00B0") != std::string::npos) throw std::runtime_error("degrees in the picture");
    return *heat;
  }();
  return answer;
}

const wire::HeatAnswer& read() {
  static const wire::HeatAnswer answer = [] {
    auto heat = desk::heat(asked(sample("larch-70")));
    if (!heat) throw std::runtime_error(heat.error().front().message);
    return *heat;
  }();
  return answer;
}

TEST(heat, without_a_spot_it_says_no_degrees_anywhere) {
  const wire::HeatAnswer& answer = unread();
  EXPECT_FALSE(answer.calibrated);
  EXPECT_EQ(answer.promise,
            "No spot was read on this saw. Nothing here is a temperature: places stand in order, and every number is a "
            "difference between two of them or against stock, with its range.");
  for (const wire::HeatPlace& place : answer.places) {
    EXPECT_FALSE(place.temperature) << place.name;
    EXPECT_LT(place.over_mean.low, place.over_mean.high) << place.name;
  }
  for (const study::Figure& figure : answer.figures) {
    EXPECT_FALSE(figure.value) << figure.id;
    EXPECT_THAT(figure.waits_for, testing::ElementsAre("readings.spot"));
  }
  const std::string json = wire::to_json(answer);
  EXPECT_THAT(json, Not(HasSubstr("\u00B0C")));
}

TEST(heat, places_are_ranked_and_every_difference_has_its_range) {
  const wire::HeatAnswer& answer = unread();
  ASSERT_GE(answer.places.size(), 9u);
  for (std::size_t i = 1; i < answer.places.size(); ++i) {
    const wire::HeatPlace &before = answer.places[i - 1], &after = answer.places[i];
    if (before.part != after.part) continue;
    EXPECT_EQ(after.rank, before.rank + 1);
    EXPECT_GE(before.over_mean.value, after.over_mean.value);
  }
  EXPECT_EQ(answer.places.front().part, "cylinder");
  EXPECT_EQ(answer.places.back().part, "piston");
}

TEST(heat, cuts_are_told_against_stock_member_by_member) {
  const wire::HeatAnswer& answer = unread();
  for (const wire::HeatPlace& place : answer.places) {
    ASSERT_TRUE(place.change) << place.name;
    EXPECT_LE(place.change->low, place.change->value);
    EXPECT_LE(place.change->value, place.change->high);
    EXPECT_EQ(place.change->text == "not told apart", !place.change->distinguishable) << place.name;
    // A difference from stock is known far better than where the place stands.
    EXPECT_LT(place.change->high - place.change->low, place.over_mean.high - place.over_mean.low + 5.0) << place.name;
  }
  for (const study::Figure& figure : answer.figures) EXPECT_TRUE(figure.change) << figure.id;
}

TEST(heat, other_ways_of_running_are_told_one_by_one) {
  const wire::HeatAnswer& answer = unread();
  const auto of = [&](const std::string& word) -> const wire::HeatEffect* {
    for (const wire::HeatEffect& effect : answer.effects)
      if (effect.what.find(word) != std::string::npos) return &effect;
    return nullptr;
  };
  for (const char* word : {"rpm more", "Leaner", "advance", "outlets", "chips"}) ASSERT_NE(of(word), nullptr) << word;
  EXPECT_GT(of("Leaner")->head.value, 0.0);
  EXPECT_GT(of("advance")->head.value, 0.0);
  EXPECT_GT(of("chips")->hottest.low, 0.0);
  ASSERT_TRUE(answer.soak);
  EXPECT_GT(answer.soak->half_s, 20.0);
}

TEST(heat, it_carries_the_cautions_and_its_own_first) {
  ASSERT_GE(unread().cautions.size(), 5u);
  EXPECT_THAT(unread().cautions.front(), HasSubstr("let it cool before you touch it"));
}

TEST(heat, with_a_spot_it_says_degrees_with_their_range) {
  const wire::HeatAnswer& answer = read();
  ASSERT_TRUE(answer.calibrated);
  EXPECT_THAT(answer.promise, HasSubstr("plug seat, 190 \u00B0C at"));
  for (const wire::HeatPlace& place : answer.places) {
    ASSERT_TRUE(place.temperature) << place.name;
    EXPECT_LE(place.temperature->low, place.temperature->high);
    if (place.name.starts_with("head")) {
      EXPECT_NEAR(place.temperature->value, 190.0, 1.0);
    }
  }
  ASSERT_TRUE(answer.figures.front().value);
  EXPECT_THAT(answer.figures.front().text, HasSubstr("\u00B0C"));
}

TEST(heat, no_fins_get_a_sentence) {
  const auto answer = desk::heat(asked(sample("alder-60")));
  ASSERT_FALSE(answer);
  EXPECT_EQ(answer.error().front().message,
            "No fins were read: where they stand round the bore decides where the cylinder runs hot.");
  EXPECT_THAT(answer.error().front().hint, HasSubstr("[cooling]"));
  EXPECT_EQ(base::exit_status(answer.error().front().code), 4);  // as with any reading that a simulation needs
}

TEST(heat, fins_that_overlap_or_lack_a_reading_get_a_sentence) {
  const Folder folder;
  const auto message = [&](const std::string& fins) {
    const std::string text = text_of(sample("alder-60")) + fins;
    const auto answer = desk::heat(asked(folder.file("b.saw.toml", text)));
    return answer ? std::string("taken") : answer.error().front().message;
  };
  const std::string two = changed(fins_line, "} ]",
                                  "}, { from = \"280 deg\", to = \"20 deg\", length = \"10 mm\", pitch = \"6 mm\", "
                                  "thickness = \"2 mm\" } ]");
  EXPECT_EQ(message(two),
            "Fins from 60 to 300 deg and from 280 to 380 deg overlap by 20 deg: one place has one row of fins.");
  EXPECT_EQ(message(changed(fins_line, ", pitch = \"6 mm\"", "")), "Fins 1 lack their pitch.");
}

TEST(heat, a_spot_that_cannot_be_placed_is_asked_for_again) {
  const Folder folder;
  const std::string text = changed(text_of(sample("larch-70")), "where = \"plug seat\"", "where = \"muffler\"");
  const auto answer = desk::heat(asked(folder.file("c.saw.toml", text)));
  ASSERT_FALSE(answer);
  EXPECT_EQ(answer.error().front().path, "readings.spot.where");
}

TEST(heat, stopped_it_keeps_what_was_ready) {
  const auto answer =
      desk::heat(asked(sample("larch-70")), [](double share, const std::string&) { return share > 0.0; });
  ASSERT_TRUE(answer);
  EXPECT_TRUE(answer->stopped);
  EXPECT_FALSE(answer->cautions.empty());
}

}  // namespace
