#include <gmock/gmock.h>

#include <array>
#include <map>
#include <optional>
#include <random>
#include <set>

#include "book/tree.hpp"
#include "unit/book/workshop.hpp"

// Random acts, undos and redos of three authors, held against a model of a few lines: leaves by path, a stack an
// author. The model looks at every action for every question; it knows nothing of trees, tables or indices.
namespace book_test {
namespace {

using testing::IsEmpty;
using Leaves = std::map<std::string, std::string>;  // path -> JSON of a leaf

#ifdef PORTWRIGHT_SANITIZED
constexpr int default_steps = 10000;
#else
constexpr int default_steps = 100000;
#endif

bool at_or_below(const std::string& path, const std::string& above) {
  return path == above || path.starts_with(above + ".");
}

struct Doc {
  Leaves leaves;
  bool hidden = false;
  std::string owner;
};

struct Row {
  std::string doc, path;  // path "": added, "#": hidden or shown
  Leaves before, after;   // at and below the path
  bool was = false, is = false;
};

struct Act {
  std::string author;
  bool on_stack = true, live = true, gone = false;
  std::vector<Row> rows;
};

bool meet(const Row& one, const Row& other) {
  if (one.doc != other.doc) return false;
  if (one.path.empty() || other.path.empty() || one.path == "#" || other.path == "#") return true;
  return at_or_below(one.path, other.path) || at_or_below(other.path, one.path);
}

class Model {
 public:
  std::map<std::string, Doc> docs;
  std::vector<Act> acts;

  Leaves at(const std::string& doc, const std::string& path) const {
    Leaves out;
    for (const auto& [leaf, value] : docs.at(doc).leaves)
      if (at_or_below(leaf, path)) out[leaf] = value;
    return out;
  }
  bool blocked(const std::string& doc, const std::string& path) const {
    for (const auto& [leaf, value] : docs.at(doc).leaves)
      if (path.starts_with(leaf + ".")) return true;
    return false;
  }
  void put(const std::string& doc, const std::string& path, const Leaves& leaves) {
    std::erase_if(docs[doc].leaves, [&](const auto& leaf) { return at_or_below(leaf.first, path); });
    docs[doc].leaves.insert(leaves.begin(), leaves.end());
  }
  void fresh(Act act) {
    if (act.rows.empty()) return;
    if (act.on_stack)
      for (Act& one : acts)
        if (one.author == act.author && !one.live) one.gone = true;
    acts.push_back(std::move(act));
  }
  /// Whether it was done.
  std::optional<bool> undo(const std::string& author) {
    for (std::size_t i = acts.size(); i-- > 0;)
      if (acts[i].author == author && acts[i].on_stack && acts[i].live) return turn(i, true);
    return std::nullopt;
  }
  std::optional<bool> redo(const std::string& author) {
    for (std::size_t i = 0; i < acts.size(); ++i)
      if (acts[i].author == author && acts[i].on_stack && !acts[i].live && !acts[i].gone) return turn(i, false);
    return std::nullopt;
  }
  bool concealed(const std::string& id) const {
    for (std::string at = id; !at.empty(); at = docs.at(at).owner)
      if (docs.at(at).hidden) return true;
    return false;
  }

