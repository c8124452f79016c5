#include "desk/demo.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <unistd.h>
#include <filesystem>

#include "desk/book.hpp"
#include "desk/desk.hpp"
#include "tables/demo.hpp"

namespace portwright::desk {
namespace {

class demo_book : public testing::Test {
 protected:
  void SetUp() override {
    folder_ = std::filesystem::temp_directory_path() / ("portwright-demo-" + std::to_string(::getpid()));
    std::filesystem::remove_all(folder_);
    std::filesystem::create_directories(folder_);
    path_ = (folder_ / "demo.book").string();
    const auto made = make_demo_book(path_);
    ASSERT_TRUE(made) << made.error().message;
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  std::filesystem::path folder_;
  std::string path_;
};

TEST_F(demo_book, holds_every_saw_and_every_deed_and_is_sound) {
  const auto list = book_list({path_});
  ASSERT_TRUE(list);
  EXPECT_EQ(list->saws.size(), tables::demo_saws().size() + 1) << "one more was borrowed";
  for (const wire::BookSaw& saw : list->saws) EXPECT_EQ(saw.author, "demo workshop") << saw.name;
  BookJournalRequest all{path_};
  all.limit = 1000;
  const auto journal = book_journal(all);
  ASSERT_TRUE(journal);
  EXPECT_EQ(journal->actions.size(), tables::demo_saws().size() + tables::demo_deeds().size());
  const auto sound = book_verify({path_});
  ASSERT_TRUE(sound);
  EXPECT_TRUE(sound->head.errors.empty());
}

TEST_F(demo_book, shows_sisters_an_accepted_finding_and_plans_that_can_be_studied) {
  BookSistersRequest asked{path_};
  asked.model = "Hornbeam 66";
  const auto sisters = book_sisters(asked);
  ASSERT_TRUE(sisters) << sisters.error().front().message;
  EXPECT_EQ(sisters->saws.size(), 2U) << "a borrowed saw is no evidence of its own";

  StudyRequest oak;
  oak.file = "book:Oak 110";
  oak.book = path_;
  const auto study_of_oak = study(oak);
  ASSERT_TRUE(study_of_oak);
  ASSERT_EQ(study_of_oak->acceptances.size(), 1U);
  EXPECT_FALSE(study_of_oak->acceptances[0].stale);

  int plans = 0;
  for (const tables::DemoDeed& deed : tables::demo_deeds()) {
    if (deed.word("cuts").empty()) continue;
    StudyRequest request;
    request.file = "book:" + deed.saw;
    request.book = path_;
    request.cuts = deed.word("cuts");
    const auto studied = study(request);
    ASSERT_TRUE(studied) << deed.saw << ": " << studied.error().front().message;
    ++plans;
  }
  EXPECT_GE(plans, 4);
}

}  // namespace
}  // namespace portwright::desk
