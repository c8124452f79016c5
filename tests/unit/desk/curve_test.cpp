#include "desk/curve.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "desk/desk.hpp"

namespace portwright::desk {
namespace {

const std::string samples = std::string(PORTWRIGHT_SOURCE_DIR) + "/data/samples/";

CurveRequest alder(const char* cuts = "") {
  CurveRequest request;
  request.file = samples + "alder-60.saw.toml";
  request.cuts = cuts;
  request.speeds = "6000:10500:1500";
  return request;
}

std::vector<double> powers(const std::vector<wire::CurvePoint>& points) {
  std::vector<double> out;
  for (const wire::CurvePoint& point : points) out.push_back(point.power_kw);
  return out;
}

TEST(curve, a_first_look_comes_before_anything_is_settled_and_lies_near_it) {
  std::vector<wire::CurveAnswer> parts;
  const auto answer = curve(alder(), [&](const wire::CurveAnswer& part) {
    parts.push_back(part);
    return false;
  });
  ASSERT_TRUE(answer) << answer.error().front().message;
  ASSERT_EQ(answer->points.size(), 4U);
  EXPECT_EQ(answer->doing, "done");
  EXPECT_EQ(answer->share, 1.0);
  EXPECT_TRUE(answer->stock.empty());
  double share = 0.0;
  const wire::CurveAnswer* looked = nullptr;
  for (const wire::CurveAnswer& part : parts) {
    EXPECT_GE(part.share, share) << "the share done never falls";
    share = part.share;
    if (part.points.size() == 4 && looked == nullptr) looked = &part;
  }
  ASSERT_NE(looked, nullptr);
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_EQ(looked->points[i].stage, "first look");
    EXPECT_EQ(looked->points[i].settled, "");
    EXPECT_EQ(answer->points[i].stage, "settled");
    EXPECT_EQ(answer->points[i].settled, "stable");
    EXPECT_NEAR(looked->points[i].power_kw, answer->points[i].power_kw, 0.02 * answer->points[i].power_kw);
  }
  EXPECT_FALSE(answer->sentence.empty());
}

TEST(curve, ends_where_the_run_ends) {
  RunRequest plain;
  plain.file = alder().file;
  plain.speeds = "7500:9000:1500";
  plain.bands = false;
  const auto one = run(plain);
  CurveRequest request = alder();
  request.speeds = plain.speeds;
  const auto other = curve(request);
  ASSERT_TRUE(one && other);
  ASSERT_EQ(other->points.size(), 2U);
  for (std::size_t i = 0; i < other->points.size(); ++i)
    for (const study::Figure& figure : one->points[i].figures)
      if (figure.id == "run.power") {
        EXPECT_NEAR(other->points[i].power_kw, *figure.value, 3e-4 * *figure.value) << other->points[i].rpm;
      }
}

TEST(curve, is_the_same_to_the_last_bit_for_one_thread_and_two) {
  CurveRequest request = alder("base -0.3 mm; roof exhaust +0.6 mm");
  request.settle = false;
  request.threads = 1;
  const auto one = curve(request);
  request.threads = 2;
  const auto two = curve(request);
  ASSERT_TRUE(one && two);
  EXPECT_EQ(powers(one->points), powers(two->points));
  EXPECT_EQ(powers(one->stock), powers(two->stock));
}

TEST(curve, remembers_stock_for_the_next_cut_and_forgets_it_for_another_saw) {
  CurveMemory memory;
  CurveRequest request = alder();
  request.settle = false;
  ASSERT_TRUE(curve(request, {}, &memory));
  request.cuts = "roof exhaust +0.5 mm";
  std::optional<wire::CurveAnswer> first;
  const auto answer = curve(
      request,
      [&](const wire::CurveAnswer& part) {
        if (!first) first = part;
        return false;
      },
      &memory);
  ASSERT_TRUE(answer && first);
  EXPECT_EQ(first->stock.size(), 4U) << "stock stands there at once";
  EXPECT_EQ(answer->points.size(), 4U);
  EXPECT_NE(powers(answer->points), powers(answer->stock));
  EXPECT_THAT(answer->sentence, testing::HasSubstr("against stock"));

  first.reset();
  request.file = samples + "oak-110.saw.toml";
  request.cuts = "";
  ASSERT_TRUE(curve(
      request,
      [&](const wire::CurveAnswer& part) {
        if (!first) first = part;
        return true;
      },
      &memory));
  EXPECT_TRUE(first->points.empty());
}

TEST(curve, stopped_it_keeps_what_is_ready) {
  const auto answer = curve(alder(), [](const wire::CurveAnswer& part) { return !part.points.empty(); });
  ASSERT_TRUE(answer);
  EXPECT_TRUE(answer->stopped);
  EXPECT_GE(answer->points.size(), 1U);
  EXPECT_LT(answer->points.size(), 4U);
  EXPECT_LT(answer->share, 1.0);
}

TEST(curve, reed_engines_end_with_the_mean_of_scattered_turns) {
  CurveRequest request;
  request.file = samples + "spruce-92.saw.toml";
  request.speeds = "8000";
  const auto answer = curve(request);
  ASSERT_TRUE(answer) << answer.error().front().message;
  ASSERT_EQ(answer->points.size(), 1U);
  EXPECT_EQ(answer->points[0].stage, "mean of turns");
}

TEST(curve, what_cannot_be_turned_is_answered_with_what_is_missing) {
  CurveRequest request;
  request.file = samples + "willow-64.saw.toml";
  const auto answer = curve(request);
  ASSERT_FALSE(answer);
  EXPECT_FALSE(answer.error().front().message.empty());
  request = alder();
  request.speeds = "fast";
  EXPECT_FALSE(curve(request));
}

TEST(traces, go_round_by_the_degree_and_say_where_windows_stand_open) {
  TracesRequest request;
  request.file = samples + "alder-60.saw.toml";
  request.cuts = "roof exhaust +0.8 mm";
  request.speed = "9000";
  const auto answer = traces(request);
  ASSERT_TRUE(answer) << answer.error().front().message;
  ASSERT_EQ(answer->angle_deg.size(), 361U);
  for (const wire::TraceSeries& series : answer->series) {
    ASSERT_EQ(series.values.size(), 361U) << series.id;
    ASSERT_EQ(series.stock.size(), 361U) << series.id;
    EXPECT_NEAR(series.values.front(), series.values.back(), 1e-9 + 1e-6 * std::abs(series.values.front()))
        << series.id << " ends where it began";
    for (const double value : series.values) ASSERT_TRUE(std::isfinite(value)) << series.id;
    EXPECT_NE(series.id, "reed_lift_mm") << "this saw has no petals";
  }
  StudyRequest asked;
  asked.file = request.file;
  asked.cuts = request.cuts;
  const auto known = study(asked);
  ASSERT_TRUE(known);
  for (const study::Figure& figure : known->figures) {
    const char* kind = figure.id == "port.exhaust.opens"     ? "exhaust"
                       : figure.id == "first_transfer.opens" ? "transfer"
                                                             : "";
    for (const wire::TraceWindow& window : answer->windows)
      if (window.kind == kind) {
        EXPECT_NEAR(window.opens_deg, *figure.value, 1.6) << kind;
      }
    for (const wire::TraceWindow& window : answer->stock_windows)
      if (window.kind == kind && figure.stock) {
        EXPECT_NEAR(window.opens_deg, figure.stock->value, 1.6) << kind;
      }
  }
  EXPECT_THAT(answer->sentence, testing::HasSubstr("When the transfers open"));
}

}  // namespace
}  // namespace portwright::desk
