#include "desk/book/bench_hand.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <stdlib.h>

#include <filesystem>

#include "desk/book.hpp"
#include "desk/cut_sheet.hpp"
#include "unit/support/larch_text.hpp"

// What was planned and what it came to, kept in the book, and the hand learnt from it.
namespace {

using namespace portwright;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;

class bench_hand_of_book : public testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = (std::filesystem::temp_directory_path() / "portwright-own-XXXXXX").string();
    folder_ = mkdtemp(pattern.data());
    book_ = (folder_ / "book.portwright").string();
    saw_ = add();
  }
  void TearDown() override {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
  }
  /// @param name its name and its casting's
  std::string add(const std::string& name = "") {
    std::string text = bench::larch_text;
    if (!name.empty()) text.replace(text.find("Larch 70"), 8, name);
    const auto added = desk::book_add({book_, {}, "", {{"larch.saw.toml", text}}, {}});
    EXPECT_TRUE(added) << (added ? "" : added.error().front().message);
    return added ? added->added.front().saw : "";
  }
  /// @return id of the list
  std::string keep(const std::string& saw, const char* cuts, bool done, const char* planned = "",
                   const std::string& list = "") {
    const auto kept = desk::book_cut({book_, saw, cuts, "", done, false, {}, planned, list});
    EXPECT_TRUE(kept) << (kept ? "" : kept.error().front().message);
    return kept && !kept->added.empty() ? kept->added.front() : "";
  }
  [[nodiscard]] std::vector<std::string> told(const std::string& list, const char* name) const {
    const auto shown = desk::book_show({book_, saw_});
    for (const wire::BookRecord& record : shown->records)
      for (const wire::BookDetail& detail : record.details)
        if (record.id == list && detail.name == name) return detail.texts;
    return {};
  }
  [[nodiscard]] std::size_t lists() const {
    std::size_t out = 0;
    const auto shown = desk::book_show({book_, saw_});
    for (const wire::BookRecord& record : shown->records) out += record.kind == "cuts" ? 1 : 0;
    return out;
  }
  [[nodiscard]] desk::BenchHand learnt() const { return desk::bench_hand("book:" + saw_, book_); }

  std::filesystem::path folder_;
  std::string book_, saw_;
};

TEST_F(bench_hand_of_book, a_done_list_carries_what_was_planned) {
  const std::string list =
      keep(saw_, "base -0.36 mm; roof exhaust +0.6 mm", true, "base -0.35 mm; roof exhaust +0.5 mm");
  EXPECT_THAT(told(list, "planned"), ElementsAre("base -0.35 mm", "roof exhaust +0.5 mm"));
  const desk::BenchHand hand = learnt();
  EXPECT_EQ(hand.ground.cuts, 1);
  EXPECT_EQ(hand.turned.cuts, 1);
  EXPECT_NEAR(hand.ground.mean, 0.1e-3, 1e-9);
  EXPECT_NEAR(hand.turned.mean, 0.01e-3, 1e-9);
  const auto early = desk::book_cut({book_, saw_, "base -0.3 mm", "", false, false, {}, "base -0.3 mm"});
  ASSERT_FALSE(early) << "what is only planned has no planned amounts beside it";
  EXPECT_EQ(early.error().front().path, "planned");
  EXPECT_FALSE(desk::book_cut({book_, saw_, "base -0.3 mm", "", true, false, {}, "base a bit"}));
}

TEST_F(bench_hand_of_book, a_list_is_brought_up_to_date_and_no_further_one_is_kept) {
  const std::string list = keep(saw_, "base -0.36 mm", true, "base -0.35 mm");
  keep(saw_, "base -0.36 mm; roof exhaust +0.6 mm", true, "base -0.35 mm; roof exhaust +0.5 mm", list);
  EXPECT_EQ(lists(), 1u);
  EXPECT_THAT(told(list, "steps"), ElementsAre("base -0.36 mm", "roof exhaust +0.6 mm"));
  EXPECT_THAT(told(list, "planned"), ElementsAre("base -0.35 mm", "roof exhaust +0.5 mm"));
  // Undo gives the old list back.
  ASSERT_TRUE(desk::book_undo({book_, {}}));
  EXPECT_THAT(told(list, "steps"), ElementsAre("base -0.36 mm"));
  EXPECT_THAT(told(list, "planned"), ElementsAre("base -0.35 mm"));
  const auto none = desk::book_cut({book_, saw_, "base -0.3 mm", "", true, false, {}, "", "nothing"});
  ASSERT_FALSE(none);
  EXPECT_EQ(none.error().front().code, base::ErrorCode::not_found);
  const std::string other = add("Pine 40");
  EXPECT_FALSE(desk::book_cut({book_, other, "base -0.3 mm", "", true, false, {}, "", list})) << "another saw's list";
}

