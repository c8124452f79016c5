#include <algorithm>
#include <utility>

#include "book/attempt.hpp"
#include "book/conflict.hpp"
#include "book/draft.hpp"
#include "book/identity.hpp"

namespace portwright::book {

using base::ErrorCode;
using base::Result;

namespace {

// State of a root: 0 done, 1 taken back and may be done again, 2 taken back for good.
constexpr std::string_view newest_done =
    "SELECT r.action FROM root r JOIN action a ON a.number = r.action WHERE r.author = ? AND r.state = 0 AND "
    "a.off_stack = "
    "0 ORDER BY r.action DESC LIMIT 1";
constexpr std::string_view last_taken_back =
    "SELECT action FROM root WHERE author = ? AND state = 1 ORDER BY action LIMIT 1";

/// What stands at a path in the place of what the author left there.
Result<Told> last_writer(Database& database, const Entry& entry, std::int64_t root) {
  BOOK_LET(touching, entries_touching(database, entry.document, entry.path, 0));
  Told told;
  for (const Told& one : touching)
    if (one.root != root || told.action == 0) told = one;
  return told;
}

/// Error conflict when another action that stands has touched the place after `entry`.
Result<void> check_later(Database& database, const Entry& entry, std::int64_t root,
                         const std::optional<std::string>& mine, const Held& held) {
  BOOK_LET(touching, entries_touching(database, entry.document, entry.path, entry.sequence));
  for (const Told& told : touching) {
    if (!told.live || told.root == root || (entry.path.empty() && told.off_stack)) continue;
    const std::string& path = told.entry.path.empty() ? entry.path : told.entry.path;
    return tl::unexpected(conflict_error(told, path, mine, value_at(held, path)));
  }
  return {};
}

/// Error conflict when somebody's documents hang on the one that would go out of sight.
Result<void> check_children(Database& database, const std::string& document, std::int64_t root) {
  Statement rows = database.prepare(
      "WITH RECURSIVE below(id) AS (SELECT id FROM document WHERE belongs_to = ?1 UNION SELECT d.id FROM document d "
      "JOIN "
      "below b ON d.belongs_to = b.id) SELECT d.id, d.title, a.author, a.at FROM below b JOIN document d ON d.id = "
      "b.id "
      "JOIN journal j ON j.document = d.id AND j.path = '' JOIN root r ON r.action = j.action JOIN action a ON "
      "a.number = "
      "j.action WHERE d.hidden = 0 AND r.state = 0 AND a.off_stack = 0 AND r.action <> ?2");
  BOOK_LET(there, rows.bind(document).bind(root).step());
  if (!there) return {};
  Told told;
  told.author = rows.text(2);
  told.at = rows.text(3);
  base::Error error = conflict_error(told, "", "false", "true");
  const std::string what = rows.text(1).empty() ? rows.text(0) : rows.text(1);
  error.message =
      "\u201C" + what + "\u201D, added by " + told.author + " at " + told.at + ", belongs to what would go.";
  error.hint = "Hide it instead; what belongs to it comes back with it.";
  return tl::unexpected(std::move(error));
}

/// Takes one entry of a root back, or does it again, in the draft.
Result<void> toggle(Database& database, Draft& draft, const Entry& entry, std::int64_t root, bool back) {
  BOOK_LET(held, draft.held(entry.document));
  const bool adds = entry.path.empty();
  const std::string path = adds ? std::string(hidden_path) : entry.path;
  const std::optional<std::string> without = adds ? "true" : entry.before;
  const std::optional<std::string> with = adds ? "false" : entry.after;
  const std::optional<std::string>& now = back ? with : without;
  const std::optional<std::string>& then = back ? without : with;
  BOOK_TRY(check_later(database, entry, root, then, *held));
  if (adds && back) BOOK_TRY(check_children(database, entry.document, root));
  if (value_at(*held, path) != now) {
    BOOK_LET(told, last_writer(database, entry, root));
    return tl::unexpected(conflict_error(told, path, then, value_at(*held, path)));
  }
  const Result<void> put = draft.change(*held, path, then);
  if (put) return {};
  BOOK_LET(told, last_writer(database, entry, root));
  return tl::unexpected(conflict_error(told, path, then, value_at(*held, path)));
}

Result<Action> toggled(Book::Inside& inside, const std::string& token, const std::string& client, bool back) {
  Database& database = inside.database;
  std::int64_t root = 0;
  {
    Statement row = database.prepare(back ? newest_done : last_taken_back);
    BOOK_LET(there, row.bind(inside.place.author).step());
    if (!there)
      return base::fail(ErrorCode::not_found,
                        back ? "There is nothing of yours to undo." : "There is nothing to redo.");
    root = row.number(0);
  }
  BOOK_LET(first, read_action(database, root));
  std::vector<Entry> entries = first.entries;
  if (back) std::reverse(entries.begin(), entries.end());
  Draft draft(database);
  for (const Entry& entry : entries) BOOK_TRY(toggle(database, draft, entry, root, back));
  Action action;
  action.root = root;
  action.author = inside.place.author;
  action.at = moment_text(inside.now());
  action.label = (back ? "undo: " : "redo: ") + first.label;
  action.token = token;
  BOOK_LET(done, draft.write(std::move(action), client));
  Statement row = database.prepare("UPDATE root SET state = ? WHERE action = ?");
  BOOK_TRY(row.bind(std::int64_t{back ? 1 : 0}).bind(root).run());
  return std::move(done);
}

}  // namespace

Result<Action> Book::undo(const std::string& token, const std::string& client) {
  return commit(*inside_, token, [&](const std::string& named) { return toggled(*inside_, named, client, true); });
}

Result<Action> Book::redo(const std::string& token, const std::string& client) {
  return commit(*inside_, token, [&](const std::string& named) { return toggled(*inside_, named, client, false); });
}

}  // namespace portwright::book
