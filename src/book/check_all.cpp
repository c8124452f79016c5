#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "book/attempt.hpp"
#include "book/check.hpp"
#include "book/draft.hpp"
#include "book/migrations.hpp"

namespace portwright::book {

using base::ErrorCode;
using base::Result;

namespace {

/// Reads rows to the end.
template <class Row>
Result<void> each(Statement rows, Row row) {
  for (;;) {
    BOOK_LET(more, rows.step());
    if (!more) return {};
    BOOK_TRY(row(rows));
  }
}

/// State of an original action, as the rules of undo derive it from the journal.
struct Root {
  std::string author;
  std::int64_t state = 0;
  bool off_stack = false;
};

class Check {
 public:
  Check(Database& database, Verified& out) : database_(database), out_(out) {}

  Result<void> pages() {
    Statement rows = database_.prepare("PRAGMA integrity_check(20)");
    BOOK_TRY(each(std::move(rows), [&](Statement& row) -> Result<void> {
      if (row.text(0) != "ok") fault("pages: " + row.text(0));
      return {};
    }));
    Statement keys = database_.prepare("PRAGMA foreign_key_check");
    return each(std::move(keys), [&](Statement& row) -> Result<void> {
      fault("a row of " + row.text(0) + " names what is not there");
      return {};
    });
  }

  Result<void> actions() {
    std::map<std::int64_t, Root> roots;
    Statement rows = database_.prepare("SELECT number, root, author, off_stack FROM action ORDER BY number");
    BOOK_TRY(each(std::move(rows), [&](Statement& row) -> Result<void> {
      ++out_.actions;
      follow(roots, row.number(0), row.number(1), row.text(2), row.number(3) != 0);
      return {};
    }));
    std::int64_t kept = 0;
    Statement table = database_.prepare("SELECT action, author, state FROM root");
    BOOK_TRY(each(std::move(table), [&](Statement& row) -> Result<void> {
      ++kept;
      const auto root = roots.find(row.number(0));
      if (root == roots.end() || root->second.author != row.text(1) || root->second.state != row.number(2))
        fault("action " + row.text(0) + " does not stand in the undo stack as the journal says");
      return {};
    }));
    if (kept != static_cast<std::int64_t>(roots.size())) fault("the undo stacks miss an action");
    return {};
  }

  Result<void> chain() {
    std::string chain;
    Statement rows = database_.prepare(
        "SELECT j.sequence, j.document, j.path, j.before, j.after, j.chain, a.number, a.root, a.author, a.at, a.label, "
        "a.token, a.off_stack FROM journal j LEFT JOIN action a ON a.number = j.action ORDER BY j.sequence");
    BOOK_TRY(each(std::move(rows), [&](Statement& row) -> Result<void> {
      ++out_.entries;
      const Action action{row.number(6), row.number(7), row.text(8),         row.text(9),
                          row.text(10),  row.text(11),  row.number(12) != 0, {}};
      const Entry entry{row.number(0), row.text(1), row.text(2), row.maybe_text(3), row.maybe_text(4), row.text(5)};
      if (chain_of(chain, action, entry) != entry.chain) fault("entry " + row.text(0) + " does not fit the chain");
      chain = entry.chain;
      return {};
    }));
    BOOK_LET(standing, read_standing(database_));
    if (standing.chain != chain) fault("the chain does not end as the book says");
    return {};
  }

  Result<void> documents() {
    Statement rows = database_.prepare(
        "SELECT id, kind, belongs_to, title, body, hidden, concealed, revision, number, created, changed, author FROM "
        "document "
        "ORDER BY number");
    return each(std::move(rows), [&](Statement& row) -> Result<void> {
      ++out_.documents;
      BOOK_TRY(document(row));
      return facets(row.number(8), row.text(0), row.text(4));
    });
  }

  Result<void> blobs() {
    Statement rows = database_.prepare("SELECT hash, size, bytes FROM blob");
    return each(std::move(rows), [&](Statement& row) -> Result<void> {
      ++out_.blobs;
      const std::string bytes = row.text(2);
      if (hash_of(bytes) != row.text(0) || static_cast<std::int64_t>(bytes.size()) != row.number(1))
        fault("bytes " + row.text(0) + " are not those that were kept");
      return {};
    });
  }

  Result<void> counts() {
    BOOK_LET(standing, read_standing(database_));
    if (standing.documents != out_.documents) fault("documents were lost or added outside the book");
    if (standing.entries != out_.entries) fault("entries of the journal were lost or added outside the book");
    if (standing.blobs != out_.blobs) fault("kept bytes were lost or added outside the book");
    BOOK_LET(orphans, database_.number("SELECT count(*) FROM journal WHERE document NOT IN (SELECT id FROM document)"));
    if (orphans != 0) fault("the journal tells of documents that are not there");
    return {};
  }

  /// False when the index does not agree with the documents.
  Result<bool> search_agrees() {
    BOOK_LET(indexed, database_.number("SELECT count(*) FROM search"));
    BOOK_LET(documents, database_.number("SELECT count(*) FROM document"));
    if (indexed != documents) return false;
    bool agrees = true;
    Statement rows = database_.prepare(
        "SELECT d.title, d.body, s.title, s.words FROM document d LEFT JOIN search s ON s.rowid = d.number");
    BOOK_TRY(each(std::move(rows), [&](Statement& row) -> Result<void> {
      const Result<Tree> body = parse_tree(row.text(1));
      if (!body || row.text(0) != row.text(2) || texts(*body) != row.text(3)) agrees = false;
      return {};
    }));
    return agrees;
  }

