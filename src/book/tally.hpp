#pragma once
// What was last seen of a book, kept outside it: beside it, and in the state folder of the user under the book's own
// id.

#include <cstdint>
#include <optional>
#include <string>

#include "book/database.hpp"
#include "book/inside.hpp"

namespace portwright::book {

/// One sighting.
struct Tally {
  std::string book;  ///< the book's own id
  std::int64_t sequence = 0;
  std::string chain;  ///< of the entry with that sequence
  std::int64_t documents = 0, entries = 0, blobs = 0;
};

/// None when there is no file or it cannot be read.
[[nodiscard]] std::optional<Tally> read_tally(const std::string& path);

/// Written to a temporary and renamed; not flushed: after a power cut it may be older than the book, never newer.
[[nodiscard]] base::Result<void> write_tally(const std::string& path, const Tally& tally);

/// Path of the second tally; empty when there is no home to keep it in.
[[nodiscard]] std::string state_tally(const Place& place, const std::string& book);

/// The book as it stands now.
[[nodiscard]] base::Result<Tally> sighting(Database& database, const std::string& book);

/// None when the book has everything that `seen` saw.
[[nodiscard]] base::Result<std::optional<Alarm>> compare(Database& database, const std::string& book,
                                                         const Tally& seen);

/// Writes both tallies, where they are older than `now` or `always`. What fails is added to the notices.
void keep_tallies(Book::Inside& inside, const Tally& now, bool always);

}  // namespace portwright::book
