#include <gmock/gmock.h>

#include <bit>

#include "unit/book/workshop.hpp"

// What an act refuses, and that a refusal leaves nothing behind; when a change meets another one and when it does not.
namespace book_test {
namespace {

using testing::AllOf;
using testing::ElementsAre;
using testing::Ge;
using testing::Le;
using testing::SizeIs;

class refusal : public testing::Test {
 protected:
  refusal() : ann(taken(book::Book::open(place_in(folder)))), bea(taken(book::Book::open(place_in(folder, "Bea")))) {
    taken(ann.act(adding("saw1", R"({"name":"Alder","port":{"p1":{"opens":"101","width":"30"}}})")));
  }
  void refuses(const book::Deed& deed, base::ErrorCode code) {
    const std::string before = taken(ann.hash());
    const auto done = ann.act(deed);
    ASSERT_FALSE(done.has_value()) << deed.label;
    EXPECT_EQ(done.error().code, code) << done.error().message;
    EXPECT_FALSE(done.error().message.empty());
    EXPECT_EQ(taken(ann.hash()), before);
  }
  Folder folder;
  book::Book ann, bea;
};

TEST_F(refusal, of_what_cannot_be_kept) {
  using base::ErrorCode;
  refuses(setting("saw1", "Name", R"("x")", 1), ErrorCode::usage);
  refuses(setting("saw1", "#hidden", "true", 1), ErrorCode::usage);
  refuses(setting("saw1", "", "{}", 1), ErrorCode::usage);
  refuses(setting("saw1", "name", "1", 1), ErrorCode::usage);
  refuses(setting("saw1", "name.more", R"("x")", 1), ErrorCode::usage);
  refuses(setting("saw1", "name", R"("x")", 2), ErrorCode::usage);
  refuses(setting("saw1", "name", R"("x")", -1), ErrorCode::usage);
  refuses(setting("saw7", "name", R"("x")", 1), ErrorCode::not_found);
  refuses(adding("saw1", "{}"), ErrorCode::usage);
  refuses(adding("saw 2", "{}"), ErrorCode::usage);
  refuses(adding("saw2", "[]"), ErrorCode::usage);
  refuses(adding("saw2", "\"text\""), ErrorCode::usage);
  refuses(adding("saw2", "{}", "saw7"), ErrorCode::not_found);
  refuses(adding("saw2", "{}", "", "A Kind"), ErrorCode::usage);
  book::Deed hide;
  hide.hidden = {"saw7"};
  refuses(hide, ErrorCode::not_found);
  book::Deed label = adding("saw2", "{}");
  label.label = "\xff";
  refuses(label, ErrorCode::usage);
}

TEST_F(refusal, of_two_changes_of_one_deed_on_one_place) {
  for (const auto& [one, other] : std::vector<std::pair<std::string, std::string>>{
           {"name", "name"}, {"port", "port.p1.opens"}, {"port.p1.opens", "port"}, {"a", "a.c"}}) {
    auto deed = setting("saw1", one, R"("x")", 1);
    deed.changes.push_back({"saw1", "a_b", R"("y")", 1});
    deed.changes.push_back({"saw1", other, R"("y")", 1});
    refuses(deed, base::ErrorCode::usage);
  }
  auto hidden = setting("saw1", "name", R"("x")", 1);
  hidden.hidden = {"saw1"};
  refuses(hidden, base::ErrorCode::usage);
}

TEST_F(refusal, of_the_second_part_takes_back_the_first) {
  auto deed = adding("saw2", "{}");
  deed.changes.push_back({"saw1", "name", R"("x")", 1});
  deed.changes.push_back({"saw7", "name", R"("x")", 1});
  deed.blobs.push_back({"bytes", "image/png"});
  refuses(deed, base::ErrorCode::not_found);
  EXPECT_THAT(taken(ann.blobs()), SizeIs(0));
}

TEST_F(refusal, a_change_above_or_below_a_later_one_is_a_conflict) {
  taken(bea.act(setting("saw1", "port.p1.opens", R"("99")", 1)));
  const auto above = ann.act(setting("saw1", "port.p1", R"({"opens":"103"})", 1));
  ASSERT_FALSE(above.has_value());
  EXPECT_THAT(above.error().readings, ElementsAre(R"({"opens":"103"})", R"({"opens":"99","width":"30"})"));
  taken(bea.act(setting("saw1", "port", R"({"p2":{"opens":"120"}})", 2)));
  EXPECT_EQ(ann.act(setting("saw1", "port.p1.width", R"("31")", 1)).error().readings,
            (std::vector<std::string>{"\"31\"", ""}));
}

TEST_F(refusal, there_is_no_conflict_when_the_value_is_again_what_was_seen) {
  taken(bea.act(setting("saw1", "name", R"("Birch")", 1)));
  taken(bea.undo());
  EXPECT_TRUE(ann.act(setting("saw1", "name", R"("Cherry")", 1)).has_value());
}

TEST_F(refusal, a_client_does_not_conflict_with_itself_and_does_with_others) {
  auto first = setting("saw1", "name", R"("Birch")", 1);
  first.client = "window1";
  taken(ann.act(first));
  auto second = setting("saw1", "name", R"("Cherry")", 1);
  second.client = "window1";
  EXPECT_TRUE(ann.act(second).has_value());
  auto other = setting("saw1", "name", R"("Damson")", 1);
  other.client = "window2";
  EXPECT_EQ(bea.act(other).error().code, base::ErrorCode::conflict);
  auto stale = setting("saw1", "name", R"("Elm")", 1);
  EXPECT_EQ(ann.act(stale).error().code, base::ErrorCode::conflict) << "without a client word every entry counts";
}

TEST_F(refusal, a_document_hidden_since_is_a_conflict_until_it_is_seen_hidden) {
  book::Deed hide;
  hide.label = "hide";
  hide.hidden = {"saw1"};
  const auto hidden = taken(bea.act(hide));
  const auto refused = ann.act(setting("saw1", "name", R"("Birch")", 1));
  ASSERT_FALSE(refused.has_value());
  EXPECT_THAT(refused.error().readings, ElementsAre("\"Birch\"", "hidden"));
  EXPECT_TRUE(ann.act(setting("saw1", "name", R"("Birch")", hidden.entries[0].sequence)).has_value());
}

TEST_F(refusal, words_that_mean_something_to_the_index_are_only_words) {
  for (const char* words : {"\"", "*", "a OR b", "name:alder", "(", "NEAR(a b)", "^alder", "-", "alder)",
                            "'; DROP TABLE", "a\"b", "\xc3\xa9"})
    EXPECT_TRUE(ann.find(words).has_value()) << words;
  EXPECT_EQ(ann.find("\xff").error().code, base::ErrorCode::usage);
  EXPECT_THAT(taken(ann.find("ALD")), SizeIs(1));
  taken(ann.act(adding("saw2", R"({"name":"Ésche brûlée"})")));
  EXPECT_THAT(taken(ann.find("esche brul")), SizeIs(1));
  EXPECT_THAT(taken(ann.find("esche alder")), SizeIs(0));
}

// A token that met another's would let a deed go by as one already done. Those of one second, drawn one after the
// other, have no more in common than chance: 64 of 128 bits differ, +- 5.7 (binomial); 6 sigma and more is a fault.
TEST_F(refusal, tokens_drawn_one_after_the_other_have_nothing_in_common) {
  std::string last = book::new_token();
  for (int i = 0; i < 20000; ++i) {
    const std::string token = book::new_token();
    ASSERT_EQ(token.size(), 32u);
    int differ = 0;
    for (std::size_t half : {0u, 16u})
      differ += std::popcount(std::stoull(token.substr(half, 16), nullptr, 16) ^
                              std::stoull(last.substr(half, 16), nullptr, 16));
    ASSERT_THAT(differ, AllOf(Ge(64 - 36), Le(64 + 36))) << last << " " << token;
    last = token;
  }
}

// The book draws the token of a deed that brings none: two programs that write as fast as they can in one second must
// not draw each other's.
TEST_F(refusal, the_token_that_the_book_draws_is_one_of_these) {
  const auto first = taken(ann.act(adding("saw3", R"({"name":"ash"})")));
  const auto second = taken(ann.act(adding("saw4", R"({"name":"ash"})")));
  EXPECT_EQ(first.token.size(), 32u);
  EXPECT_NE(first.token.substr(0, 8), second.token.substr(0, 8));
}

TEST_F(refusal, ids_are_in_order_and_never_twice) {
  std::string last;
  for (int i = 0; i < 20000; ++i) {
    const std::string id = book::new_id();
    ASSERT_EQ(id.size(), 10u);
    ASSERT_GT(id, last);
    last = id;
  }
}

}  // namespace
}  // namespace book_test
