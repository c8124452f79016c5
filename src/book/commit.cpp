#include "book/attempt.hpp"
#include "book/backups.hpp"
#include "book/inside.hpp"
#include "book/migrations.hpp"
#include "book/tally.hpp"
#include "book/tree.hpp"

namespace portwright::book {

using base::ErrorCode;
using base::Result;

namespace {

/// Number of the action with this token; 0: none.
Result<std::int64_t> known(Database& database, const std::string& token) {
  Statement row = database.prepare("SELECT number FROM action WHERE token = ?");
  BOOK_LET(there, row.bind(token).step());
  return there ? row.number(0) : 0;
}

/// After a failed commit: whether the action is in the file all the same.
Result<Action> look_again(Book::Inside& inside, const std::string& token, const base::Error& trouble) {
  inside.database = Database();
  if (!inside.ready()) return tl::unexpected(trouble);
  BOOK_LET(number, known(inside.database, token));
  if (number == 0) return tl::unexpected(trouble);
  return read_action(inside.database, number);
}

}  // namespace

void after_commit(Book::Inside& inside) {
  const Result<Tally> now = sighting(inside.database, inside.id);
  if (!now) return inside.notices.push_back(now.error().message);
  if (inside.place.synced && !inside.alarm) keep_tallies(inside, *now, false);
  back_up_hourly(inside);
}

Result<void> check_schema(Database& database) {
  BOOK_LET(schema, database.number("PRAGMA user_version"));
  if (schema == newest_schema()) return {};
  return base::fail(ErrorCode::newer, "Another program has brought the book to schema " + std::to_string(schema) + ".",
                    {}, "Use that newer program.");
}

Result<Action> commit(Book::Inside& inside, const std::string& wanted,
                      const std::function<Result<Action>(const std::string& token)>& work) {
  if (inside.place.read_only)
    return base::fail(ErrorCode::storage, "The book was opened for reading only; nothing was changed.");
  if (!is_text(wanted) || wanted.size() > 1000)
    return base::fail(ErrorCode::usage, "A token is not UTF-8 of up to 1,000 bytes.");
  BOOK_TRY(inside.ready());
  const std::string token = wanted.empty() ? new_token() : wanted;
  const auto attempt = [&]() -> Result<std::pair<Action, bool>> {
    BOOK_LET(transaction, Transaction::writing(inside.database));
    BOOK_TRY(check_schema(inside.database));
    BOOK_LET(number, known(inside.database, token));
    if (number != 0) {
      BOOK_LET(stored, read_action(inside.database, number));
      return std::pair{std::move(stored), false};
    }
    BOOK_LET(action, work(token));
    if (action.number != 0) BOOK_TRY(transaction.commit());
    return std::pair{std::move(action), true};
  };
  Result<std::pair<Action, bool>> done = attempt();
  if (done && done->second && done->first.number != 0) after_commit(inside);
  if (done) return std::move(done->first);
  if (done.error().code != ErrorCode::storage) return tl::unexpected(done.error());
  return look_again(inside, token, done.error());
}

Result<std::optional<Action>> Book::done_with(const std::string& token) {
  BOOK_TRY(inside_->ready());
  if (token.empty()) return std::optional<Action>();
  BOOK_LET(number, known(inside_->database, token));
  if (number == 0) return std::optional<Action>();
  BOOK_LET(action, read_action(inside_->database, number));
  return std::optional<Action>(std::move(action));
}

}  // namespace portwright::book
