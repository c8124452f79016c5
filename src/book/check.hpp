#pragma once
// Whether a book is what it was: quick looks when it is opened, the whole of it for verify.

#include "book/inside.hpp"

namespace portwright::book {

/// Schema text of this program's newest schema, as SQLite keeps it.
[[nodiscard]] base::Result<std::string> schema_text(Database& database);
/// The same of a fresh book brought to `schema`, in memory.
[[nodiscard]] base::Result<std::string> expected_schema(int schema);

/// Error damaged unless tables, standing and the chain of the last rows are as they must be.
[[nodiscard]] base::Result<void> check_ends(Database& database);

/// SQLite's quick check of all pages. Errors: damaged; storage when it was the disk that did not answer.
[[nodiscard]] base::Result<void> quick_check(Database& database);

/// Everything; faults are told one by one. `mend`: a bad index of words is made anew.
[[nodiscard]] base::Result<Verified> check_all(Database& database, bool mend);

/// Makes the index of words anew from the documents.
[[nodiscard]] base::Result<void> rebuild_search(Database& database);

}  // namespace portwright::book
