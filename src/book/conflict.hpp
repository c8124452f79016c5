#pragma once
// Whether somebody else changed what a writer is about to change, since he saw it.

#include <optional>
#include <string>

#include "book/database.hpp"
#include "book/document.hpp"
#include "book/draft.hpp"

namespace portwright::book {

/// Error conflict, readings = { mine, theirs }, when an entry after the change's base, not of the same client, touches
/// the path, one above or one below, and what is there now is neither what the writer saw nor what he wants. Error
/// usage when the base is beyond the newest entry of the book.
[[nodiscard]] base::Result<void> check_conflict(Database& database, const Held& held, const Change& change,
                                                const std::optional<std::string>& value, const std::string& client);

/// An entry with who made it.
struct Told {
  Entry entry;
  std::int64_t action = 0, root = 0;
  std::string author, at, client;
  bool live = false;  ///< its action is an original that is not undone
  bool off_stack = false;
};

/// Entries of a document after `sequence` on this path, above or below it, in order.
[[nodiscard]] base::Result<std::vector<Told>> entries_touching(Database& database, const std::string& document,
                                                               std::string_view path, std::int64_t sequence);

/// The error conflict with both values.
[[nodiscard]] base::Error conflict_error(const Told& other, const std::string& path,
                                         const std::optional<std::string>& mine,
                                         const std::optional<std::string>& theirs);

}  // namespace portwright::book