TEST_F(bench_hand_of_book, a_planned_list_that_is_done_otherwise_keeps_its_plan) {
  const std::string list = keep(saw_, "base -0.35 mm; roof exhaust +0.5 mm", false);
  keep(saw_, "base -0.37 mm; roof exhaust +0.5 mm", true, "", list);
  EXPECT_THAT(told(list, "state"), ElementsAre("done"));
  EXPECT_THAT(told(list, "planned"), ElementsAre("base -0.35 mm", "roof exhaust +0.5 mm"));
  EXPECT_NEAR(learnt().turned.mean, 0.02e-3, 1e-9);
  EXPECT_EQ(learnt().ground.cuts, 0) << "to the very number: ticked, not read";
}

TEST_F(bench_hand_of_book, lists_kept_apart_are_matched_and_a_cut_told_twice_counts_once) {
  keep(saw_, "roof exhaust +0.5 mm; widen exhaust +0.8 mm", false);
  keep(saw_, "roof exhaust +0.58 mm", true);
  keep(saw_, "roof exhaust +0.58 mm; widen exhaust +0.75 mm", true);
  const desk::BenchHand hand = learnt();
  EXPECT_EQ(hand.ground.cuts, 2);
  EXPECT_EQ(hand.ground_saws, 1);
  const std::string other = add("Pine 40");
  keep(other, "roof exhaust +0.6 mm", true, "roof exhaust +0.5 mm");
  EXPECT_EQ(learnt().ground.cuts, 3);
  EXPECT_EQ(learnt().ground_saws, 2);
}

TEST_F(bench_hand_of_book, the_sheet_goes_by_it_and_says_so) {
  const auto sheet = [&](const std::string& file, const char* hand) {
    desk::CutSheetRequest request;
    request.plan.file = file;
    request.plan.book = file.starts_with("book:") ? book_ : "";
    request.cuts = "roof exhaust +0.5 mm";
    request.band = "0.55 deg";
    request.hand = hand;
    return desk::cut_sheet_drawn(request);
  };
  const std::string of_book = "book:" + saw_;
  const auto by_memory = sheet(of_book, "");
  ASSERT_TRUE(by_memory) << by_memory.error().front().readings.front();
  EXPECT_THAT(by_memory->about.notes, Not(Contains(HasSubstr("Your hand"))));
  // Three cuts that went far past: a hand too unsure for this band.
  keep(saw_, "roof exhaust +0.8 mm; widen exhaust +1.2 mm; roof primary +0.8 mm; floor primary -0.8 mm", true,
       "roof exhaust +0.5 mm; widen exhaust +0.9 mm; roof primary +0.5 mm; floor primary -0.5 mm");
  // (10 x 0.1² + 4 x 0.3²) / 14 = 0.46 / 14; its root 0.1813.
  EXPECT_NEAR(learnt().ground.sigma, 0.18127e-3, 1e-8);
  const auto unsure = sheet(of_book, "");
  ASSERT_FALSE(unsure);
  EXPECT_EQ(unsure.error().front().path, "band");
  const auto overridden = sheet(of_book, "0.1 mm");
  ASSERT_TRUE(overridden);
  EXPECT_THAT(overridden->about.notes, Not(Contains(HasSubstr("Your hand"))));
  desk::CutSheetRequest wide;
  wide.plan.file = of_book;
  wide.plan.book = book_;
  wide.cuts = "roof exhaust +0.5 mm";
  const auto told = desk::cut_sheet_drawn(wide);
  ASSERT_TRUE(told);
  EXPECT_THAT(told->about.notes, Contains("Your hand at the grinder: 0.18 mm, from 4 cuts of 1 saw; you go past by "
                                          "0.30 mm on average."));
}

}  // namespace