 private:
  void fault(std::string what) {
    if (out_.faults.size() < 100) out_.faults.push_back(std::move(what));
  }

  void follow(std::map<std::int64_t, Root>& roots, std::int64_t number, std::int64_t root, const std::string& author,
              bool off_stack) {
    std::vector<std::int64_t>& taken_back = taken_back_[author];
    if (root == number) {
      if (!off_stack)
        for (const std::int64_t one : std::exchange(taken_back, {})) roots[one].state = 2;
      roots[number] = {author, 0, off_stack};
      return;
    }
    const auto found = roots.find(root);
    const bool again = found != roots.end() && found->second.state == 1;
    if (found == roots.end() || found->second.state == 2 || found->second.author != author || found->second.off_stack ||
        (again && taken_back.back() != root))
      return fault("action " + std::to_string(number) + " takes back what cannot be taken back");
    found->second.state = again ? 0 : 1;
    if (again)
      taken_back.pop_back();
    else
      taken_back.push_back(root);
  }

  /// A document against the sum of its entries.
  Result<void> document(Statement& row) {
    const std::string id = row.text(0);
    std::optional<Held> held;
    std::string created, changed, author;
    std::int64_t revision = 0;
    Statement entries = database_.prepare(
        "SELECT j.sequence, j.path, j.before, j.after, a.at, a.author FROM journal j JOIN action a ON a.number = "
        "j.action "
        "WHERE j.document = ? ORDER BY j.sequence");
    entries.bind(id);
    BOOK_TRY(each(std::move(entries), [&](Statement& one) -> Result<void> {
      const Entry entry{one.number(0), id, one.text(1), one.maybe_text(2), one.maybe_text(3), {}};
      if (!fold(held, entry)) fault("entry " + one.text(0) + " does not follow from what was there before");
      if (created.empty()) created = one.text(4);
      changed = one.text(4);
      author = one.text(5);
      revision = entry.sequence;
      return {};
    }));
    const bool same = held && held->kind == row.text(1) && held->belongs_to == row.text(2) &&
                      print(held->body) == row.text(4) && held->hidden == (row.number(5) != 0) &&
                      revision == row.number(7) && created == row.text(9) && changed == row.text(10) &&
                      author == row.text(11) && title_of(held->body) == row.text(3);
    if (!same) fault("document " + id + " is not what its journal adds up to");
    BOOK_LET(out_of_sight, concealed(id));
    if (out_of_sight != (row.number(6) != 0)) fault("document " + id + " is hidden or shown against its owner");
    return {};
  }

  Result<bool> concealed(std::string id) {
    for (int depth = 0; !id.empty(); ++depth) {
      Statement row = database_.prepare("SELECT hidden, belongs_to FROM document WHERE id = ?");
      BOOK_LET(there, row.bind(id).step());
      if (!there || depth > 1000) {
        fault("document " + id + " belongs to what is not there");
        return false;
      }
      if (row.number(0) != 0) return true;
      id = row.text(1);
    }
    return false;
  }

  Result<void> facets(std::int64_t number, const std::string& id, const std::string& body) {
    const Result<Tree> tree = parse_tree(body);
    if (!tree) {
      fault("document " + id + " cannot be read");
      return {};
    }
    BOOK_LET(expected, facets_of(database_, *tree));
    std::map<std::string, std::string> kept;
    Statement rows = database_.prepare("SELECT key, value FROM facet WHERE document = ?");
    rows.bind(number);
    BOOK_TRY(each(std::move(rows), [&](Statement& row) -> Result<void> {
      kept.emplace(row.text(0), row.text(1));
      return {};
    }));
    if (kept != expected) fault("document " + id + " is not found by what it says");
    return {};
  }

  Database& database_;
  Verified& out_;
  std::map<std::string, std::vector<std::int64_t>> taken_back_;  // by author, the latest last
};

}  // namespace

Result<void> rebuild_search(Database& database) {
  BOOK_TRY(database.run("DROP TABLE search"));
  BOOK_TRY(database.run(search_table()));
  Statement rows = database.prepare("SELECT number, title, body FROM document ORDER BY number");
  return each(std::move(rows), [&](Statement& row) -> Result<void> {
    BOOK_LET(body, parse_tree(row.text(2)));
    Statement search = database.prepare("INSERT INTO search (rowid, title, words) VALUES (?, ?, ?)");
    return search.bind(row.number(0)).bind(row.text(1)).bind(texts(body)).run();
  });
}

Result<Verified> check_all(Database& database, bool mend) {
  Verified out;
  Check check(database, out);
  {
    BOOK_LET(view, Transaction::reading(database));
    BOOK_TRY(check.pages());
    BOOK_TRY(check.chain());
    BOOK_TRY(check.actions());
    BOOK_TRY(check.documents());
    BOOK_TRY(check.blobs());
    BOOK_TRY(check.counts());
    BOOK_TRY(view.commit());
  }
  if (!mend) {
    BOOK_LET(agrees, check.search_agrees());
    if (!agrees) out.faults.push_back("the index of words does not agree with the documents");
    return out;
  }
  BOOK_LET(transaction, Transaction::writing(database));
  const Result<void> index = database.run("INSERT INTO search(search, rank) VALUES ('integrity-check', 1)");
  const Result<bool> agrees = check.search_agrees();
  if (index && agrees && *agrees) return out;
  BOOK_TRY(rebuild_search(database));
  BOOK_TRY(transaction.commit());
  out.search_mended = true;
  return out;
}

}  // namespace portwright::book
