// Readings to an engine: the sample of the contract, few readings, several readings of one edge.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "base/quantity/text.hpp"
#include "geometry/survey.hpp"

namespace portwright::geometry {
namespace {

using base::Dimension;
using testing::HasSubstr;

constexpr double degree = std::numbers::pi / 180.0;

saw::Reading typed(const char* text, Dimension dimension) {
  return saw::Reading{{{text, base::parse_quantity(text, dimension).value()}}, {}, {}, {}};
}
saw::Reading length(const char* text) { return typed(text, Dimension::length); }
saw::Reading angle(const char* text) { return typed(text, Dimension::angle); }

/// Bore 50, stroke 36, rod 65, crown 61 mm above the base face; one exhaust window.
saw::Readings sample() {
  saw::Readings r;
  r.name = "Larch 70";
  r.crank.bore = length("50.0 mm");
  r.crank.stroke = length("36.0 mm");
  r.crank.rod = length("65.0 mm");
  r.crank.pin_offset = length("0 mm");
  r.piston.skirt_exhaust = length("38.0 mm");
  r.piston.skirt_intake = length("38.0 mm");
  r.cylinder.crown_at_tdc = length("61.0 mm");
  saw::Port exhaust;
  exhaust.name = "exhaust";
  exhaust.kind = "exhaust";
  exhaust.edges.opens = angle("103 deg");
  exhaust.edges.floor = length("25.2 mm");
  exhaust.edges.width = length("28.0 mm");
  exhaust.corner_roof = exhaust.corner_floor = length("5 mm");
  r.ports.push_back(exhaust);
  return r;
}

saw::Port intake() {
  saw::Port port;
  port.name = "intake";
  port.kind = "intake";
  port.centre = angle("180 deg");
  port.edges.opens = angle("75 deg");
  return port;
}

TEST(survey, an_edge_read_as_an_angle_comes_out_as_that_angle) {
  const Engine engine = resolve(survey(sample()));
  const Timing t = timing(engine, engine.ports[0]);
  ASSERT_TRUE(t.opens.known());
  EXPECT_NEAR(*t.opens / degree, 103.0, 1e-9);
  EXPECT_NEAR(*t.closes / degree, 257.0, 1e-9);
  EXPECT_NEAR(*engine.height(engine.ports[0].roof) * 1e3, 36.54, 0.006);
  EXPECT_NEAR(*(engine.piston.skirt_exhaust - engine.ports[0].floor) * 1e3, 2.20, 1e-9);
  EXPECT_FALSE(engine.ports[0].window.empty());
}

TEST(survey, a_window_timed_by_the_skirt_opens_before_tdc_and_closes_as_long_after) {
  saw::Readings r = sample();
  r.ports.push_back(intake());
  const Engine engine = resolve(survey(r));
  const Timing t = timing(engine, engine.ports[1]);
  EXPECT_NEAR(*t.opens / degree, 75.0, 1e-9);
  EXPECT_NEAR(*t.closes / degree, 75.0, 1e-9);
  EXPECT_NEAR(*t.duration / degree, 150.0, 1e-9);
  EXPECT_NEAR(*engine.height(engine.ports[1].floor) * 1e3, 7.29, 0.01);
}

TEST(survey, every_form_of_one_edge_leads_to_the_same_level) {
  const double roof = *resolve(survey(sample())).ports[0].roof;
  const auto with = [&](auto&& change) {
    saw::Readings r = sample();
    r.ports[0].edges.opens = {};
    change(r.ports[0].edges);
    return *resolve(survey(r)).ports[0].roof;
  };
  EXPECT_NEAR(with([](saw::Edges& e) { e.closes = angle("257 deg"); }), roof, 1e-12);
  EXPECT_NEAR(with([](saw::Edges& e) { e.closes = angle("103 deg"); }), roof, 1e-12) << "typed before TDC";
  EXPECT_NEAR(with([](saw::Edges& e) { e.duration = angle("154 deg"); }), roof, 1e-12);
  EXPECT_NEAR(with([](saw::Edges& e) { e.roof = length("36.53998 mm"); }), roof, 1e-6);
  EXPECT_NEAR(with([](saw::Edges& e) { e.drop = length("24.46002 mm"); }), roof, 1e-6);
}

TEST(survey, an_angle_needs_no_stroke_to_be_itself) {
  saw::Readings r;
  r.name = "bare";
  saw::Port port;
  port.name = "exhaust";
  port.kind = "exhaust";
  port.edges.opens = angle("103 deg");
  r.ports = {port, intake()};
  const Engine engine = resolve(survey(r));
  EXPECT_NEAR(*timing(engine, engine.ports[0]).duration / degree, 154.0, 1e-9);
  EXPECT_NEAR(*timing(engine, engine.ports[1]).opens / degree, 75.0, 1e-9);
}

TEST(survey, what_is_missing_is_named) {
  saw::Readings r = sample();
  r.crank.stroke = {};
  r.ports[0].edges.opens = {};
  const Survey s = survey(r);
  const Engine engine = resolve(s);
  const Timing t = timing(engine, engine.ports[0]);
  ASSERT_FALSE(t.opens.known());
  std::vector<std::string> waits;
  for (std::size_t i = 0; i < s.needs.size(); ++i)
    if (t.opens.needs().has(static_cast<int>(i))) waits.push_back(s.needs[i]);
  EXPECT_THAT(waits, testing::Contains("port.exhaust.opens"));
}

TEST(survey, a_missing_rod_is_a_usual_ratio_and_says_so) {
  saw::Readings r = sample();
  r.crank.rod = {};
  const Survey s = survey(r);
  EXPECT_NEAR(*resolve(s).rod * 1e3, 1.80 * 36.0, 1e-6);
  EXPECT_THAT(s.inputs, testing::Contains(testing::Field(&Input::path, "assumed.rod_ratio")));
}

TEST(survey, edges_known_both_ways_pull_a_missing_rod_toward_the_truth) {
  saw::Readings r = sample();
  const CrankSlider truth(0.036, 0.070);  // a ratio of 1.94, against the prior of 1.80
  r.crank.rod = {};
  r.crank.stroke = length("36.0 mm +- 0.002");
  r.cylinder.crown_at_tdc = length("61.0 mm +- 0.002");
  r.ports.clear();
  for (const auto& [name, degrees] : {std::pair{"exhaust", 95.0}, {"one", 118.0}, {"two", 121.0}, {"three", 124.0}}) {
    saw::Port port;
    port.name = name;
    port.kind = name == std::string("exhaust") ? "exhaust" : "transfer";
    port.edges.opens = angle((std::to_string(degrees) + " deg +- 0.02").c_str());
    port.edges.roof = length((std::to_string(61.0 - truth.drop(degrees * degree) * 1e3) + " mm +- 0.005").c_str());
    r.ports.push_back(port);
  }
  EXPECT_NEAR(*resolve(survey(r)).rod * 1e3, 70.0, 1.0);
}

TEST(survey, opening_and_closing_read_with_one_wheel_cancel_its_zero) {
  saw::Readings r = sample();
  r.ports[0].edges.opens = angle("104 deg");  // zero 1 deg late
  r.ports[0].edges.closes = angle("258 deg");
  const Survey s = survey(r);
  const Engine engine = resolve(s);
  EXPECT_NEAR(*timing(engine, engine.ports[0]).opens / degree, 103.0, 0.02);
}

TEST(survey, of_two_contradicting_readings_neither_is_dropped_and_the_range_covers_both) {
  saw::Readings r = sample();
  r.ports[0].edges.roof = length("35.0 mm");
  const Survey s = survey(r);
  ASSERT_FALSE(s.errors.empty());
  EXPECT_EQ(s.errors[0].code, base::ErrorCode::contradiction);
  EXPECT_EQ(s.errors[0].path, "port.exhaust.roof");
  EXPECT_THAT(s.errors[0].readings, testing::UnorderedElementsAre("port.exhaust.opens", "port.exhaust.roof"));
  ASSERT_EQ(s.checks.size(), 1u);
  EXPECT_FALSE(s.checks[0].agrees);
  const int stretch = s.ports[0].roof.stretch;
  ASSERT_GE(stretch, 0);
  EXPECT_GT(1.96 * s.inputs[static_cast<std::size_t>(stretch)].sigma, 0.5 * s.checks[0].gap);
}

TEST(survey, one_wheel_zero_that_explains_all_edges_is_named) {
  saw::Readings r = sample();
  const CrankSlider truth(0.036, 0.065);
  r.ports.clear();
  for (const auto& [name, kind, degrees] :
       {std::tuple{"exhaust", "exhaust", 103.0}, {"primary", "transfer", 121.0}, {"secondary", "transfer", 122.0}}) {
    saw::Port port;
    port.name = name;
    port.kind = kind;
    port.edges.opens = angle((std::to_string(degrees + 2.0) + " deg +- 0.3").c_str());
    port.edges.roof = length((std::to_string(61.0 - truth.drop(degrees * degree) * 1e3) + " mm").c_str());
    r.ports.push_back(port);
  }
  const Survey s = survey(r);
  EXPECT_THAT(s.wheel_verdict, HasSubstr("wheel zero off by 2.0 deg (it reads late) explains all three edges"));
}

TEST(survey, an_opening_that_looks_like_a_duration_is_asked_about) {
  saw::Readings r = sample();
  r.ports[0].edges.opens = angle("164 deg");
  const Survey s = survey(r);
  ASSERT_EQ(s.errors.size(), 1u);
  EXPECT_THAT(s.errors[0].readings, testing::ElementsAre("opens = \"164 deg\"", "duration = \"164 deg\""));
}

TEST(survey, a_negative_height_is_left_out_with_its_field_named) {
  saw::Readings r = sample();
  r.ports[0].edges.floor = length("-3 mm");
  const Survey s = survey(r);
  ASSERT_EQ(s.errors.size(), 1u);
  EXPECT_EQ(s.errors[0].path, "port.exhaust.floor");
  EXPECT_FALSE(resolve(s).ports[0].floor.known());
  EXPECT_TRUE(resolve(s).ports[0].roof.known()) << "the rest stands";
}

TEST(survey, a_port_above_tdc_is_impossible_and_left_out) {
  saw::Readings r = sample();
  r.ports[0].edges.opens = {};
  r.ports[0].edges.roof = length("63 mm");
  const Survey s = survey(r);
  ASSERT_FALSE(s.errors.empty());
  EXPECT_EQ(s.errors.back().code, base::ErrorCode::impossible);
  EXPECT_FALSE(resolve(s).ports[0].roof.known());
}

TEST(survey, a_mirrored_side_that_differs_is_an_entry_of_its_own) {
  saw::Readings r = sample();
  saw::Port port;
  port.name = "primary";
  port.kind = "transfer";
  port.centre = angle("65 deg");
  port.mirrored = true;
  port.edges.opens = angle("121 deg");
  port.edges.floor = length("25.2 mm");
  port.edges.width = length("16 mm");
  port.twin.opens = angle("122.5 deg");
  r.ports.push_back(port);
  const Engine engine = resolve(survey(r));
  ASSERT_EQ(engine.ports.size(), 3u);
  EXPECT_EQ(engine.ports[2].twin_of, 1);
  EXPECT_NEAR(*engine.ports[2].centre / degree, 65.0, 1e-9) << "as drawn on the first side; it lies mirrored";
  EXPECT_NEAR(*timing(engine, engine.ports[2]).opens / degree, 122.5, 1e-9);
  EXPECT_NEAR(*timing(engine, engine.ports[1]).opens / degree, 121.0, 1e-9);
  EXPECT_EQ(*engine.ports[1].floor, *engine.ports[2].floor) << "one reading, not two";
}

TEST(survey, a_missing_crown_height_comes_from_an_edge_known_both_ways) {
  saw::Readings r = sample();
  r.cylinder.crown_at_tdc = {};
  r.ports[0].edges.roof = length("36.542 mm");
  const Engine engine = resolve(survey(r));
  ASSERT_TRUE(engine.crown_at_tdc.known());
  EXPECT_NEAR(*engine.crown_at_tdc * 1e3, 61.0, 0.01);
}

TEST(survey, windows_that_lie_over_each_other_are_impossible) {
  saw::Readings r = sample();
  saw::Port port = r.ports[0];
  port.name = "primary";
  port.kind = "transfer";
  port.centre = angle("40 deg");
  port.edges.opens = angle("120 deg");
  port.corner_roof = port.corner_floor = length("1 mm");
  r.ports.push_back(port);
  const Survey s = survey(r);
  ASSERT_EQ(s.errors.size(), 1u);
  EXPECT_THAT(s.errors[0].message, HasSubstr("windows of exhaust and primary lie over each other"));
}

TEST(survey, a_shape_that_cannot_be_waits_for_its_width) {
  saw::Readings r = sample();
  r.ports[0].edges.width = length("49.9 mm");
  r.crank.bore = length("45 mm");
  const Survey s = survey(r);
  ASSERT_FALSE(s.errors.empty());
  EXPECT_EQ(s.errors.back().path, "port.exhaust.width");
  EXPECT_FALSE(resolve(s).ports[0].window_known.known());
}

TEST(survey, a_drop_without_a_stroke_is_no_angle) {
  saw::Readings r;
  r.name = "bare";
  saw::Port port;
  port.name = "exhaust";
  port.kind = "exhaust";
  port.edges.drop = length("23 mm");
  r.ports = {port};
  const Engine engine = resolve(survey(r));
  EXPECT_NEAR(*engine.ports[0].roof * 1e3, 23.0, 1e-9);
  EXPECT_FALSE(timing(engine, engine.ports[0]).opens.known());
}

TEST(survey, a_short_duration_is_a_transfers_own) {
  saw::Readings r = sample();
  r.ports[0].kind = "transfer";
  r.ports[0].edges.opens = {};
  r.ports[0].edges.duration = angle("106 deg");
  r.ports[0].corner_roof = r.ports[0].corner_floor = length("1 mm");
  const Survey s = survey(r);
  EXPECT_TRUE(s.errors.empty()) << s.errors[0].message;
  EXPECT_NEAR(*timing(resolve(s), resolve(s).ports[0]).opens / degree, 127.0, 1e-9);
}

TEST(survey, repeats_that_disagree_are_named_and_the_range_holds_them) {
  saw::Readings r = sample();
  r.crank.stroke.repeats = {length("34 mm").repeats[0], length("36 mm").repeats[0]};
  const Survey s = survey(r);
  ASSERT_FALSE(s.errors.empty());
  EXPECT_EQ(s.errors[0].path, "crank.stroke");
  EXPECT_GE(1.96 * s.inputs[static_cast<std::size_t>(s.stroke.input)].sigma, 1.0e-3);
}

TEST(survey, crown_heights_that_disagree_leave_a_range_that_holds_both) {
  saw::Readings r = sample();
  r.cylinder.base_gasket = length("0.45 mm");
  r.cylinder.crown_above_deck = length("62.45 mm");
  const Survey s = survey(r);
  ASSERT_GE(s.crown_stretch, 0);
  const double reach = 1.96 * s.inputs[static_cast<std::size_t>(s.crown_stretch)].sigma;
  const double crown = *resolve(s).crown_at_tdc;
  EXPECT_LE(crown - reach, 0.061);
  EXPECT_GE(crown + reach, 0.062);
}

TEST(survey, an_edge_that_contradicts_itself_does_not_bend_the_rod) {
  saw::Readings r = sample();
  r.crank.rod = {};
  r.ports[0].edges.opens = angle("103 deg +- 0.05");
  r.ports[0].edges.roof = length("35.0 mm +- 0.01");
  const Survey s = survey(r);
  EXPECT_FALSE(s.errors.empty());
  EXPECT_NEAR(*resolve(s).rod / 0.036, 1.80, 1e-9);
}

TEST(survey, a_crown_height_that_explains_the_edges_as_well_as_the_wheel_is_named_beside_it) {
  saw::Readings r = sample();
  r.cylinder.crown_at_tdc = length("60.0 mm");
  const CrankSlider truth(0.036, 0.065);
  r.ports.clear();
  for (const auto& [name, kind, degrees] : {std::tuple{"exhaust", "exhaust", 103.0}, {"primary", "transfer", 106.0}}) {
    saw::Port port;
    port.name = name;
    port.kind = kind;
    port.edges.opens = angle((std::to_string(degrees) + " deg +- 0.3").c_str());
    port.edges.roof = length((std::to_string(61.0 - truth.drop(degrees * degree) * 1e3) + " mm").c_str());
    r.ports.push_back(port);
  }
  EXPECT_THAT(survey(r).wheel_verdict, HasSubstr("crown height 1.00 mm too low"));
}

TEST(survey, a_wheel_reading_times_the_intake_however_roughly_the_skirt_was_read) {
  saw::Readings r = sample();
  r.piston.skirt_intake = length("38.0 mm +- 0.5");
  r.ports.push_back(intake());
  r.ports[1].edges.floor = length("7.3 mm");
  const Survey s = survey(r);
  double by_wheel = 0.0;
  for (const EdgeReading& reading : s.ports[1].floor.readings)
    if (reading.form == EdgeForm::opens) by_wheel = reading.weight;
  EXPECT_GT(by_wheel, 0.8);
}

TEST(survey, a_skirt_that_was_not_read_hides_no_contradiction) {
  saw::Readings r = sample();
  r.piston.skirt_intake = {};
  r.ports.push_back(intake());
  r.ports[1].edges.closes = angle("55 deg");
  EXPECT_FALSE(survey(r).errors.empty());
}

TEST(survey, two_equal_places_of_squish_have_no_tilt_and_the_least_is_theirs) {
  saw::Readings r = sample();
  r.cylinder.squish.places = {{"exhaust", length("0.90 mm")}, {"intake", length("0.90 mm")}};
  const Engine engine = resolve(survey(r));
  EXPECT_EQ(*engine.squish_tilt, 0.0);
  EXPECT_NEAR(*engine.squish_least, 0.9e-3, 1e-12);
}

TEST(survey, the_pin_axis_follows_from_the_pressed_side_and_either_end_of_it_is_the_same) {
  saw::Readings r = sample();
  r.cylinder.thrust = angle("180 deg");
  EXPECT_NEAR(*resolve(survey(r)).pin_axis / degree, 90.0, 1e-9);
  r.cylinder.thrust = {};
  r.cylinder.pin_axis = angle("-90 deg");
  EXPECT_NEAR(*resolve(survey(r)).pin_axis / degree, 90.0, 1e-9);
}

TEST(survey, round_ended_windows_stay_windows_in_every_sample) {
  saw::Readings r = sample();
  r.ports[0].edges.width = length("10 mm");
  const Survey s = survey(r);
  std::vector<double> values = s.values();
  for (std::size_t i = 0; i < s.inputs.size(); ++i)
    if (s.inputs[i].path == "port.exhaust.corner_roof") values[i] += 1.5e-3;
  Engine engine;
  resolve(s, values, engine);
  EXPECT_FALSE(engine.ports[0].window.empty());
}

TEST(survey, of_three_readings_the_odd_one_is_named) {
  saw::Readings r = sample();
  r.ports[0].edges.roof = length("36.54 mm");
  r.ports[0].edges.closes = angle("257 deg +- 0.3");
  r.ports[0].edges.opens = angle("108 deg +- 0.3");
  const Survey s = survey(r);
  ASSERT_EQ(s.checks.size(), 1u);
  EXPECT_EQ(s.checks[0].mend, "the others agree without port.exhaust.opens; read that again");
}

}  // namespace
}  // namespace portwright::geometry