 private:
  bool turn(std::size_t number, bool back) {
    const auto kept = docs;
    std::vector<Row> rows = acts[number].rows;
    if (back) std::reverse(rows.begin(), rows.end());
    for (const Row& row : rows)
      if (later(number, row) || (back && row.path.empty() && children(number, row.doc)) || !step(row, back)) {
        docs = kept;
        return false;
      }
    acts[number].live = !back;
    return true;
  }
  bool later(std::size_t number, const Row& row) const {
    for (std::size_t i = number + 1; i < acts.size(); ++i)
      for (const Row& other : acts[i].rows)
        if (acts[i].live && meet(row, other) && (acts[i].on_stack || !row.path.empty())) return true;
    return false;
  }
  bool children(std::size_t number, const std::string& doc) const {
    for (std::size_t i = 0; i < acts.size(); ++i)
      for (const Row& row : acts[i].rows) {
        if (i == number || !acts[i].live || !acts[i].on_stack || !row.path.empty() || docs.at(row.doc).hidden) continue;
        for (std::string at = docs.at(row.doc).owner; !at.empty(); at = docs.at(at).owner)
          if (at == doc) return true;
      }
    return false;
  }
  bool step(const Row& row, bool back) {
    if (row.path.empty() || row.path == "#") {
      const bool without = row.path.empty() ? true : row.was;
      const bool with = row.path.empty() ? false : row.is;
      if (docs[row.doc].hidden != (back ? with : without)) return false;
      docs[row.doc].hidden = back ? without : with;
      return true;
    }
    if (at(row.doc, row.path) != (back ? row.after : row.before) || blocked(row.doc, row.path)) return false;
    put(row.doc, row.path, back ? row.before : row.after);
    return true;
  }
};

void flatten(const book::Tree& tree, const std::string& path, Leaves& out) {
  if (tree.kind != book::Tree::Kind::branch) out[path] = book::print(tree);
  for (const auto& part : tree.parts) flatten(part.tree, path.empty() ? part.name : path + "." + part.name, out);
}

Leaves leaves_of(const std::string& json, const std::string& path = {}) {
  Leaves out;
  flatten(*book::parse_tree(json), path, out);
  return out;
}

/// The same steps for the book and for the model.
class Play {
 public:
  Play(const Folder& folder, unsigned seed) : chance_(seed) {
    for (const char* author : {"Ann", "Bea", "Cal"}) {
      book::Place place = place_in(folder, author);
      place.synced = false;
      place.backs_up = false;
      books_.emplace(author, taken(book::Book::open(place)));
    }
  }

  void step() {
    const std::array<std::string, 3> authors{"Ann", "Bea", "Cal"};
    author_ = authors[chance_() % 3];
    const unsigned what = static_cast<unsigned>(chance_()) % 100;
    if (what < 4 && model.docs.size() < 60) return add();
    if (what < 8) return hide();
    if (what < 45) return change(what < 12);
    if (what < 78) return turn(true);
    turn(false);
  }

  void compare() {
    book::Query all;
    all.hidden = true;
    const auto documents = taken(books().list(all));
    ASSERT_EQ(documents.size(), model.docs.size());
    for (const auto& one : documents) {
      const Doc& expected = model.docs.at(one.id);
      ASSERT_EQ(leaves_of(one.body), expected.leaves) << one.id;
      ASSERT_EQ(one.hidden_itself, expected.hidden) << one.id;
      ASSERT_EQ(one.hidden, model.concealed(one.id)) << one.id;
    }
  }

  book::Book& books() { return books_.at("Ann"); }
  Model model;
  int done = 0, refused = 0, empty = 0;

 private:
  book::Book& mine() { return books_.at(author_); }
  std::string any_doc() {
    auto at = model.docs.begin();
    std::advance(at, chance_() % model.docs.size());
    return at->first;
  }
  std::string word() { return std::string(1, static_cast<char>('a' + chance_() % 3)); }
  std::string path() {
    std::string out = word();
    for (unsigned n = static_cast<unsigned>(chance_()) % 3; n-- > 0;) out += "." + word();
    return out;
  }
  std::string value() {
    const std::string leaf = "\"" + std::to_string(chance_() % 5) + "\"";
    switch (chance_() % 6) {
      case 0:
        return "{\"" + word() + "\":" + leaf + "}";
      case 1:
        return "[" + leaf + ",\"x\"]";
      case 2:
        return "true";
      default:
        return leaf;
    }
  }

