// Cut lists as steps and back.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>

#include "cuts/grammar.hpp"
#include "desk/page.hpp"
#include "desk/page/steps.hpp"
#include "wire/json_page.hpp"

namespace {

using namespace portwright;
using testing::HasSubstr;
using testing::IsEmpty;
namespace fs = std::filesystem;

const fs::path root = PORTWRIGHT_SOURCE_DIR;

desk::OpenedSaw alder() {
  static const desk::OpenedSaw saw = *desk::open_saw((root / "data/samples/alder-60.saw.toml").string());
  return saw;
}

wire::StepIn sent(const wire::Step& step) {
  return {step.act, step.amount, step.amounts, step.unit, step.tail, step.words};
}

void expect_round_trip(const cuts::CutList& list) {
  for (std::size_t i = 0; i < list.size(); ++i) {
    const wire::Step step = desk::step_of(list[i]);
    const auto text = desk::text_of(sent(step), i + 1);
    if (list[i].file.find_first_of("\";") != std::string::npos) {
      EXPECT_FALSE(text) << step.text;  // no step can say such a name
      continue;
    }
    ASSERT_TRUE(text) << step.text << ": " << text.error().message;
    const auto again = cuts::parse_cuts(*text);
    ASSERT_TRUE(again && again->size() == 1) << *text;
    EXPECT_EQ(cuts::cut_text(again->front()), step.text);
  }
}

TEST(steps, every_form_of_a_cut_comes_back_as_it_was) {
  std::string all;
  for (const cuts::Form& form : cuts::forms()) all += std::string(form.example) + "; ";
  all += "widen exhaust +1 mm left; widen primary -0.2 mm right; octane to \"91 pump\"";
  const auto list = cuts::parse_cuts(all);
  ASSERT_TRUE(list);
  EXPECT_GT(list->size(), 25u);
  expect_round_trip(*list);
}

TEST(steps, every_list_of_the_corpus_that_can_be_read_comes_back_as_it_was) {
  int read = 0;
  for (const auto& entry : fs::directory_iterator(root / "tests/corpora/cut_text")) {
    std::ifstream in(entry.path(), std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(in), {}};
    const auto list = cuts::parse_cuts(text);
    if (!list) continue;
    expect_round_trip(*list);
    ++read;
  }
  EXPECT_GT(read, 2);
}

TEST(steps, a_list_is_told_in_trade_words_and_steps_give_its_text_back) {
  const std::string text = "gasket out; base -0.3 mm; roof exhaust +0.8 mm; widen exhaust +1 mm left";
  const auto answer = desk::steps(*alder(), {text});
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->text, text);
  ASSERT_EQ(answer->steps.size(), 4u);
  EXPECT_EQ(answer->steps[0].title, "Base gasket out");
  EXPECT_FALSE(answer->steps[0].amount);
  const wire::Step& roof = answer->steps[2];
  EXPECT_EQ(roof.title, "Exhaust roof higher");
  EXPECT_EQ(roof.act, "roof exhaust");
  EXPECT_EQ(roof.target, "exhaust");
  EXPECT_EQ(roof.unit, "mm");
  EXPECT_DOUBLE_EQ(*roof.amount, 0.8);
  EXPECT_DOUBLE_EQ(*roof.stop, 0.5);
  EXPECT_EQ(answer->steps[3].tail, "left");
  desk::StepsRequest back;
  for (const wire::Step& step : answer->steps) back.steps.push_back(sent(step));
  back.steps[2].amount = 1.0;
  const auto again = desk::steps(*alder(), back);
  ASSERT_TRUE(again);
  EXPECT_EQ(again->text, "gasket out; base -0.3 mm; roof exhaust +1 mm; widen exhaust +1 mm left");
}

