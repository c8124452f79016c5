// Readings that a simulation needs beside the geometry: each arrives, each that is missing names itself.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <set>
#include <string>

#include "geometry/survey.hpp"
#include "saw/file.hpp"
#include "unit/support/allocations.hpp"

namespace portwright::geometry {
namespace {

using testing::Contains;
using testing::Field;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr double degree = std::numbers::pi / 180.0;

constexpr const char* text = R"(
format = "portwright saw 1"
name = "Rowan 60"
[intake]
kind = "reed into case"
tract = { length = "60 mm", bore = "22 mm" }
[intake.reed]
petals = 4
length = "30 mm"
width = "20 mm"
thickness = "0.40 mm"
material = "glass epoxy"
window = { length = "24 mm", width = "17 mm" }
stop = "8 mm"
block_angle = "35 deg"
[carburettor]
venturi = "20 mm"
throttle = "22 mm"
[air_box]
volume = "400 cc"
filter = "1.5 kPa"
[muffler]
boxes = ["350 cc", "120 cc"]
baffles = ["3.0 cm2"]
outlets = ["1.4 cm2", "0.8 cm2"]
screen = true
[pipe]
profile = [["0 mm","30 mm"], ["200 mm","38 mm"], ["200 mm","50 mm"], ["320 mm","50 mm"]]
[ignition]
curve = [["800 rpm","8 deg"], ["3000 rpm","20 deg"], ["9000 rpm","26 deg"]]
limiter = "13500 rpm"
[fuel]
octane = "95 research"
air_fuel = 12.8
[day]
altitude = "300 m"
temperature = "20 C"
humidity = "50 %"
[readings]
stock_power = "3.6 kW at 9000 rpm"
gauge_volume = "3 cc"
)";

std::string with(const std::string& from, const std::string& to) {
  std::string out = text;
  const std::size_t at = out.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return out.replace(at, from.size(), to);
}

Survey survey_of(const std::string& saw) {
  const auto read = saw::read_saw(saw);
  EXPECT_TRUE(read) << (read ? "" : read.error().front().message);
  return survey(read->readings);
}

std::set<std::string> waits(const Survey& survey, const Known& known) {
  std::set<std::string> out;
  for (std::size_t i = 0; i < survey.needs.size(); ++i)
    if (known.needs().has(static_cast<int>(i))) out.insert(survey.needs[i]);
  return out;
}

/// Every single number of Breathing, with the reading it is made from and the value of the text above.
struct Place {
  const char* path;
  Known Breathing::*direct;
  Known ReedBlock::*of_reed;
  double value;
};
constexpr Place places[] = {
    {"intake.tract.length", &Breathing::tract_length, nullptr, 0.060},
    {"intake.tract.bore", &Breathing::tract_bore, nullptr, 0.022},
    {"carburettor.throttle", &Breathing::throttle, nullptr, 0.022},
    {"intake.reed.petals", nullptr, &ReedBlock::petals, 4.0},
    {"intake.reed.length", nullptr, &ReedBlock::length, 0.030},
    {"intake.reed.width", nullptr, &ReedBlock::width, 0.020},
    {"intake.reed.thickness", nullptr, &ReedBlock::thickness, 0.0004},
    {"intake.reed.material", nullptr, &ReedBlock::modulus, 18.6e9},
    {"intake.reed.material", nullptr, &ReedBlock::density, 1820.0},
    {"intake.reed.window.length", nullptr, &ReedBlock::window_length, 0.024},
    {"intake.reed.window.width", nullptr, &ReedBlock::window_width, 0.017},
    {"intake.reed.stop", nullptr, &ReedBlock::stop, 0.008},
    {"intake.reed.block_angle", nullptr, &ReedBlock::block_angle, 35.0 * degree},
    {"air_box.volume", &Breathing::air_box_volume, nullptr, 400e-6},
    {"air_box.filter", &Breathing::filter_loss, nullptr, 1500.0},
    {"ignition.limiter", &Breathing::limiter, nullptr, 225.0},
    {"fuel.air_fuel", &Breathing::air_fuel, nullptr, 12.8},
    {"day.altitude", &Breathing::altitude, nullptr, 300.0},
    {"day.temperature", &Breathing::temperature, nullptr, 293.15},
    {"day.humidity", &Breathing::humidity, nullptr, 0.5},
    {"readings.stock_power", &Breathing::stock_power, nullptr, 3600.0},
    {"readings.stock_power.at", &Breathing::stock_power_speed, nullptr, 150.0},
    {"readings.gauge_volume", &Breathing::gauge_volume, nullptr, 3e-6},
};

const Known& at(const Breathing& breathing, const Place& place) {
  return place.direct != nullptr ? breathing.*place.direct : breathing.reed.*place.of_reed;
}

TEST(breathing, every_reading_arrives_in_si) {
  const Survey s = survey_of(text);
  EXPECT_THAT(s.errors, IsEmpty());
  const Breathing b = resolve(s).breathing;
  for (const Place& place : places) {
    ASSERT_TRUE(at(b, place)) << place.path;
    EXPECT_NEAR(*at(b, place), place.value, 1e-9 * place.value) << place.path;
  }
  EXPECT_EQ(b.octane_scale, OctaneScale::research);
  EXPECT_TRUE(b.screen && b.screen_known);
}

TEST(breathing, every_missing_reading_names_itself) {
  const Survey s = survey_of("format = \"portwright saw 1\"\nname = \"bare\"\n");
  const Breathing b = resolve(s).breathing;
  for (const Place& place : places) EXPECT_EQ(waits(s, at(b, place)), std::set<std::string>{place.path}) << place.path;
  EXPECT_EQ(waits(s, b.boxes_known), std::set<std::string>{"muffler.boxes"});
  EXPECT_EQ(waits(s, b.outlets_known), std::set<std::string>{"muffler.outlets"});
  EXPECT_TRUE(b.boxes.empty() && b.baffles.empty() && b.outlets.empty() && b.pipe.empty() && b.advance_curve.empty());
  EXPECT_FALSE(b.screen || b.screen_known);
  EXPECT_EQ(b.octane_scale, OctaneScale::unknown);
}

TEST(breathing, every_reading_with_an_instrument_is_drawn_with_its_error) {
  const Survey s = survey_of(text);
  std::vector<double> values = s.values();
  for (std::size_t i = 0; i < values.size(); ++i)
    for (const Input::Part& part : s.inputs[i].parts)
      values[i] += 0.1 * part.factor * s.sources[static_cast<std::size_t>(part.source)].sigma;
  Engine engine;
  resolve(s, values, engine);
  const std::set<std::string> exact{"intake.reed.petals", "fuel.air_fuel"};  // counted, a set mixture
  for (const Place& place : places) {
    const bool moves = *at(engine.breathing, place) != *at(resolve(s).breathing, place);
    EXPECT_EQ(moves, !exact.contains(place.path) && place.of_reed != &ReedBlock::density) << place.path;
  }
  EXPECT_NE(*engine.breathing.boxes[1], 120e-6);
  EXPECT_NE(*engine.breathing.pipe[2].bore, 0.050);
  EXPECT_NE(*engine.breathing.advance_curve[1].advance, 20 * degree);
}

TEST(breathing, boxes_baffles_and_outlets_keep_their_order_and_the_outlets_their_sum) {
  const Engine e = resolve(survey_of(text));
  const Breathing& b = e.breathing;
  ASSERT_EQ(b.boxes.size(), 2U);
  EXPECT_NEAR(*b.boxes[0], 350e-6, 1e-15);
  EXPECT_NEAR(*b.boxes[1], 120e-6, 1e-15);
  ASSERT_EQ(b.baffles.size(), 1U);
  EXPECT_NEAR(*b.baffles[0], 3e-4, 1e-15);
  ASSERT_EQ(b.outlets.size(), 2U);
  EXPECT_NEAR(*b.outlets[0] + *b.outlets[1], *e.muffler_outlets, 1e-18);
}

TEST(breathing, a_box_that_cannot_be_used_stays_in_its_place_and_waits) {
  const Survey s = survey_of(with("\"350 cc\"", "\"350 l\""));
  const Breathing b = resolve(s).breathing;
  ASSERT_EQ(b.boxes.size(), 2U);
  EXPECT_EQ(waits(s, b.boxes[0]), std::set<std::string>{"muffler.boxes"});
  EXPECT_NEAR(*b.boxes[1], 120e-6, 1e-15);
  EXPECT_THAT(s.errors, Contains(Field(&base::Error::path, "muffler.boxes")));
}

TEST(breathing, a_curve_and_a_pipe_arrive_point_by_point_with_the_steps_of_the_pipe) {
  const Breathing b = resolve(survey_of(text)).breathing;
  ASSERT_EQ(b.advance_curve.size(), 3U);
  EXPECT_NEAR(*b.advance_curve[0].speed, 800.0 / 60.0, 1e-12);
  EXPECT_NEAR(*b.advance_curve[2].advance, 26 * degree, 1e-12);
  ASSERT_EQ(b.pipe.size(), 4U);
  EXPECT_EQ(*b.pipe[1].place, *b.pipe[2].place);
  EXPECT_NEAR(*b.pipe[3].bore, 0.050, 1e-15);
}

TEST(breathing, points_of_one_column_share_one_error_each_by_its_own_size) {
  const Survey s = survey_of(with("[\"3000 rpm\",\"20 deg\"]", "[\"3000 rpm\",\"20 deg +- 3\"]"));
  std::set<int> causes;
  for (const Input& input : s.inputs) {
    if (input.path != "ignition.curve.second") continue;
    double squares = 0.0;
    for (const Input::Part& part : input.parts) {
      const ErrorSource& source = s.sources[static_cast<std::size_t>(part.source)];
      squares += part.factor * source.sigma * part.factor * source.sigma;
      if (source.name == input.path) causes.insert(part.source);
    }
    EXPECT_NEAR(std::sqrt(squares), input.sigma, 1e-12);
    if (std::abs(input.value - 20 * degree) < 1e-9) {
      EXPECT_NEAR(input.sigma, 3 * degree, 1e-12);
    }
  }
  EXPECT_EQ(causes.size(), 1U);
}

TEST(breathing, a_pair_out_of_order_is_told_and_left_out) {
  const Survey curve = survey_of(with("\"3000 rpm\"", "\"800 rpm\""));
  EXPECT_THAT(curve.errors, Contains(Field(&base::Error::path, "ignition.curve")));
  EXPECT_EQ(resolve(curve).breathing.advance_curve.size(), 2U);
  const Survey pipe = survey_of(with("\"320 mm\",", "\"120 mm\","));
  EXPECT_THAT(pipe.errors, Contains(Field(&base::Error::path, "pipe.profile")));
  EXPECT_EQ(resolve(pipe).breathing.pipe.size(), 3U);
}

TEST(breathing, more_pairs_than_are_kept_are_told) {
  std::string rows;
  for (int k = 0; k < 20; ++k)
    rows += (k > 0 ? ", " : "") + std::string("[\"") + std::to_string(1000 + 500 * k) + " rpm\",\"20 deg\"]";
  const Survey s =
      survey_of(with("[\"800 rpm\",\"8 deg\"], [\"3000 rpm\",\"20 deg\"], [\"9000 rpm\",\"26 deg\"]", rows));
  EXPECT_THAT(s.errors, Contains(Field(&base::Error::message, HasSubstr("more than 16"))));
  EXPECT_EQ(resolve(s).breathing.advance_curve.size(), 16U);
}

TEST(breathing, a_material_is_known_by_any_of_its_words_and_an_unknown_one_is_told_with_those_known) {
  EXPECT_NEAR(*resolve(survey_of(with("glass epoxy", "Spring Steel"))).breathing.reed.modulus, 207e9, 1.0);
  EXPECT_NEAR(*resolve(survey_of(with("glass epoxy", "fr4"))).breathing.reed.density, 1820.0, 1e-9);
  const Survey s = survey_of(with("glass epoxy", "bakelite"));
  ASSERT_EQ(s.errors.size(), 1U);
  EXPECT_EQ(s.errors[0].path, "intake.reed.material");
  EXPECT_THAT(s.errors[0].message, HasSubstr("bakelite"));
  EXPECT_THAT(s.errors[0].hint, HasSubstr("glass epoxy, carbon epoxy, spring steel"));
  EXPECT_EQ(waits(s, resolve(s).breathing.reed.modulus), std::set<std::string>{"intake.reed.material"});
}

TEST(breathing, a_reading_outside_the_box_is_told_and_waits) {
  const Survey s = survey_of(with("thickness = \"0.40 mm\"", "thickness = \"4 mm\""));
  EXPECT_THAT(s.errors, Contains(Field(&base::Error::path, "intake.reed.thickness")));
  EXPECT_EQ(waits(s, resolve(s).breathing.reed.thickness), std::set<std::string>{"intake.reed.thickness"});
}

TEST(breathing, an_engine_filled_anew_keeps_nothing_of_the_one_before) {
  const Survey full = survey_of(text), bare = survey_of("format = \"portwright saw 1\"\nname = \"bare\"\n");
  Engine engine = resolve(full);
  resolve(bare, bare.values(), engine);
  EXPECT_TRUE(engine.breathing.boxes.empty() && engine.breathing.outlets.empty() && engine.breathing.pipe.empty());
  EXPECT_TRUE(engine.breathing.advance_curve.empty());
  EXPECT_FALSE(engine.breathing.boxes_known || engine.breathing.reed.modulus || engine.breathing.screen);
}

TEST(breathing, is_filled_without_memory) {
  const Survey s = survey_of(text);
  const std::vector<double> values = s.values();
  Engine engine;
  const long before = bench::allocations();
  resolve(s, values, engine);
  EXPECT_EQ(bench::allocations(), before);
}

}  // namespace
}  // namespace portwright::geometry