  void add() {
    const std::string id = "doc" + std::to_string(model.docs.size());
    const std::string owner = model.docs.empty() || chance_() % 2 == 0 ? "" : any_doc();
    const std::string body = "{\"a\":" + value() + "}";
    taken(mine().act(adding(id, body, owner)));
    model.docs[id] = {leaves_of(body), false, owner};
    model.fresh({author_, true, true, false, {{id, "", {}, {}, false, false}}});
  }
  void hide() {
    if (model.docs.empty()) return;
    const std::string id = any_doc();
    book::Deed deed;
    deed.label = "hide or show";
    Row row{id, "#", {}, {}, model.docs[id].hidden, !model.docs[id].hidden};
    (row.is ? deed.hidden : deed.brought_back).push_back(id);
    taken(mine().act(deed));
    model.docs[id].hidden = row.is;
    model.fresh({author_, true, true, false, {row}});
  }
  void change(bool off_stack) {
    if (model.docs.empty()) return;
    book::Deed deed;
    deed.label = "change";
    deed.off_stack = off_stack;
    Act act{author_, !off_stack, true, false, {}};
    const std::int64_t base = taken(mine().sequence());
    bool possible = true;
    const auto kept = model.docs;
    for (unsigned n = 1 + static_cast<unsigned>(chance_()) % 3; n-- > 0;) {
      book::Change one{any_doc(), path(), std::nullopt, base};
      if (chance_() % 4 != 0) one.value = value();
      Row row{one.document, one.path, {}, {}, false, false};
      if (std::any_of(deed.changes.begin(), deed.changes.end(), [&](const book::Change& other) {
            return meet(row, {other.document, other.path, {}, {}, false, false});
          }))
        continue;
      row.before = model.at(row.doc, row.path);
      if (one.value) row.after = leaves_of(*one.value, row.path);
      possible = possible && !(one.value && model.blocked(row.doc, row.path));
      model.put(row.doc, row.path, row.after);
      if (row.before != row.after) act.rows.push_back(row);
      deed.changes.push_back(one);
    }
    const auto answer = mine().act(deed);
    ASSERT_EQ(answer.has_value(), possible) << (answer ? "" : answer.error().message);
    if (!possible) {
      model.docs = kept;
      ++refused;
      return;
    }
    ASSERT_EQ(answer->entries.size(), act.rows.size());
    model.fresh(std::move(act));
  }
  void turn(bool back) {
    const std::optional<bool> expected = back ? model.undo(author_) : model.redo(author_);
    const auto answer = back ? mine().undo() : mine().redo();
    if (!expected) {
      ++empty;
      ASSERT_FALSE(answer.has_value());
      ASSERT_EQ(answer.error().code, base::ErrorCode::not_found);
      return;
    }
    ++(*expected ? done : refused);
    ASSERT_EQ(answer.has_value(), *expected) << (back ? "undo " : "redo ") << (answer ? "" : answer.error().message);
    if (!answer) {
      ASSERT_EQ(answer.error().code, base::ErrorCode::conflict);
      ASSERT_EQ(answer.error().readings.size(), 2u);
    }
  }

  std::mt19937 chance_;
  std::map<std::string, book::Book> books_;
  std::string author_;
};

TEST(book_undo, random_steps_of_three_authors_leave_what_a_simple_model_leaves) {
  const int steps = default_steps;
  int done = 0, refused = 0;
  // Many short lives: deep stacks and first steps, both.
  for (int life = 0; life * 1000 < steps; ++life) {
    const Folder folder;
    Play play(folder, static_cast<unsigned>(life) + 1);
    for (int i = 0; i < 1000; ++i) {
      play.step();
      if (i % 100 == 0) play.compare();
      if (testing::Test::HasFatalFailure()) {
        ADD_FAILURE() << "life " << life << ", step " << i;
        return;
      }
    }
    play.compare();
    if (life % 10 == 0) {
      EXPECT_THAT(taken(play.books().verify()).faults, IsEmpty());
    }
    done += play.done;
    refused += play.refused;
  }
  std::printf("%d undone or redone, %d refused\n", done, refused);
  EXPECT_GT(done, steps / 10);
  EXPECT_GT(refused, steps / 100);
}

}  // namespace
}  // namespace book_test
