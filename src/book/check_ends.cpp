#include "book/attempt.hpp"
#include "book/check.hpp"
#include "book/draft.hpp"
#include "book/migrations.hpp"
#include "book/page_sums.hpp"

namespace portwright::book {

using base::ErrorCode;
using base::Result;

namespace {

constexpr std::int64_t looked_at = 16;

tl::unexpected<base::Error> damaged(const std::string& what) {
  return base::fail(ErrorCode::damaged, "The book is damaged: " + what + ".");
}

/// The last entries with their actions, oldest first; one more than are checked, for the chain before them.
Result<std::vector<std::pair<Action, Entry>>> last_entries(Database& database) {
  Statement rows = database.prepare(
      "SELECT * FROM (SELECT j.sequence, j.document, j.path, j.before, j.after, j.chain, a.number, a.root, a.author, "
      "a.at, "
      "a.label, a.token, a.off_stack FROM journal j LEFT JOIN action a ON a.number = j.action ORDER BY j.sequence DESC "
      "LIMIT "
      "?) ORDER BY 1");
  rows.bind(looked_at + 1);
  std::vector<std::pair<Action, Entry>> out;
  for (;;) {
    BOOK_LET(more, rows.step());
    if (!more) return out;
    Action action{rows.number(6), rows.number(7), rows.text(8),         rows.text(9),
                  rows.text(10),  rows.text(11),  rows.number(12) != 0, {}};
    Entry entry{rows.number(0), rows.text(1), rows.text(2), rows.maybe_text(3), rows.maybe_text(4), rows.text(5)};
    out.emplace_back(std::move(action), std::move(entry));
  }
}

}  // namespace

Result<std::string> schema_text(Database& database) {
  return database.text(
      "SELECT group_concat(name || ': ' || sql, char(10)) FROM (SELECT name, sql FROM sqlite_schema WHERE sql IS NOT "
      "NULL "
      "ORDER BY name)");
}

Result<std::string> expected_schema(int schema) {
  BOOK_LET(database, Database::open({":memory:", {}, true, false}));
  for (int i = 0; i < schema; ++i) BOOK_TRY(database.run(migrations()[static_cast<std::size_t>(i)]));
  return schema_text(database);
}

Result<void> quick_check(Database& database) {
  const std::int64_t before = disk_errors(database.handle());
  BOOK_LET(said, database.text("PRAGMA quick_check(1)"));
  if (said == "ok") return {};
  if (disk_errors(database.handle()) == before) return damaged(said);
  return base::fail(ErrorCode::storage, "The disk does not read as asked; the book could not be checked.");
}

Result<void> check_ends(Database& database) {
  BOOK_LET(view, Transaction::reading(database));
  BOOK_LET(schema, schema_text(database));
  static const Result<std::string> expected = expected_schema(newest_schema());
  if (!expected) return tl::unexpected(expected.error());
  if (schema != *expected) return damaged("its tables are not those of a book");
  BOOK_LET(standing, read_standing(database));
  BOOK_LET(last, last_entries(database));
  const Entry none;
  const Entry& newest = last.empty() ? none : last.back().second;
  if (newest.sequence != standing.sequence || newest.chain != standing.chain || standing.next <= standing.sequence)
    return damaged("its journal does not end where it should");
  const std::size_t begin = static_cast<std::int64_t>(last.size()) > looked_at ? 1 : 0;
  std::string chain = begin == 1 ? last.front().second.chain : std::string{};
  for (std::size_t i = begin; i < last.size(); ++i) {
    const auto& [action, entry] = last[i];
    if (chain_of(chain, action, entry) != entry.chain)
      return damaged("an entry of its journal is not what was written");
    chain = entry.chain;
  }
  return view.commit();
}

}  // namespace portwright::book
