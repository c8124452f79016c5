#pragma once
// Copies of a book in a folder, and which of them stay.

#include <string>
#include <vector>

#include "book/inside.hpp"

namespace portwright::book {

/// Copies made of this book in a folder, newest first, by their names: `<book>.<sequence>.<moment>.backup`.
[[nodiscard]] std::vector<Backup> backups_in(const std::string& folder, const std::string& book);

/// Which of these (newest first) may go: all but the ten latest, the last of each of 30 days, the last of each month.
[[nodiscard]] std::vector<Backup> to_prune(const std::vector<Backup>& newest_first, const std::string& now);

/// Opens a copy and counts it. Errors: damaged (checks or counts fail), newer.
[[nodiscard]] base::Result<Backup> check_backup(const Place& place, const std::string& path);

/// A backup when the newest is more than an hour old. Trouble becomes a notice.
void back_up_hourly(Book::Inside& inside);

/// The newest backup beside the book that opens and counts.
[[nodiscard]] std::optional<Backup> newest_good(const Place& place);

}  // namespace portwright::book
