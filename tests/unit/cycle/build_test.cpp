// From an engine to its network: what it holds, what stood in, and a sentence for each engine that cannot turn.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>

#include "base/file.hpp"
#include "unit/support/sample_engines.hpp"

namespace portwright::cycle {
namespace {

using bench::refusals;
using bench::sample_engine;
using bench::sample_network;
using bench::SampleEngine;
using testing::AllOf;
using testing::Contains;
using testing::Each;
using testing::Field;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

auto says(const std::string& text) { return Contains(Field(&base::Error::message, HasSubstr(text))); }
auto at_path(const std::string& path) { return Contains(Field(&base::Error::path, path)); }

/// A saw file's text with lines taken out.
SampleEngine without(const std::string& name, std::initializer_list<const char*> starts) {
  const auto file = base::read_file(PORTWRIGHT_SOURCE_DIR "/data/samples/" + name + ".saw.toml", 1u << 20);
  std::string text = *file, kept;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    const std::string line = text.substr(at, end - at);
    if (std::none_of(starts.begin(), starts.end(), [&](const char* s) { return line.starts_with(s); }))
      kept += line + "\n";
    at = end + 1;
  }
  return bench::engine_of(saw::read_saw(kept)->readings);
}

TEST(build, every_sample_that_has_its_readings_is_built) {
  for (const char* name : bench::running_samples) {
    SCOPED_TRACE(name);
    const Network net = sample_network(name);
    EXPECT_EQ(net.ducts.size(), net.names.size());
    EXPECT_EQ(net.ducts.size(), net.ends.size());
    const auto rooms = static_cast<int>(net.rooms.size()), openings = static_cast<int>(net.openings.size());
    for (const auto& ends : net.ends)
      for (const DuctEnd& end : ends) {
        EXPECT_LT(end.room, rooms);
        EXPECT_GE(end.opening, 0);
        EXPECT_LT(end.opening, openings);
      }
    for (const Room& room : net.rooms) EXPECT_GT(room.size, 0.0);
    EXPECT_LT(net.start, 0.0);
    EXPECT_GT(net.exhaust_opens, 0.0);
  }
}

TEST(build, the_case_is_what_was_read_less_the_passages_counted_as_ducts) {
  const SampleEngine sample = sample_engine("alder-60");
  const Network net = bench::network_of(sample);
  double passages = 0.0;
  for (std::size_t d = 0; d < net.ducts.size(); ++d)
    if (net.names[d].role == Role::transfer)
      for (const double v : net.ducts[d].grid.volume) passages += v;
  ASSERT_TRUE(sample.engine.case_at_tdc);
  EXPECT_GT(passages, 0.0);
  EXPECT_NEAR(net.rooms[static_cast<std::size_t>(net.crankcase)].size + passages, *sample.engine.case_at_tdc, 1e-15);
}

TEST(build, a_turn_begins_when_the_exhaust_has_just_shut) {
  const SampleEngine sample = sample_engine("alder-60");
  const Network net = bench::network_of(sample);
  for (const geometry::Port& port : sample.engine.ports)
    if (port.kind == geometry::PortKind::exhaust) {
      EXPECT_NEAR(net.slider.drop(net.start), port.window.roof(), 1e-12);
      EXPECT_NEAR(net.slider.drop(net.exhaust_opens), port.window.roof(), 1e-12);
    }
}

TEST(build, what_stood_in_for_a_reading_is_listed_with_its_row) {
  for (const char* name : bench::running_samples)
    for (const Filled& filled : sample_network(name).filled) {
      SCOPED_TRACE(std::string(name) + " " + filled.reading);
      if (std::string(filled.assumption) == "reed_window") continue;  // a share of the petal, no row
      const auto ranges = assumption_ranges();
      EXPECT_TRUE(
          std::any_of(ranges.begin(), ranges.end(), [&](const auto& r) { return r.row->name == filled.assumption; }));
      EXPECT_GT(filled.value, -1e-12);
    }
}

TEST(build, an_air_head_saw_is_a_sentence) {
  const SampleEngine birch = sample_engine("birch-50");
  EXPECT_THAT(refusals(birch.engine, birch.survey), says("air-head"));
}

TEST(build, every_missing_reading_is_named_at_once_with_its_path) {
  const SampleEngine bare = bench::engine_of(saw::Readings{});
  EXPECT_THAT(refusals(bare.engine, bare.survey),
              AllOf(at_path("crank.bore"), at_path("crank.stroke"), at_path("cylinder.chamber")));
  const SampleEngine willow = sample_engine("willow-64");
  const base::Errors errors = refusals(willow.engine, willow.survey);
  EXPECT_THAT(errors, Not(IsEmpty()));
  EXPECT_THAT(errors, Each(Field(&base::Error::message, Not(IsEmpty()))));
  EXPECT_THAT(errors, Each(Field(&base::Error::path, Not(IsEmpty()))));
}

TEST(build, without_a_carburettor_the_venturi_is_asked_for) {
  const SampleEngine saw = without("alder-60", {"venturi", "throttle"});
  EXPECT_THAT(refusals(saw.engine, saw.survey), at_path("carburettor.venturi"));
}

TEST(build, without_an_exhaust_the_exhaust_is_asked_for) {
  SampleEngine saw = sample_engine("alder-60");
  for (geometry::Port& port : saw.engine.ports)
    if (port.kind == geometry::PortKind::exhaust) port.kind = geometry::PortKind::transfer;
  EXPECT_THAT(refusals(saw.engine, saw.survey), at_path("port.exhaust"));
}

TEST(build, a_shut_muffler_is_a_sentence) {
  SampleEngine saw = sample_engine("alder-60");
  saw.engine.muffler_outlets = base::Known(0.0);
  EXPECT_THAT(refusals(saw.engine, saw.survey), says("the muffler is shut"));
}

/// Moves every port of a kind down the bore.
void lower(geometry::Engine& engine, geometry::PortKind kind, double by) {
  for (geometry::Port& port : engine.ports)
    if (port.kind == kind) geometry::shift(port, base::Known(by));
}

TEST(build, a_port_that_never_opens_is_a_sentence) {
  SampleEngine saw = sample_engine("alder-60");
  lower(saw.engine, geometry::PortKind::exhaust, *saw.engine.stroke);
  EXPECT_THAT(refusals(saw.engine, saw.survey), says("the exhaust never opens"));
  saw = sample_engine("alder-60");
  lower(saw.engine, geometry::PortKind::transfer, *saw.engine.stroke);
  EXPECT_THAT(refusals(saw.engine, saw.survey), says("a transfer never opens"));
  saw = sample_engine("alder-60");
  lower(saw.engine, geometry::PortKind::intake, -*saw.engine.stroke);
  EXPECT_THAT(refusals(saw.engine, saw.survey), says("the intake never opens"));
}

TEST(build, a_case_without_room_is_a_sentence) {
  SampleEngine saw = sample_engine("alder-60");
  saw.engine.case_at_tdc = saw.engine.swept() * base::Known(1.05);
  EXPECT_THAT(refusals(saw.engine, saw.survey), says("leaves no room under the piston"));
}

TEST(build, an_exhaust_that_shuts_at_tdc_is_a_sentence) {
  SampleEngine saw = sample_engine("alder-60");
  for (geometry::Port& port : saw.engine.ports)
    if (port.kind == geometry::PortKind::exhaust) geometry::shift(port, base::Known(0.2e-3 - port.window.roof()));
  EXPECT_THAT(refusals(saw.engine, saw.survey), says("shuts too late"));
}

TEST(build, the_advance_follows_its_curve_and_is_flat_beyond_it) {
  Network net;
  net.burning.advance = 0.4;
  EXPECT_EQ(advance_at(net, 100.0), 0.4);
  net.advance_curve = {{50.0, 0.2}, {100.0, 0.4}, {200.0, 0.3}};
  EXPECT_EQ(advance_at(net, 10.0), 0.2);
  EXPECT_DOUBLE_EQ(advance_at(net, 75.0), 0.3);
  EXPECT_DOUBLE_EQ(advance_at(net, 150.0), 0.35);
  EXPECT_EQ(advance_at(net, 400.0), 0.3);
}

TEST(build, finer_cells_hold_the_same_volume) {
  const SampleEngine sample = sample_engine("alder-60");
  const auto fine = build(sample.engine, middle_assumptions(), sample.survey.needs, {0.004, 0.005, 0.007});
  const Network usual = bench::network_of(sample);
  ASSERT_TRUE(fine);
  for (std::size_t d = 0; d < usual.ducts.size(); ++d) {
    EXPECT_GT(fine->ducts[d].grid.cells(), usual.ducts[d].grid.cells());
    double a = 0.0, b = 0.0;
    for (const double v : usual.ducts[d].grid.volume) a += v;
    for (const double v : fine->ducts[d].grid.volume) b += v;
    EXPECT_NEAR(a, b, 1e-12 * a);
  }
}

}  // namespace
}  // namespace portwright::cycle
