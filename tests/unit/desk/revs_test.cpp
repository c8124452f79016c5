// The bottom end of real samples, of saws with few readings, and of saws that cannot be.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "desk/revs.hpp"
#include "turning_samples.hpp"

namespace {

using namespace portwright;
using namespace turning_samples;
using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

const study::Figure* figure(const wire::RevsAnswer& answer, const std::string& id) {
  for (const study::Figure& one : answer.figures)
    if (one.id == id) return &one;
  return nullptr;
}

const wire::Rung* rung(const wire::RevsAnswer& answer, const std::string& id) {
  for (const wire::Rung& one : answer.rungs)
    if (one.id == id) return &one;
  return nullptr;
}

TEST(revs, a_saw_with_all_readings_is_told_loads_life_balance_and_ceiling) {
  const Folder folder;
  const auto answer = desk::revs({sample("larch-70"), "", "", folder.at("r.svg")});
  ASSERT_TRUE(answer) << answer.error().front().message;
  EXPECT_TRUE(answer->turned);
  EXPECT_EQ(answer->cut_from, "in-cut reading");
  EXPECT_EQ(answer->free_from, "limiter");
  for (const char* id : {"bottom_end.thrust", "bottom_end.big_end_load", "bottom_end.small_end_load", "bottom_end.life",
                         "bottom_end.flutter", "bottom_end.balance", "bottom_end.rev_ceiling",
                         "bottom_end.rev_ceiling_cut", "bottom_end.wall_pressure", "bottom_end.shaking"}) {
    const study::Figure* one = figure(*answer, id);
    ASSERT_NE(one, nullptr) << id;
    ASSERT_TRUE(one->value.has_value()) << id;
    EXPECT_GT(*one->value, 0.0) << id;
    ASSERT_TRUE(one->low && one->high) << id;
    EXPECT_LE(*one->low, *one->value) << id;
    EXPECT_GE(*one->high, *one->value) << id;
    EXPECT_FALSE(one->why.empty() || one->source.empty() || one->text.empty()) << id;
  }
  EXPECT_NEAR(*figure(*answer, "bottom_end.balance")->value, 50.0, 1e-9);
  ASSERT_EQ(answer->angle_deg.size(), 361u);
  for (const wire::TraceSeries& series : answer->series) EXPECT_EQ(series.values.size(), 361u) << series.id;
  EXPECT_THAT(answer->written, testing::ElementsAre(folder.at("r.svg")));
  EXPECT_THAT(text_of(folder.at("r.svg")), HasSubstr("<svg"));
  EXPECT_THAT(answer->sentences.front(), HasSubstr("maker's permitted speed"));
  EXPECT_THAT(answer->cautions.back(), HasSubstr("chain"));
}

TEST(revs, no_stock_sample_comes_out_with_a_stop_at_its_own_speeds) {
  for (const char* name : {"alder-60", "birch-50", "hornbeam-66-a", "larch-70", "oak-110", "spruce-92", "willow-64"}) {
    const auto answer = desk::revs({sample(name), "", "", ""});
    ASSERT_TRUE(answer) << name << ' ' << answer.error().front().message;
    for (const study::Finding& finding : answer->findings)
      EXPECT_NE(finding.state, study::State::stop) << name << ' ' << finding.text;
  }
}

// Stock saws by stroke at permitted speeds, nothing weighed and nothing else read.
TEST(revs, bore_and_stroke_alone_give_a_ladder_without_a_stop) {
  const Folder folder;
  struct Stock {
    const char *bore, *stroke, *rpm;
  };
  for (const Stock& saw : {Stock{"42", "30", "13000"}, Stock{"46", "32", "14000"}, Stock{"60", "43", "11500"}}) {
    const std::string text = std::string("name = \"bare\"\n[crank]\nbore = \"") + saw.bore + " mm\"\nstroke = \"" +
                             saw.stroke + " mm\"\n[[piston.ring]]\nheight = \"1.5 mm\"\n";
    const auto answer = desk::revs({folder.file("b.saw.toml", text), "", saw.rpm, ""});
    ASSERT_TRUE(answer) << answer.error().front().message;
    EXPECT_FALSE(answer->turned);
    EXPECT_THAT(answer->waits, Not(IsEmpty()));
    for (const study::Finding& finding : answer->findings)
      EXPECT_LT(finding.state, study::State::caution) << finding.text;
    const study::Figure* ceiling = figure(*answer, "bottom_end.rev_ceiling");
    ASSERT_NE(ceiling, nullptr);
    EXPECT_GT(*ceiling->value, std::stod(saw.rpm));
    EXPECT_THAT(answer->sentences.front(), HasSubstr("no bearing has a rating"));
    EXPECT_THAT(ceiling->label, HasSubstr("upper bound"));
    EXPECT_THAT(answer->duty, IsEmpty());
    EXPECT_EQ(figure(*answer, "bottom_end.life"), nullptr) << "no rating, no hours";
    std::vector<std::string> assumed;
    for (const study::Assumed& one : answer->head.assumed) assumed.push_back(one.name);
    EXPECT_THAT(assumed, Contains("piston_mass (for piston.mass)"));
    EXPECT_THAT(assumed, Contains("rod_big_mass (for bottom_end.rod_big_mass)"));
  }
}

// Ratings of bearings of these bores as catalogues have them (memory); permitted speeds of stock saws of these strokes.
TEST(revs, stock_saws_with_every_bearing_rated_have_no_stop_at_their_permitted_speed) {
  const Folder folder;
  struct Stock {
    const char *bore, *stroke, *rpm, *big_end, *small_end, *main;
  };
  for (const Stock& saw :
       {Stock{"42", "30", "13000", "8 kN", "6 kN", "7.65 kN"}, Stock{"46", "32", "14000", "10 kN", "7.5 kN", "7.65 kN"},
        Stock{"60", "43", "11500", "19 kN", "13 kN", "13.5 kN"}}) {
    const std::string text = std::string("name = \"rated\"\n[crank]\nbore = \"") + saw.bore + " mm\"\nstroke = \"" +
                             saw.stroke + " mm\"\n[bottom_end]\nbig_end = { rating = \"" + saw.big_end +
                             "\", kind = \"needle\" }\nsmall_end = { rating = \"" + saw.small_end +
                             "\", kind = \"needle\" }\nmain = { rating = \"" + saw.main + "\", kind = \"ball\" }\n";
    const auto answer = desk::revs({folder.file("b.saw.toml", text), "", saw.rpm, ""});
    ASSERT_TRUE(answer) << answer.error().front().message;
    for (const study::Finding& finding : answer->findings)
      EXPECT_LT(finding.state, study::State::stop) << saw.stroke << ' ' << finding.text;
    const study::Figure* ceiling = figure(*answer, "bottom_end.rev_ceiling");
    ASSERT_NE(ceiling, nullptr);
    EXPECT_GT(*ceiling->value, std::stod(saw.rpm)) << saw.stroke;
    EXPECT_THAT(ceiling->label, Not(HasSubstr("upper bound")));
  }
}

TEST(revs, a_ball_bearing_bears_less_at_rest_than_a_roller_of_the_same_rating) {
  const Folder folder;
  const auto rung = [&](const std::string& kind) {
    const std::string text =
        "name = \"main\"\n[crank]\nbore = \"50 mm\"\nstroke = \"36 mm\"\n[bottom_end]\nmain = "
        "{ rating = \"7.65 kN\", kind = \"" +
        kind + "\" }\n";
    const auto answer = desk::revs({folder.file("b.saw.toml", text), "", "13000", ""});
    for (const wire::Rung& one : answer->rungs)
      if (one.id == "main.load") return one.free->rpm;
    return 0.0;
  };
  EXPECT_GT(rung("ball"), 0.0);
  EXPECT_LT(rung("ball"), 0.8 * rung("roller"));
}

TEST(revs, a_wide_window_on_the_pressed_side_leaves_less_wall_and_presses_it_more) {
  const auto answer = desk::revs({sample("larch-70"), "widen primary +4 mm", "", ""});
  ASSERT_TRUE(answer) << answer.error().front().message;
  const study::Figure* pressure = figure(*answer, "bottom_end.wall_pressure");
  ASSERT_TRUE(pressure && pressure->stock && pressure->change);
  EXPECT_GE(*pressure->value, pressure->stock->value);
  ASSERT_TRUE(rung(*answer, "piston_speed_most") && rung(*answer, "piston_speed_most")->stock_free);
  EXPECT_EQ(rung(*answer, "piston_speed_most")->stock_free->rpm, rung(*answer, "piston_speed_most")->free->rpm);
}

TEST(revs, notes_never_set_the_ceiling) {
  const auto answer = desk::revs({sample("larch-70"), "", "13500", ""});
  ASSERT_TRUE(answer);
  double lowest_hard = 1e9, lowest_note = 1e9;
  for (const wire::Rung& one : answer->rungs) {
    if (one.kind == "hard" && one.free) lowest_hard = std::min(lowest_hard, one.free->rpm);
    if (one.kind == "note" && one.free) lowest_note = std::min(lowest_note, one.free->rpm);
  }
  EXPECT_LT(lowest_note, lowest_hard) << "flutter and life stand lower";
  EXPECT_NEAR(*figure(*answer, "bottom_end.rev_ceiling")->value, lowest_hard, 1e-6);
  ASSERT_TRUE(rung(*answer, "limiter"));
  EXPECT_EQ(rung(*answer, "limiter")->kind, "mark");
}

TEST(revs, absurd_masses_get_a_sentence_and_no_number) {
  const Folder folder;
  const std::string larch = text_of(sample("larch-70"));
  const auto of = [&](const char* from, const char* to) {
    return desk::revs({folder.file("a.saw.toml", changed(larch, from, to)), "", "", ""});
  };
  const auto light = of("rod_small_mass = \"35 g\"", "rod_small_mass = \"9 g\"");
  ASSERT_FALSE(light);
  EXPECT_EQ(light.error().front().path, "bottom_end.rod_small_mass");
  EXPECT_THAT(light.error().front().message, HasSubstr("usual"));
  const auto heavy = of("rod_big_mass = \"60 g\"", "rod_big_mass = \"5 kg\"");
  ASSERT_FALSE(heavy);
  EXPECT_EQ(heavy.error().front().code, base::ErrorCode::out_of_range);
  const auto rating = of("rating = \"14.0 kN\"", "rating = \"14 MN\"");
  ASSERT_FALSE(rating) << "outside the box, or a unit nobody uses";
}

TEST(revs, a_bearing_without_a_rating_says_what_it_waits_for) {
  const Folder folder;
  const std::string text = changed(text_of(sample("larch-70")), "rating = \"14.0 kN\", ", "");
  const auto answer = desk::revs({folder.file("n.saw.toml", text), "", "", ""});
  ASSERT_TRUE(answer) << answer.error().front().message;
  EXPECT_THAT(answer->waits, Contains(HasSubstr("Big end is named without a rating")));
  ASSERT_TRUE(rung(*answer, "big_end.load"));
  EXPECT_FALSE(rung(*answer, "big_end.load")->free);
  EXPECT_THAT(rung(*answer, "big_end.load")->waits_for, HasSubstr("bottom_end.big_end.rating"));
  EXPECT_EQ(figure(*answer, "bottom_end.bearing.big_end.safety"), nullptr);
}

TEST(revs, without_bore_or_stroke_both_are_asked_for_at_once) {
  const Folder folder;
  const auto answer = desk::revs({folder.file("e.saw.toml", "name = \"empty\"\n"), "", "", ""});
  ASSERT_FALSE(answer);
  ASSERT_EQ(answer.error().size(), 2u);
  EXPECT_EQ(answer.error()[0].path, "crank.bore");
  EXPECT_EQ(answer.error()[1].path, "crank.stroke");
}

TEST(revs, stopped_says_so_and_a_wild_speed_is_refused) {
  const auto stopped = desk::revs({sample("alder-60"), "", "", ""}, [](double, const std::string&) { return true; });
  ASSERT_TRUE(stopped);
  EXPECT_TRUE(stopped->stopped);
  EXPECT_THAT(stopped->figures, IsEmpty());
  EXPECT_FALSE(desk::revs({sample("alder-60"), "", "90000", ""}));
}

}  // namespace
