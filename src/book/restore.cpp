#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <utility>

#include "book/attempt.hpp"
#include "book/backups.hpp"
#include "book/check.hpp"
#include "book/folder.hpp"
#include "book/migrations.hpp"
#include "book/page_sums.hpp"
#include "book/tally.hpp"

namespace portwright::book {

using base::ErrorCode;
using base::Result;

namespace {

constexpr const char* parts[] = {"-wal", "-shm", "-journal", ""};

void remove_copy(const std::string& path) {
  for (const char* part : parts) ::unlink((path + part).c_str());
}

/// Sees that entries to come have sequences beyond all that were seen of this book.
Result<Tally> number_on(const Place& place, const Files& files, Database& database) {
  BOOK_LET(id, database.text("SELECT value FROM fact WHERE key = 'book'"));
  std::int64_t next = 0;
  for (const std::string& path : {files.tally, state_tally(place, id)})
    if (const auto seen = read_tally(path)) next = std::max(next, seen->sequence + 1);
  BOOK_TRY(database.prepare("UPDATE standing SET next = max(next, ?)").bind(next).run());
  return sighting(database, id);
}

/// The copy, checked whole and made ready; what it holds.
Result<std::pair<Verified, Tally>> prepare_copy(const Place& place, const Files& files, const std::string& backup) {
  BOOK_TRY(copy_file(backup, files.fresh));
  BOOK_TRY(check_backup(place, files.fresh));
  BOOK_LET(database, Database::open({files.fresh, page_sum_vfs(place.vfs), false, false}));
  BOOK_LET(schema, database.number("PRAGMA user_version"));
  Verified verified;
  if (schema == newest_schema()) {
    BOOK_LET(all, check_all(database, false));
    verified = std::move(all);
    if (!verified.faults.empty())
      return base::fail(ErrorCode::damaged, backup + " is damaged: " + verified.faults.front() + ".");
  }
  BOOK_LET(tally, number_on(place, files, database));
  BOOK_TRY(database.close());
  return std::pair{std::move(verified), std::move(tally)};
}

/// Moves the book and what belongs to it aside; where it went, empty when there was none.
Result<std::string> move_aside(const Files& files) {
  if (!is_there(files.book) && !is_there(files.book + "-wal")) return std::string{};
  int number = 1;
  const auto name = [&] { return files.book + ".aside-" + std::to_string(number); };
  while (is_there(name()) || is_there(name() + "-wal")) ++number;
  // None of the old parts is left under the name of the book when the copy gets it.
  for (const char* part : {"", "-wal", "-shm", "-journal"}) {
    if (!is_there(files.book + part)) continue;
    if (std::rename((files.book + part).c_str(), (name() + part).c_str()) != 0)
      return cannot("Cannot move " + files.book + part, errno);
  }
  return name();
}

}  // namespace

Result<Restored> restore(const Place& place, const std::string& backup) {
  if (page_sum_vfs(place.vfs).empty()) return base::fail(ErrorCode::fault, "No file system layer " + place.vfs + ".");
  const Files files(place.path);
  if (!is_there(backup)) return base::fail(ErrorCode::not_found, "There is no " + backup + ".");
  BOOK_TRY(make_folder(files.folder));
  BOOK_TRY(refuse_network(files.folder));
  BOOK_LET(alone, Lock::take(files.lock, Lock::Kind::alone, 1000));
  remove_copy(files.fresh);
  Result<std::pair<Verified, Tally>> copy = prepare_copy(place, files, backup);
  if (!copy) {
    remove_copy(files.fresh);
    return tl::unexpected(copy.error());
  }
  Restored out;
  BOOK_LET(aside, move_aside(files));
  out.aside = std::move(aside);
  if (std::rename(files.fresh.c_str(), files.book.c_str()) != 0) return cannot("Cannot write " + files.book, errno);
  BOOK_TRY(flush_folder(files.folder));
  Book::Inside inside;
  inside.place = place;
  keep_tallies(inside, copy->second, true);
  out.verified = std::move(copy->first);
  out.sequence = copy->second.sequence;
  return out;
}

}  // namespace portwright::book
