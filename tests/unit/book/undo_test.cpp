#include <gmock/gmock.h>

#include "unit/book/workshop.hpp"

// Undo and redo: each author's own, as new actions, refused with both values where somebody else was.
namespace book_test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

class undo : public testing::Test {
 protected:
  undo()
      : ann(taken(book::Book::open(place_in(folder, "Ann")))), bea(taken(book::Book::open(place_in(folder, "Bea")))) {
    taken(ann.act(adding("saw1", R"({"name":"Alder","note":"as found"})")));
  }
  std::int64_t seen() { return taken(ann.get("saw1")).revision; }
  std::string note() {
    const std::string body = taken(ann.get("saw1")).body;
    return body.substr(body.find("\"note\"") + 7);
  }
  Folder folder;
  book::Book ann, bea;
};

TEST_F(undo, takes_back_and_does_again_across_a_restart) {
  const std::string before = taken(ann.get("saw1")).body;
  taken(ann.act(setting("saw1", "port.p1.opens", R"("101")", seen())));
  taken(ann.act(setting("saw1", "port.p1.opens", R"("99")", seen())));
  const std::string after = taken(ann.get("saw1")).body;
  ann = taken(book::Book::open(place_in(folder, "Ann")));
  taken(ann.undo());
  EXPECT_THAT(taken(ann.get("saw1")).body, HasSubstr("101"));
  taken(ann.undo());
  EXPECT_EQ(taken(ann.get("saw1")).body, before);
  taken(ann.redo());
  taken(ann.redo());
  EXPECT_EQ(taken(ann.get("saw1")).body, after);
  EXPECT_EQ(ann.redo().error().code, base::ErrorCode::not_found);
}

TEST_F(undo, is_each_authors_own) {
  taken(bea.act(setting("saw1", "note", R"("hers")", seen())));
  taken(ann.act(setting("saw1", "model", R"("A60")", seen())));
  taken(bea.undo());
  EXPECT_THAT(note(), HasSubstr("as found"));
  EXPECT_THAT(taken(ann.get("saw1")).body, HasSubstr("A60"));
  EXPECT_EQ(bea.undo().error().code, base::ErrorCode::not_found);
}

TEST_F(undo, is_refused_with_both_values_where_somebody_else_changed_it_since) {
  taken(ann.act(setting("saw1", "note", R"("mine")", seen())));
  taken(bea.act(setting("saw1", "note", R"("hers")", seen())));
  const auto refused = ann.undo();
  ASSERT_FALSE(refused.has_value());
  EXPECT_EQ(refused.error().code, base::ErrorCode::conflict);
  EXPECT_THAT(refused.error().readings, ElementsAre("\"as found\"", "\"hers\""));
  taken(bea.undo());
  taken(ann.undo());
  EXPECT_THAT(note(), HasSubstr("as found"));
}

TEST_F(undo, of_an_added_document_hides_it_and_redo_brings_it_back) {
  taken(ann.undo());
  EXPECT_TRUE(taken(ann.get("saw1")).hidden);
  EXPECT_TRUE(taken(ann.list({})).empty());
  taken(ann.redo());
  EXPECT_FALSE(taken(ann.get("saw1")).hidden);
}

TEST_F(undo, of_an_added_document_is_refused_while_others_have_something_there) {
  taken(bea.act(adding("note1", R"({"name":"Bea's note"})", "saw1", "note")));
  const auto refused = ann.undo();
  ASSERT_FALSE(refused.has_value());
  EXPECT_EQ(refused.error().code, base::ErrorCode::conflict);
  EXPECT_THAT(refused.error().message, HasSubstr("Bea"));
  taken(bea.undo());
  EXPECT_TRUE(ann.undo().has_value());
}

TEST_F(undo, something_new_ends_what_could_be_done_again_for_that_author_only) {
  taken(bea.act(setting("saw1", "model", R"("A60")", seen())));
  taken(bea.undo());
  taken(ann.act(setting("saw1", "note", R"("n")", seen())));
  EXPECT_TRUE(bea.redo().has_value());
  taken(bea.undo());
  taken(bea.act(setting("saw1", "casting", R"("late")", seen())));
  EXPECT_EQ(bea.redo().error().code, base::ErrorCode::not_found);
}

TEST_F(undo, passes_by_what_is_off_the_stack) {
  auto result = adding("result1", R"({"key":"k"})", "saw1", "result");
  result.off_stack = true;
  taken(ann.act(result));
  const auto done = taken(ann.undo());
  EXPECT_EQ(done.label, "undo: add saw1");
  EXPECT_TRUE(taken(ann.get("result1")).hidden);
  EXPECT_FALSE(taken(ann.get("result1")).hidden_itself);
}

TEST_F(undo, of_hiding_brings_back_with_all_that_belongs_to_it) {
  taken(ann.act(adding("note1", R"({"text":"t"})", "saw1", "note")));
  book::Deed hide;
  hide.label = "hide";
  hide.hidden = {"saw1"};
  taken(ann.act(hide));
  EXPECT_TRUE(taken(ann.get("note1")).hidden);
  EXPECT_TRUE(taken(ann.find("Alder")).empty());
  taken(ann.undo());
  EXPECT_FALSE(taken(ann.get("note1")).hidden);
  EXPECT_EQ(taken(ann.find("alder")).size(), 1u);
}

}  // namespace
}  // namespace book_test
