#include <utility>

#include "book/attempt.hpp"
#include "book/conflict.hpp"
#include "book/inside.hpp"
#include "book/sha256.hpp"
#include "book/tree.hpp"

namespace portwright::book {

using base::ErrorCode;
using base::Result;

namespace {

#define BOOK_DOCUMENT                                                                                             \
  "SELECT d.id, d.kind, d.belongs_to, d.title, d.body, d.revision, d.concealed, d.hidden, d.created, d.changed, " \
  "d.author FROM document d "

Document document_of(const Statement& row) {
  Document out;
  out.id = row.text(0);
  out.kind = row.text(1);
  out.belongs_to = row.text(2);
  out.title = row.text(3);
  out.body = row.text(4);
  out.revision = row.number(5);
  out.hidden = row.number(6) != 0;
  out.hidden_itself = row.number(7) != 0;
  out.created = row.text(8);
  out.changed = row.text(9);
  out.author = row.text(10);
  return out;
}

Result<std::vector<std::int64_t>> numbers(Statement& rows) {
  std::vector<std::int64_t> out;
  for (;;) {
    BOOK_LET(more, rows.step());
    if (!more) return out;
    out.push_back(rows.number(0));
  }
}

Result<std::vector<std::int64_t>> action_numbers(Database& database, const JournalQuery& query) {
  const std::int64_t before = query.before > 0 ? query.before : INT64_MAX;
  if (query.document.empty()) {
    Statement rows = database.prepare("SELECT number FROM action WHERE number < ? ORDER BY number DESC LIMIT ?");
    rows.bind(before).bind(query.limit);
    return numbers(rows);
  }
  if (query.path.empty()) {
    Statement rows = database.prepare(
        "SELECT DISTINCT action FROM journal WHERE document = ? AND action < ? ORDER BY action DESC LIMIT ?");
    rows.bind(query.document).bind(before).bind(query.limit);
    return numbers(rows);
  }
  BOOK_LET(touching, entries_touching(database, query.document, query.path, 0));
  std::vector<std::int64_t> out;
  for (auto told = touching.rbegin(); told != touching.rend(); ++told) {
    if (told->action >= before || (!out.empty() && out.back() == told->action)) continue;
    if (query.limit >= 0 && static_cast<std::int64_t>(out.size()) >= query.limit) break;
    out.push_back(told->action);
  }
  return out;
}

}  // namespace

Result<Action> read_action(Database& database, std::int64_t number) {
  Action out;
  Statement row =
      database.prepare("SELECT number, root, author, at, label, token, off_stack FROM action WHERE number = ?");
  BOOK_LET(there, row.bind(number).step());
  if (!there) return base::fail(ErrorCode::not_found, "No action " + std::to_string(number) + " is in the book.");
  out.number = row.number(0);
  out.root = row.number(1);
  out.author = row.text(2);
  out.at = row.text(3);
  out.label = row.text(4);
  out.token = row.text(5);
  out.off_stack = row.number(6) != 0;
  Statement entries = database.prepare(
      "SELECT sequence, document, path, before, after, chain FROM journal WHERE action = ? ORDER BY sequence");
  entries.bind(number);
  for (;;) {
    BOOK_LET(more, entries.step());
    if (!more) return out;
    out.entries.push_back({entries.number(0), entries.text(1), entries.text(2), entries.maybe_text(3),
                           entries.maybe_text(4), entries.text(5)});
  }
}

Result<Document> Book::get(const std::string& id) {
  BOOK_TRY(inside_->ready());
  Statement row = inside_->database.prepare(BOOK_DOCUMENT "WHERE d.id = ?");
  BOOK_LET(there, row.bind(id).step());
  if (!there) return base::fail(ErrorCode::not_found, "No document \u201C" + id + "\u201D is in the book.");
  return document_of(row);
}

Result<std::vector<Document>> Book::list(const Query& query) {
  BOOK_TRY(inside_->ready());
  std::string sql = BOOK_DOCUMENT;
  if (!query.facet.empty()) sql += "JOIN facet f ON f.document = d.number ";
  sql += "WHERE d.id > ?";
  if (!query.facet.empty()) sql += " AND f.key = ? AND f.value = ?";
  if (!query.kind.empty()) sql += " AND d.kind = ?";
  if (query.belongs_to) sql += " AND d.belongs_to = ?";
  if (!query.hidden) sql += " AND d.concealed = 0";
  if (!query.leaf.empty()) sql += " AND instr(d.body, ?) > 0";
  sql += " ORDER BY d.id LIMIT ?";
  Statement rows = inside_->database.prepare(sql);
  rows.bind(query.after);
  if (!query.facet.empty()) rows.bind(query.facet).bind(query.value);
  if (!query.kind.empty()) rows.bind(query.kind);
  if (query.belongs_to) rows.bind(*query.belongs_to);
  if (!query.leaf.empty()) {
    Tree leaf;
    leaf.kind = Tree::Kind::text;
    leaf.text = query.leaf;
    rows.bind(print(leaf));
  }
  rows.bind(query.limit);
  std::vector<Document> out;
  for (;;) {
    BOOK_LET(more, rows.step());
    if (!more) return out;
    out.push_back(document_of(rows));
  }
}

Result<std::vector<Action>> Book::journal(const JournalQuery& query) {
  BOOK_TRY(inside_->ready());
  BOOK_LET(view, Transaction::reading(inside_->database));
  BOOK_LET(wanted, action_numbers(inside_->database, query));
  std::vector<Action> out;
  for (const std::int64_t number : wanted) {
    BOOK_LET(action, read_action(inside_->database, number));
    out.push_back(std::move(action));
  }
  BOOK_TRY(view.commit());
  return out;
}

Result<std::vector<Document>> Book::get(std::span<const std::string> ids) {
  BOOK_TRY(inside_->ready());
  BOOK_LET(view, Transaction::reading(inside_->database));
  std::vector<Document> out;
  for (const std::string& id : ids) {
    BOOK_LET(document, get(id));
    out.push_back(std::move(document));
  }
  BOOK_TRY(view.commit());
  return out;
}

Result<Blob> Book::blob(const std::string& hash) {
  BOOK_TRY(inside_->ready());
  Statement row = inside_->database.prepare("SELECT hash, type, bytes FROM blob WHERE hash = ?");
  BOOK_LET(there, row.bind(hash).step());
  if (!there) return base::fail(ErrorCode::not_found, "No bytes \u201C" + hash + "\u201D are in the book.");
  Blob out{row.text(0), row.text(1), row.text(2)};
  if (hash_of(out.bytes) != hash)
    return base::fail(ErrorCode::damaged, "The bytes \u201C" + hash + "\u201D are not those that were kept.");
  return out;
}

Result<std::vector<Blob>> Book::blobs() {
  BOOK_TRY(inside_->ready());
  std::vector<Blob> out;
  Statement rows = inside_->database.prepare("SELECT hash, type FROM blob ORDER BY hash");
  for (;;) {
    BOOK_LET(more, rows.step());
    if (!more) return out;
    out.push_back({rows.text(0), rows.text(1), {}});
  }
}

Result<std::vector<std::string>> Book::facets() {
  BOOK_TRY(inside_->ready());
  BOOK_LET(kept, inside_->database.text("SELECT value FROM fact WHERE key = 'facets'"));
  BOOK_LET(tree, parse_tree(kept));
  return tree.list;
}

const std::string& Book::id() const { return inside_->id; }

Result<void> Book::one_view(const std::function<Result<void>()>& reading) {
  BOOK_TRY(inside_->ready());
  BOOK_LET(view, Transaction::reading(inside_->database));
  BOOK_TRY(reading());
  return view.commit();
}

Result<std::string> Book::hash() {
  BOOK_TRY(inside_->ready());
  BOOK_LET(view, Transaction::reading(inside_->database));
  BOOK_LET(standing, read_standing(inside_->database));
  Sha256 sum;
  sum.add_field("portwright book 1");
  sum.add_field(standing.chain);
  sum.add_field(std::to_string(standing.documents));
  Statement documents = inside_->database.prepare("SELECT id, body, hidden FROM document ORDER BY id");
  for (;;) {
    BOOK_LET(more, documents.step());
    if (!more) break;
    sum.add_field(documents.text(0));
    sum.add_field(hash_of(documents.text(1)));
    sum.add_field(documents.text(2));
  }
  Statement blobs = inside_->database.prepare("SELECT hash FROM blob ORDER BY hash");
  for (;;) {
    BOOK_LET(more, blobs.step());
    if (!more) break;
    sum.add_field(blobs.text(0));
  }
  BOOK_TRY(view.commit());
  return sum.hexadecimal();
}

Result<std::int64_t> Book::sequence() {
  BOOK_TRY(inside_->ready());
  return inside_->database.number("SELECT sequence FROM standing");
}

}  // namespace portwright::book
