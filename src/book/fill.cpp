#include <utility>

#include "book/attempt.hpp"
#include "book/check.hpp"
#include "book/draft.hpp"
#include "book/identity.hpp"
#include "book/tree.hpp"

namespace portwright::book {

using base::ErrorCode;
using base::Result;

namespace {

/// The undo stacks as the actions leave them; check_all looks at the outcome.
Result<void> follow_root(Database& database, const Action& action) {
  if (action.root == action.number) return note_root(database, action);
  Statement row = database.prepare("UPDATE root SET state = 1 - state WHERE action = ? AND state < 2");
  return row.bind(action.root).run();
}

Result<void> write_facts(Database& database, const Whole& whole) {
  Tree facets;
  facets.kind = Tree::Kind::list;
  facets.list = whole.facets;
  if (!is_id(whole.book)) return base::fail(ErrorCode::damaged, "The book to be taken over has no id.");
  for (const std::string& one : whole.facets)
    if (!is_kind(one)) return base::fail(ErrorCode::damaged, "\u201C" + one + "\u201D is no facet.");
  BOOK_TRY(database.prepare("UPDATE fact SET value = ? WHERE key = 'facets'").bind(print(facets)).run());
  return database.prepare("UPDATE fact SET value = ? WHERE key = 'book'").bind(whole.book).run();
}

Result<void> check_words(const Action& action) {
  for (const std::string* word : {&action.author, &action.at, &action.label, &action.token})
    if (!is_text(*word) || word->size() > 1100)
      return base::fail(ErrorCode::damaged, "Action " + std::to_string(action.number) + " is no text.");
  return {};
}

Result<Verified> filled(Database& database, const Whole& whole) {
  BOOK_LET(standing, read_standing(database));
  if (standing.entries != 0 || standing.blobs != 0)
    return base::fail(ErrorCode::usage, "The book is not empty; only an empty one can become another.");
  BOOK_TRY(write_facts(database, whole));
  Draft draft(database);
  for (const Action& action : whole.actions) {
    BOOK_TRY(check_words(action));
    BOOK_TRY(draft.replay(action, standing));
    BOOK_TRY(follow_root(database, action));
  }
  BOOK_TRY(draft.write_replayed());
  BOOK_LET(documents, database.number("SELECT count(*) FROM document"));
  standing.documents = documents;
  BOOK_TRY(write_standing(database, standing));
  BOOK_TRY(keep_blobs(database, whole.blobs));
  BOOK_LET(verified, check_all(database, false));
  if (!verified.faults.empty())
    return base::fail(ErrorCode::damaged, "What was to be taken over does not hold: " + verified.faults.front() + ".");
  return std::move(verified);
}

}  // namespace

Result<Verified> Book::fill(const Whole& whole) {
  Inside& inside = *inside_;
  if (inside.place.read_only) return base::fail(ErrorCode::storage, "The book was opened for reading only.");
  BOOK_TRY(inside.ready());
  BOOK_LET(transaction, Transaction::writing(inside.database));
  BOOK_TRY(check_schema(inside.database));
  Result<Verified> done = filled(inside.database, whole);
  // A number, token or id that is there twice is a fault of what came, not of the program.
  if (!done && done.error().code == ErrorCode::fault)
    return base::fail(ErrorCode::damaged, "What was to be taken over does not hold. " + done.error().message);
  if (!done) return done;
  BOOK_TRY(transaction.commit());
  inside.id = whole.book;
  after_commit(inside);
  return done;
}

}  // namespace portwright::book
