// The gauge and the air's way of real samples.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "desk/run.hpp"
#include "turning_samples.hpp"

namespace {

using namespace portwright;
using namespace turning_samples;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::SizeIs;

TEST(crank, the_needle_climbs_pull_by_pull_and_stands_still) {
  const auto answer = desk::crank({sample("alder-60"), ""});
  ASSERT_TRUE(answer);
  ASSERT_GE(answer->strokes_bar.size(), 4u);
  for (std::size_t i = 1; i < answer->strokes_bar.size(); ++i)
    EXPECT_GE(answer->strokes_bar[i], answer->strokes_bar[i - 1] - 1e-9);
  ASSERT_THAT(answer->figures, SizeIs(1));
  const study::Figure& gauge = answer->figures[0];
  EXPECT_EQ(gauge.id, "crank.gauge");
  EXPECT_NEAR(*gauge.value, answer->strokes_bar.back() * 14.5038, 0.01);
  EXPECT_LT(*gauge.low, *gauge.value);
  EXPECT_GT(*gauge.high, *gauge.value);
  EXPECT_NEAR(*answer->read_bar, 145.0 / 14.5038, 1e-3);
  EXPECT_THAT(answer->verdict, HasSubstr("145 psi"));
  for (const study::Finding& finding : answer->findings) EXPECT_LE(finding.state, study::State::note) << finding.text;
}

TEST(crank, a_smaller_chamber_shows_more_and_a_low_reading_is_said_to_be) {
  const Folder folder;
  const std::string low = changed(text_of(sample("alder-60")), "gauge_compression = \"145 psi\"",
                                  "gauge_compression = \"45 psi\"\ngauge_volume = \"3 cc\"");
  const auto answer = desk::crank({folder.file("g.saw.toml", low), "base -0.5 mm"});
  ASSERT_TRUE(answer);
  ASSERT_TRUE(answer->figures[0].change);
  EXPECT_GT(answer->figures[0].change->value, 0.0);
  EXPECT_TRUE(answer->figures[0].change->distinguishable);
  EXPECT_NEAR(*answer->figures[0].value - answer->figures[0].stock->value, answer->figures[0].change->value, 1e-9);
  EXPECT_THAT(answer->verdict, HasSubstr("lies below"));
  ASSERT_THAT(answer->findings, Not(IsEmpty()));
  const study::Finding& odd = answer->findings.front();
  EXPECT_EQ(odd.rule, "gauge_agreement");
  EXPECT_EQ(odd.state, study::State::caution);
  EXPECT_LT(*odd.margin, 0.0);
  EXPECT_THAT(odd.text, HasSubstr("45 psi"));
  EXPECT_EQ(odd.letter, "A");
}

TEST(crank, stopped_says_so_and_gives_no_figure) {
  const auto answer = desk::crank({sample("alder-60"), ""}, [](double, const std::string&) { return true; });
  ASSERT_TRUE(answer);
  EXPECT_TRUE(answer->stopped);
  EXPECT_THAT(answer->figures, IsEmpty());
}

TEST(airflow, the_charge_is_parted_among_the_passages_without_rest) {
  const Folder folder;
  desk::AirflowRequest request{sample("alder-60"), "", "9000", folder.at("a.svg")};
  const auto answer = desk::airflow(request);
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->rpm_from, "asked");
  EXPECT_THAT(answer->written, testing::ElementsAre(request.plot));
  EXPECT_THAT(text_of(request.plot), HasSubstr("<svg"));
  double transfers = 0.0, passed = 0.0, drawn = 0.0, out = 0.0;
  for (const wire::AirWay& way : answer->ways) {
    double losses = 0.0;
    for (std::size_t i = 0; i < way.losses.size(); ++i) {
      losses += way.losses[i].share;
      if (i > 0) {
        EXPECT_LE(way.losses[i].share, way.losses[i - 1].share) << way.name;
      }
    }
    if (!way.losses.empty()) {
      EXPECT_NEAR(losses, 1.0, 1e-9) << way.name;
    }
    EXPECT_FALSE(way.sentence.empty());
    if (way.kind == "transfer" || way.kind == "boost") {
      transfers += way.share;
      passed += way.forward_mg - way.back_mg;
    }
    if (way.kind == "tract") drawn += way.forward_mg - way.back_mg;
    if (way.kind == "exhaust") out += way.forward_mg - way.back_mg;
  }
  EXPECT_NEAR(transfers, 1.0, 1e-9);
  EXPECT_NEAR(passed, drawn, 0.01 * drawn) << "what comes in goes on";
  EXPECT_NEAR(out, drawn, 0.02 * drawn);
}

TEST(airflow, a_throttled_mouth_opened_brings_charge) {
  const Folder folder;
  desk::AirflowRequest request{sample("alder-60"), "mouth primary to 0.6 cm2", "9000", ""};
  const auto answer = desk::airflow(request);
  ASSERT_TRUE(answer);
  const auto primary = std::find_if(answer->gains.begin(), answer->gains.end(),
                                    [](const wire::AirGain& gain) { return gain.port == "primary"; });
  ASSERT_NE(primary, answer->gains.end());
  for (const wire::AirGain& gain : answer->gains) {
    EXPECT_THAT(gain.cut, testing::StartsWith("mouth " + gain.port + " to "));
    EXPECT_TRUE(std::isfinite(gain.charging_percent) && std::isfinite(gain.power_percent));
    EXPECT_THAT(gain.sentence, HasSubstr("case"));
  }
  EXPECT_GT(primary->charging_percent, 1.0);
  EXPECT_THAT(primary->sentence, HasSubstr("changes charging by +"));
}

TEST(airflow, takes_the_speed_in_the_cut_and_refuses_what_no_saw_turns) {
  desk::AirflowRequest request{sample("alder-60"), "", "0", ""};
  ASSERT_FALSE(desk::airflow(request));
  EXPECT_EQ(desk::airflow(request).error().front().code, base::ErrorCode::out_of_range);
  request.speed = "60000";
  EXPECT_FALSE(desk::airflow(request));
  request.speed = "";
  const auto stopped = desk::airflow(request, [](double, const std::string&) { return true; });
  ASSERT_TRUE(stopped);
  EXPECT_TRUE(stopped->stopped);
  EXPECT_THAT(stopped->ways, IsEmpty());
  EXPECT_TRUE(stopped->rpm_from == "in-cut reading" || stopped->rpm_from == "usual");
}

}  // namespace
