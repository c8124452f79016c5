#pragma once
// A layer between SQLite and the file system that sums every page of a book's main file: the last eight bytes of a page
// hold a sum over its number and the rest of it. A page that was not written by us, is not whole, or lies in another
// place, is refused when it is read. The write-ahead log has SQLite's own sums.

#include <cstdint>
#include <string>
#include <string_view>

#include "base/error.hpp"

struct sqlite3;

namespace portwright::book {

/// Bytes at the end of each page that SQLite leaves to the sum.
inline constexpr int page_reserve = 8;

/// Sum over a page without its last eight bytes. Any change within one eight-byte word changes it.
/// `number` counts from 1.
[[nodiscard]] std::uint64_t page_sum(std::uint64_t number, std::string_view content);

/// Name of the VFS that sums pages over `below` (empty: the system's), registered when asked for first; empty when
/// `below` is not known. One thread at a time.
[[nodiscard]] std::string page_sum_vfs(const std::string& below);

/// Tells SQLite, before the first page of a new file is written, to leave the bytes free.
[[nodiscard]] base::Result<void> reserve_page_sums(sqlite3* database);

/// How many calls on the main file failed below the sums since it was opened.
[[nodiscard]] std::int64_t disk_errors(sqlite3* database);

/// The first bytes of the main file as they stand there, past every check; fewer when the file is shorter.
[[nodiscard]] std::string raw_header(sqlite3* database);

}  // namespace portwright::book