TEST(steps, a_bound_is_where_the_saw_itself_refuses) {
  const auto answer = desk::steps(*alder(), {"floor exhaust -0.2 mm; widen primary +0.5 mm; roof exhaust +0.5 mm"});
  ASSERT_TRUE(answer);
  EXPECT_THAT(answer->head.errors, IsEmpty());
  int drawn_in = 0;
  for (std::size_t i = 0; i < answer->steps.size(); ++i) {
    const wire::Step& step = answer->steps[i];
    ASSERT_TRUE(step.least && step.most && step.step) << step.text;
    EXPECT_LE(*step.least, *step.amount);
    EXPECT_GE(*step.most, *step.amount);
    const auto with = [&](double amount) {
      desk::StepsRequest changed;
      for (const wire::Step& one : answer->steps) changed.steps.push_back(sent(one));
      changed.steps[i].amount = amount;
      return desk::steps(*alder(), changed)->head.errors.empty();
    };
    EXPECT_TRUE(with(*step.most)) << step.text;
    EXPECT_TRUE(with(*step.least)) << step.text;
    if (step.most_says.empty()) continue;
    EXPECT_FALSE(with(*step.most + 0.2)) << step.text;
    ++drawn_in;
  }
  EXPECT_GE(drawn_in, 1);
}

TEST(steps, what_the_saw_refuses_stands_beside_steps_that_still_have_bounds) {
  const auto answer = desk::steps(*alder(), {"widen exhaust +14 mm"});
  ASSERT_TRUE(answer);
  ASSERT_FALSE(answer->head.errors.empty());
  ASSERT_EQ(answer->steps.size(), 1u);
  EXPECT_LT(*answer->steps[0].most, 14.0);
  EXPECT_FALSE(answer->steps[0].most_says.empty());
}

TEST(steps, what_may_be_added_can_be_added) {
  const auto answer = desk::steps(*alder(), {"roof exhaust +0.5 mm"});
  ASSERT_TRUE(answer);
  EXPECT_GT(answer->may_add.size(), 20u);
  for (const wire::Step& offer : answer->may_add) {
    EXPECT_FALSE(offer.title.empty()) << offer.text;
    desk::StepsRequest longer;
    longer.steps = {sent(answer->steps[0]), sent(offer)};
    const auto added = desk::steps(*alder(), longer);
    ASSERT_TRUE(added) << offer.text;
    EXPECT_THAT(added->head.errors, IsEmpty()) << offer.text;
    EXPECT_EQ(added->steps[1].text, offer.text);
  }
}

TEST(steps, bad_ones_are_named_by_their_number) {
  const auto fault = [](const std::vector<wire::StepIn>& steps) {
    const auto answer = desk::steps(*alder(), {"", steps});
    return answer ? base::Error{} : answer.error().front();
  };
  const wire::StepIn good{"roof exhaust", 0.5, {}, "mm"};
  EXPECT_EQ(fault({good, {"sand exhaust", 1.0, {}, "mm"}}).path, "cuts.2");
  EXPECT_EQ(fault({good, good, {"roof exhaust", 0.5, {}, ""}}).path, "cuts.3");
  EXPECT_EQ(fault({{"roof exhaust +1 mm; base", -1.0, {}, "mm"}}).path, "cuts.1");
  EXPECT_EQ(fault({{"", 1.0, {}, "mm"}}).path, "cuts.1");
  EXPECT_EQ(fault({good, {"roof ex", 0.5, {}, "mm"}}).path, "cuts.2");
  EXPECT_EQ(fault({{"roof exhaust", 0.5, {}, "parsec"}}).path, "cuts.1");
}

TEST(steps, come_back_through_the_reader_as_they_were) {
  const std::string json = wire::to_json(*desk::steps(*alder(), {"base -0.3 mm; outlets to 1.4 cm2 0.8 cm2"}));
  const auto again = wire::from_json<wire::StepsAnswer>(json);
  ASSERT_TRUE(again) << again.error().message;
  EXPECT_EQ(wire::to_json(*again), json);
}

}  // namespace
