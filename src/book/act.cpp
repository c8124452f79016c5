#include <algorithm>
#include <utility>

#include "book/attempt.hpp"
#include "book/conflict.hpp"
#include "book/draft.hpp"
#include "book/identity.hpp"
#include "book/inside.hpp"

namespace portwright::book {

using base::ErrorCode;
using base::Result;

namespace {

tl::unexpected<base::Error> wrong(std::string message, std::string path = {}) {
  return base::fail(ErrorCode::usage, std::move(message), std::move(path));
}

constexpr std::size_t longest_word = 1000;  // bytes

Result<void> check_words(const Deed& deed, const Place& place) {
  if (!is_text(deed.label)) return wrong("The label of an action is not UTF-8.");
  for (const std::string* word : {&deed.token, &deed.client, &place.author})
    if (!is_text(*word) || word->size() > longest_word)
      return wrong("A token, client or author is not UTF-8 of up to 1,000 bytes.");
  return {};
}

/// A label that quotes a long text is cut; the entries have the text.
std::string short_label(std::string label) {
  if (label.size() <= longest_word) return label;
  std::size_t end = longest_word - 3;
  while (end > 0 && (static_cast<unsigned char>(label[end]) & 0xc0U) == 0x80) --end;
  return label.substr(0, end) + "\u2026";
}

/// Two changes of one deed on paths that overlap.
Result<void> check_overlaps(const Deed& deed) {
  std::vector<std::pair<std::string, std::string>> places;
  for (const Change& change : deed.changes) {
    if (!is_path(change.path)) return wrong("\u201C" + change.path + "\u201D is no path.", change.path);
    places.emplace_back(change.document, change.path);
  }
  for (const auto* ids : {&deed.hidden, &deed.brought_back})
    for (const std::string& id : *ids) places.emplace_back(id, hidden_path);
  std::sort(places.begin(), places.end());
  for (std::size_t i = 1; i < places.size(); ++i) {
    // Sorted, a path is not always next to one that it lies above ("a", "a_b", "a.c"): look at all of the document.
    for (std::size_t j = i; j-- > 0 && places[j].first == places[i].first;)
      if (overlap(places[j].second, places[i].second))
        return wrong("Two changes of one deed touch the same place.", places[i].second);
  }
  return {};
}

Result<void> add_documents(Draft& draft, const Deed& deed) {
  for (const NewDocument& wanted : deed.added) {
    Held held;
    held.id = wanted.id;
    held.kind = wanted.kind;
    held.belongs_to = wanted.belongs_to;
    if (!is_kind(held.kind)) return wrong("\u201C" + held.kind + "\u201D is no kind of document.");
    if (!held.id.empty() && !is_id(held.id)) return wrong("\u201C" + held.id + "\u201D is no id of a document.");
    for (bool fresh = !held.id.empty(); !fresh;) {
      held.id = new_id();
      BOOK_LET(taken, draft.taken(held.id));
      fresh = !taken;
    }
    BOOK_LET(taken, draft.taken(held.id));
    if (taken) return wrong("The book has a document \u201C" + held.id + "\u201D already.");
    if (!held.belongs_to.empty()) BOOK_TRY(draft.held(held.belongs_to));
    BOOK_LET(body, parse_tree(wanted.body));
    if (body.kind != Tree::Kind::branch) return wrong("The body of a document is an object.");
    held.body = std::move(body);
    draft.add(std::move(held));
  }
  return {};
}

Result<void> make_changes(Database& database, Draft& draft, const Deed& deed) {
  for (const Change& change : deed.changes) {
    BOOK_LET(held, draft.held(change.document));
    if (held->number == 0) return wrong("A document is added and changed in one deed.", change.path);
    std::optional<std::string> value;
    if (change.value) {
      BOOK_LET(tree, parse_tree(*change.value));
      if (!tree.empty_branch()) value = print(tree);
    }
    BOOK_TRY(check_conflict(database, *held, change, value, deed.client));
    if (const Result<void> put = draft.change(*held, change.path, value); !put) {
      base::Error error = put.error();
      error.path = change.path;
      return tl::unexpected(std::move(error));
    }
  }
  return {};
}

Result<void> set_hidden(Draft& draft, const std::vector<std::string>& ids, bool hidden) {
  for (const std::string& id : ids) {
    BOOK_LET(held, draft.held(id));
    BOOK_TRY(draft.change(*held, hidden_path, hidden ? "true" : "false"));
  }
  return {};
}

Result<Action> written(Book::Inside& inside, const Deed& deed) {
  Database& database = inside.database;
  Draft draft(database);
  BOOK_TRY(add_documents(draft, deed));
  BOOK_TRY(make_changes(database, draft, deed));
  BOOK_TRY(set_hidden(draft, deed.hidden, true));
  BOOK_TRY(set_hidden(draft, deed.brought_back, false));
  Action action;
  if (draft.entries().empty()) return action;
  action.author = inside.place.author;
  action.at = moment_text(inside.now());
  action.label = short_label(deed.label);
  action.token = deed.token;
  action.off_stack = deed.off_stack;
  for (const NewBlob& blob : deed.blobs) BOOK_TRY(keep_blob(database, blob));
  BOOK_TRY(keep_blobs(database, deed.further_blobs));
  BOOK_LET(done, draft.write(std::move(action), deed.client));
  BOOK_TRY(note_root(database, done));
  return std::move(done);
}

}  // namespace

Result<void> keep_blob(Database& database, const NewBlob& blob) {
  Statement row = database.prepare("INSERT INTO blob VALUES (?, ?, ?, ?) ON CONFLICT DO NOTHING");
  row.bind(hash_of(blob.bytes)).bind(blob.type).bind(static_cast<std::int64_t>(blob.bytes.size()));
  BOOK_TRY(row.bind_bytes(blob.bytes).run());
  if (database.changed() > 0) BOOK_TRY(database.run("UPDATE standing SET blobs = blobs + 1"));
  return {};
}

Result<void> keep_blobs(Database& database, const BlobSource& blobs) {
  for (std::size_t i = 0; i < blobs.count; ++i) {
    BOOK_LET(blob, blobs.read(i));
    BOOK_TRY(keep_blob(database, blob));
  }
  return {};
}

Result<void> note_root(Database& database, const Action& action) {
  if (!action.off_stack) {
    Statement clear = database.prepare("UPDATE root SET state = 2 WHERE author = ? AND state = 1");
    BOOK_TRY(clear.bind(action.author).run());
  }
  Statement row = database.prepare("INSERT INTO root VALUES (?, ?, 0)");
  return row.bind(action.number).bind(action.author).run();
}

Result<Action> Book::act(const Deed& deed) {
  BOOK_TRY(check_words(deed, inside_->place));
  BOOK_TRY(check_overlaps(deed));
  return commit(*inside_, deed.token, [&](const std::string& token) {
    Deed named = deed;
    named.token = token;
    return written(*inside_, named);
  });
}

}  // namespace portwright::book
