#include <gmock/gmock.h>

#include "unit/book/workshop.hpp"

// Every kind of action has an inverse: what it leaves, undo takes back to the byte, and redo brings again.
namespace book_test {
namespace {

struct Kind {
  const char* name;
  book::Deed deed;
};

book::Deed change(const std::string& path, std::optional<std::string> value) {
  book::Deed deed;
  deed.changes.push_back({"saw1", path, std::move(value), 100});
  return deed;
}

std::vector<Kind> every_kind() {
  std::vector<Kind> all;
  all.push_back({"a leaf where there was nothing", change("new", R"("1")")});
  all.push_back({"a leaf deep where there was no branch", change("x.y.z", R"("1")")});
  all.push_back({"a leaf for another leaf", change("name", R"("Birch")")});
  all.push_back({"a list for a leaf", change("name", R"(["a","b"])")});
  all.push_back({"a flag for a leaf", change("name", "true")});
  all.push_back({"a branch for a leaf", change("name", R"({"a":"1","b":{"c":"2"}})")});
  all.push_back({"a leaf for a branch", change("port", R"("none")")});
  all.push_back({"a branch for a branch", change("port", R"({"p9":{"opens":"99"}})")});
  all.push_back({"an empty branch for a branch", change("port", "{}")});
  all.push_back({"a leaf removed", change("name", std::nullopt)});
  all.push_back({"a branch removed", change("port.p1", std::nullopt)});
  all.push_back({"the last leaf of a branch removed", change("port.p2.opens", std::nullopt)});
  all.push_back({"a document added", adding("saw9", R"({"name":"Elm"})")});
  all.push_back({"a document added to another", adding("note9", R"({"text":"x"})", "saw1", "note")});
  all.push_back({"hidden", {}});
  all.back().deed.hidden = {"saw1"};
  all.push_back({"a part hidden", {}});
  all.back().deed.hidden = {"note1"};
  all.push_back({"brought back", {}});
  all.back().deed.brought_back = {"saw2"};
  all.push_back({"bytes kept and named", change("photo", "\"blob:" + book::hash_of("p") + "\"")});
  all.back().deed.blobs.push_back({"p", "image/png"});
  book::Deed much = change("name", R"("Cherry")");
  much.changes.push_back({"saw1", "port.p1.opens", std::nullopt, 100});
  much.changes.push_back({"note1", "text", R"("other")", 100});
  much.added.push_back({"saw9", "saw", "", "{}"});
  much.added.push_back({"note9", "note", "saw9", R"({"text":"on it"})"});
  much.brought_back = {"saw2"};
  all.push_back({"much at once", much});
  return all;
}

/// All that can be seen: bytes and visibility of every document, what is found, what is asked for by facet.
std::string seen(book::Book& book, bool also_gone) {
  std::string out;
  book::Query all;
  all.hidden = true;
  for (const auto& one : taken(book.list(all)))
    if (also_gone || !one.hidden) out += one.id + one.body + one.title + (one.hidden ? " hidden" : " shown") + '\n';
  for (const char* word : {"alder", "birch", "elm", "held", "99"})
    for (const auto& one : taken(book.find(word))) out += one.document + ' ' + word + '\n';
  book::Query facet;
  facet.facet = "model";
  facet.value = "A60";
  for (const auto& one : taken(book.list(facet))) out += one.id;
  return out;
}

TEST(inverse, every_kind_of_action_is_taken_back_to_the_byte_and_done_again) {
  for (Kind& kind : every_kind()) {
    SCOPED_TRACE(kind.name);
    const Folder folder;
    auto place = place_in(folder);
    auto book = taken(book::Book::open(place));
    taken(book.act(adding(
        "saw1", R"({"name":"Alder","model":"A60","port":{"p1":{"opens":"101","width":"30"},"p2":{"opens":"120"}}})")));
    taken(book.act(adding("note1", R"({"text":"held"})", "saw1", "note")));
    taken(book.act(adding("saw2", R"({"name":"Birch"})")));
    book::Deed hide;
    hide.hidden = {"saw2"};
    taken(book.act(hide));
    const bool adds = !kind.deed.added.empty();
    const std::string before = seen(book, !adds);
    for (auto& one : kind.deed.changes) one.base = taken(book.sequence());
    kind.deed.label = kind.name;
    ASSERT_GT(taken(book.act(kind.deed)).number, 0);
    const std::string after = seen(book, true);
    EXPECT_NE(after, before);
    for (int again = 0; again < 2; ++again) {
      book = taken(book::Book::open(place));
      taken(book.undo());
      EXPECT_EQ(seen(book, !adds), before);
      taken(book.redo());
      EXPECT_EQ(seen(book, true), after);
    }
    EXPECT_THAT(taken(book.verify()).faults, testing::IsEmpty());
  }
}

}  // namespace
}  // namespace book_test
