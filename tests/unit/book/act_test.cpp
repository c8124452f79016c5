#include <gmock/gmock.h>

#include "unit/book/workshop.hpp"

// What an act does, and what it refuses.
namespace book_test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::SizeIs;

class act : public testing::Test {
 protected:
  act() : book(taken(book::Book::open(place_in(folder)))) {}
  Folder folder;
  book::Book book;
};

TEST_F(act, a_document_added_is_there_after_the_book_is_opened_again) {
  EXPECT_EQ(book.opening(), book::Opening::created);
  taken(book.act(adding("saw1", R"({"name":"Alder","model":"A60","port":{"p1":{"opens":"101 deg"}}})")));
  book = taken(book::Book::open(place_in(folder)));
  EXPECT_EQ(book.opening(), book::Opening::current);
  const auto saw = taken(book.get("saw1"));
  EXPECT_EQ(saw.title, "Alder");
  EXPECT_EQ(saw.kind, "saw");
  EXPECT_EQ(saw.body, R"({"model":"A60","name":"Alder","port":{"p1":{"opens":"101 deg"}}})");
  EXPECT_EQ(saw.author, "Ann");
  EXPECT_FALSE(saw.hidden);
  EXPECT_EQ(saw.revision, taken(book.sequence()));
}

TEST_F(act, a_change_is_journalled_with_before_and_after) {
  taken(book.act(adding("saw1", R"({"name":"Alder"})")));
  const auto done = taken(book.act(setting("saw1", "port.p1.opens", R"("101 deg")", 1)));
  ASSERT_THAT(done.entries, SizeIs(1));
  EXPECT_EQ(done.entries[0].before, std::nullopt);
  EXPECT_EQ(done.entries[0].after, "\"101 deg\"");
  const auto actions = taken(book.journal({}));
  ASSERT_THAT(actions, SizeIs(2));
  EXPECT_EQ(actions[0].label, R"(port.p1.opens is "101 deg")");
  EXPECT_EQ(actions[0].entries[0].path, "port.p1.opens");
  EXPECT_EQ(actions[1].entries[0].path, "");
}

TEST_F(act, a_change_to_what_is_there_already_writes_nothing) {
  taken(book.act(adding("saw1", R"({"name":"Alder"})")));
  const auto done = taken(book.act(setting("saw1", "name", R"("Alder")", 1)));
  EXPECT_EQ(done.number, 0);
  EXPECT_THAT(done.entries, SizeIs(0));
  EXPECT_EQ(taken(book.sequence()), 1);
}

TEST_F(act, a_change_elsewhere_in_the_document_is_no_conflict_and_on_the_same_path_shows_both_values) {
  taken(book.act(adding("saw1", R"({"name":"Alder","note":"first"})")));
  book::Book other = taken(book::Book::open(place_in(folder, "Bea")));
  taken(other.act(setting("saw1", "note", R"("hers")", 1)));
  EXPECT_TRUE(book.act(setting("saw1", "model", R"("A60")", 1)).has_value());
  const auto refused = book.act(setting("saw1", "note", R"("mine")", 1));
  ASSERT_FALSE(refused.has_value());
  EXPECT_EQ(refused.error().code, base::ErrorCode::conflict);
  EXPECT_THAT(refused.error().readings, ElementsAre("\"mine\"", "\"hers\""));
  EXPECT_THAT(refused.error().message, HasSubstr("Bea"));
  EXPECT_EQ(refused.error().path, "note");
}

TEST_F(act, a_token_that_is_known_gives_the_stored_action) {
  book::Deed deed = adding("saw1", R"({"name":"Alder"})");
  deed.token = "once";
  const auto first = taken(book.act(deed));
  const auto again = taken(book.act(deed));
  EXPECT_EQ(first.number, again.number);
  EXPECT_THAT(taken(book.journal({})), SizeIs(1));
}

TEST_F(act, a_list_asks_by_kind_owner_and_facet) {
  taken(book.act(adding("saw1", R"({"name":"Alder","model":"A60"})")));
  taken(book.act(adding("saw2", R"({"name":"Birch","model":"B50"})")));
  taken(book.act(adding("note1", R"({"text":"x"})", "saw1", "note")));
  book::Query saws;
  saws.kind = "saw";
  EXPECT_THAT(taken(book.list(saws)), SizeIs(2));
  book::Query owned;
  owned.belongs_to = "saw1";
  EXPECT_THAT(taken(book.list(owned)), SizeIs(1));
  book::Query model;
  model.facet = "model";
  model.value = "B50";
  const auto found = taken(book.list(model));
  ASSERT_THAT(found, SizeIs(1));
  EXPECT_EQ(found[0].id, "saw2");
}

}  // namespace
TEST_F(act, a_token_that_is_known_is_answered_without_the_deed) {
  auto deed = adding("saw1", R"({"name":"Alder"})");
  deed.token = "twice";
  const auto done = taken(book.act(deed));
  const auto known = taken(book.done_with("twice"));
  ASSERT_TRUE(known);
  EXPECT_EQ(known->number, done.number);
  EXPECT_FALSE(taken(book.done_with("never")));
  EXPECT_FALSE(taken(book.done_with("")));
}

TEST_F(act, names_of_bytes_are_no_words_and_are_found_as_leaves) {
  const std::string hash = book::hash_of("picture");
  taken(book.act(adding("saw1", R"({"name":"Alder","picture":"blob:)" + hash + R"(","said":"blob:short"})")));
  taken(book.act(adding("saw2", R"({"name":"Birch"})")));
  EXPECT_TRUE(taken(book.find(hash)).empty());
  EXPECT_EQ(taken(book.find("short")).size(), 1u);
  book::Query query;
  query.leaf = "blob:" + hash;
  const auto found = taken(book.list(query));
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found.front().id, "saw1");
  query.leaf = "Alde";
  EXPECT_TRUE(taken(book.list(query)).empty()) << "a leaf is meant whole";
}

TEST_F(act, bytes_that_come_one_at_a_time_are_kept_or_the_whole_deed_is_not) {
  auto deed = adding("saw1", R"({"name":"Alder"})");
  deed.further_blobs = {2, [](std::size_t i) -> base::Result<book::NewBlob> {
                          if (i == 1) return base::fail(base::ErrorCode::storage, "The file is gone.");
                          return book::NewBlob{"first", "image/jpeg"};
                        }};
  EXPECT_EQ(book.act(deed).error().message, "The file is gone.");
  EXPECT_FALSE(book.get("saw1"));
  EXPECT_TRUE(taken(book.blobs()).empty());
  deed.further_blobs.count = 1;
  taken(book.act(deed));
  EXPECT_EQ(taken(book.blob(book::hash_of("first"))).bytes, "first");
}

}  // namespace book_test
