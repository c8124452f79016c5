#include "book/upgrade.hpp"

#include "book/attempt.hpp"

namespace portwright::book {

using base::ErrorCode;
using base::Result;

Result<bool> upgrade(Book::Inside& inside, std::span<const char* const> steps) {
  Database& database = inside.database;
  const auto newest = static_cast<std::int64_t>(steps.size());
  BOOK_LET(found, database.number("PRAGMA user_version"));
  if (found > newest)
    return base::fail(
        ErrorCode::newer,
        "The book is of schema " + std::to_string(found) + "; this program knows up to " + std::to_string(newest) + ".",
        {}, "Use the newer program that wrote it.");
  if (found == newest) return false;
  if (inside.place.read_only)
    return base::fail(ErrorCode::storage,
                      "The book must be brought up to date first, and was opened for reading only.");
  BOOK_TRY(make_backup(inside, {}));
  for (std::int64_t schema = found; schema < newest; ++schema) {
    BOOK_LET(transaction, Transaction::writing(database));
    BOOK_LET(now, database.number("PRAGMA user_version"));
    if (now != schema) return base::fail(ErrorCode::busy, "Another program brings the book up to date.");
    BOOK_TRY(database.run(steps[static_cast<std::size_t>(schema)]));
    BOOK_TRY(database.run(("PRAGMA user_version = " + std::to_string(schema + 1)).c_str()));
    BOOK_TRY(transaction.commit());
  }
  return true;
}

}  // namespace portwright::book
