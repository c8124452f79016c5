#include <unistd.h>

#include <gtest/gtest.h>

#include <filesystem>

#include "desk/book.hpp"
#include "unit/support/larch_text.hpp"

// Whose hand writes: author, token, client, and the revision that was seen.
namespace {

using namespace portwright;
using desk::Hand;

class book_hand : public testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = (std::filesystem::temp_directory_path() / "portwright-hand-XXXXXX").string();
    folder_ = mkdtemp(pattern.data());
    book_ = (folder_ / "book.portwright").string();
    const auto added = desk::book_add({book_, {}, "", {{"larch.saw.toml", bench::larch_text}}, {}});
    ASSERT_TRUE(added) << added.error().front().message;
    saw_ = added->added.front().saw;
  }
  void TearDown() override {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
  }
  [[nodiscard]] std::int64_t revision() const { return std::stoll(*desk::book_revision({book_, saw_, {}})); }
  [[nodiscard]] base::ResultAll<wire::BookDoneAnswer> set(const char* field, const char* value,
                                                          std::optional<std::int64_t> base, Hand by = {}) const {
    desk::BookSetRequest request{book_, saw_, field, value};
    request.base = base;
    request.by = std::move(by);
    return desk::book_set(request);
  }

  std::filesystem::path folder_;
  std::string book_, saw_;
};

TEST_F(book_hand, the_author_named_is_the_one_the_journal_names) {
  ASSERT_TRUE(desk::book_note({book_, saw_, "a note", {"ben", "", ""}}));
  const auto journal = desk::book_journal({book_, saw_, 1});
  ASSERT_TRUE(journal);
  EXPECT_EQ(journal->actions.front().who, "ben");
  const auto nobody = desk::book_undo({book_, {"ann", "", ""}});
  ASSERT_FALSE(nobody) << "undo is by author";
  EXPECT_EQ(nobody.error().front().code, base::ErrorCode::not_found);
  EXPECT_TRUE(desk::book_undo({book_, {"ben", "", ""}}));
}

TEST_F(book_hand, a_change_since_what_was_seen_is_a_conflict_with_both_values) {
  const std::int64_t seen = revision();
  ASSERT_TRUE(set("port.exhaust.opens", "104 deg", seen, {"ann", "", "one"}));
  const auto late = set("port.exhaust.opens", "101 deg", seen, {"ann", "", "two"});
  ASSERT_FALSE(late);
  EXPECT_EQ(late.error().front().code, base::ErrorCode::conflict);
  EXPECT_EQ(late.error().front().readings, (std::vector<std::string>{"101 deg", "104 deg"}));
  EXPECT_TRUE(set("port.exhaust.opens", "101 deg", revision(), {"ann", "", "two"}));
}

TEST_F(book_hand, a_change_elsewhere_is_none) {
  const std::int64_t seen = revision();
  ASSERT_TRUE(set("port.exhaust.opens", "104 deg", seen, {"ann", "", "one"}));
  EXPECT_TRUE(set("port.exhaust.width", "29 mm", seen, {"ben", "", "two"}));
}

TEST_F(book_hand, a_window_does_not_conflict_with_itself) {
  const std::int64_t seen = revision();
  ASSERT_TRUE(set("port.exhaust.opens", "104 deg", seen, {"ann", "", "one"}));
  EXPECT_TRUE(set("port.exhaust.opens", "105 deg", seen, {"ann", "", "one"}));
}

TEST_F(book_hand, without_a_base_the_newest_counts_as_seen) {
  ASSERT_TRUE(set("port.exhaust.opens", "104 deg", {}, {"ann", "", ""}));
  EXPECT_TRUE(set("port.exhaust.opens", "101 deg", {}, {"ben", "", ""}));
}

TEST_F(book_hand, a_revision_that_is_not_there_yet_is_refused) {
  const auto wrong = set("port.exhaust.opens", "104 deg", revision() + 100);
  ASSERT_FALSE(wrong);
  EXPECT_EQ(wrong.error().front().code, base::ErrorCode::usage);
}

TEST_F(book_hand, the_same_token_is_done_once) {
  const Hand by{"ann", "token-1", "one"};
  const auto first = desk::book_note({book_, saw_, "once", by}), again = desk::book_note({book_, saw_, "once", by});
  ASSERT_TRUE(first && again);
  EXPECT_EQ(first->action->number, again->action->number);
}

TEST_F(book_hand, a_new_saw_has_a_set_to_type_into) {
  const auto made = desk::book_new({book_, "Rowan 50", "rowan", {}});
  ASSERT_TRUE(made) << made.error().front().message;
  desk::BookSetRequest request{book_, made->saw, "crank.bore", "44 mm"};
  request.base = std::stoll(made->revision);
  EXPECT_TRUE(desk::book_set(request));
  EXPECT_FALSE(desk::book_new({book_, " ", "", {}}));
}

TEST_F(book_hand, the_pulse_moves_with_every_write) {
  desk::BookPulse pulse(book_);
  const auto before = pulse.last();
  ASSERT_TRUE(before);
  EXPECT_EQ(*pulse.last(), *before);
  ASSERT_TRUE(desk::book_note({book_, saw_, "a note", {}}));
  EXPECT_GT(*pulse.last(), *before);
}

}  // namespace
