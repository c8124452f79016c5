#include "book/backups.hpp"

#include <fcntl.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <sys/statvfs.h>
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <filesystem>
#include <set>
#include <utility>

#include "book/attempt.hpp"
#include "book/check.hpp"
#include "book/folder.hpp"
#include "book/identity.hpp"
#include "book/migrations.hpp"
#include "book/page_sums.hpp"

namespace portwright::book {

using base::ErrorCode;
using base::Result;
namespace fs = std::filesystem;

namespace {

constexpr std::string_view ending = ".backup";
constexpr std::int64_t hour = 3600;

std::string name_of(const std::string& path) { return fs::path(path).filename().string(); }

/// `20260301T093000Z` of `2026-03-01T09:30:00Z`, so that every file system takes it as a name.
std::string compact(std::string moment) {
  std::erase_if(moment, [](char c) { return c == '-' || c == ':'; });
  return moment;
}

std::string spread(const std::string& m) {
  return m.substr(0, 4) + '-' + m.substr(4, 2) + '-' + m.substr(6, 5) + ':' + m.substr(11, 2) + ':' + m.substr(13);
}

bool is_compact_moment(std::string_view m) {
  if (m.size() != 16 || m[8] != 'T' || m[15] != 'Z') return false;
  for (std::size_t i = 0; i < 15; ++i)
    if (i != 8 && (m[i] < '0' || m[i] > '9')) return false;
  return true;
}

/// What the name of a copy tells; none when it is not one of this book.
std::optional<Backup> read_name(const fs::path& path, const std::string& book) {
  const std::string name = path.filename().string();
  const std::string start = name_of(book) + '.';
  if (!name.starts_with(start) || !name.ends_with(ending)) return std::nullopt;
  const std::string middle = name.substr(start.size(), name.size() - start.size() - ending.size());
  const std::size_t dot = middle.find('.');
  if (dot == std::string::npos || !is_compact_moment(std::string_view(middle).substr(dot + 1))) return std::nullopt;
  Backup out;
  const auto [end, trouble] = std::from_chars(middle.data(), middle.data() + dot, out.sequence);
  if (trouble != std::errc{} || end != middle.data() + dot) return std::nullopt;
  out.path = path.string();
  out.at = spread(middle.substr(dot + 1));
  std::error_code ignored;
  out.bytes = static_cast<std::int64_t>(fs::file_size(path, ignored));
  return out;
}

/// SQLite's backup call, all pages in one step.
Result<void> copy_pages(Database& from, Database& to) {
  sqlite3_backup* copy = sqlite3_backup_init(to.handle(), "main", from.handle(), "main");
  if (copy == nullptr) return tl::unexpected(sqlite_error(to.handle(), sqlite3_errcode(to.handle())));
  const int stepped = sqlite3_backup_step(copy, -1);
  const int finished = sqlite3_backup_finish(copy);
  if (stepped != SQLITE_DONE && stepped != SQLITE_OK) return tl::unexpected(sqlite_error(nullptr, stepped));
  if (finished != SQLITE_OK) return tl::unexpected(sqlite_error(nullptr, finished));
  return {};
}

Result<void> check_space(Database& from, const std::string& folder) {
  BOOK_LET(pages, from.number("PRAGMA page_count"));
  BOOK_LET(page, from.number("PRAGMA page_size"));
  struct statvfs space {};
  if (::statvfs(folder.c_str(), &space) != 0) return {};
  const auto free = static_cast<std::int64_t>(space.f_bavail) * static_cast<std::int64_t>(space.f_frsize);
  if (free > pages * page + pages * page / 10) return {};
  return base::fail(ErrorCode::storage, "There is no room for a backup in " + folder + ": " +
                                            std::to_string(pages * page / 1000000 + 1) + " MB are needed.");
}

Result<void> write_copy(const Place& place, const std::string& folder, const std::string& path) {
  BOOK_LET(from, connect(place, place.path, place.read_only));
  BOOK_TRY(check_space(from, folder));
  BOOK_LET(to, Database::open({path, page_sum_vfs(place.vfs), true, false}));
  BOOK_TRY(copy_pages(from, to));
  BOOK_TRY(to.run("PRAGMA journal_mode = DELETE"));
  return to.close();
}

Result<void> drop_old(const Place& place, const std::string& folder, const std::string& now) {
  for (const Backup& old : to_prune(backups_in(folder, place.path), now))
    if (::unlink(old.path.c_str()) != 0) return cannot("Cannot remove " + old.path, errno);
  return {};
}

Result<std::int64_t> count(Database& database, std::string_view sql, std::int64_t expected, const std::string& what) {
  BOOK_LET(number, database.number(sql));
  if (number == expected) return number;
  return base::fail(ErrorCode::damaged, what + " has " + std::to_string(number) + " rows where " +
                                            std::to_string(expected) + " were counted.");
}

}  // namespace

std::vector<Backup> backups_in(const std::string& folder, const std::string& book) {
  std::vector<Backup> out;
  std::error_code trouble;
  for (const auto& entry : fs::directory_iterator(folder, trouble))
    if (auto backup = read_name(entry.path(), book)) out.push_back(std::move(*backup));
  std::sort(out.begin(), out.end(),
            [](const Backup& a, const Backup& b) { return std::tie(a.sequence, a.at) > std::tie(b.sequence, b.at); });
  return out;
}

std::vector<Backup> to_prune(const std::vector<Backup>& newest_first, const std::string& now) {
  std::vector<Backup> out;
  std::set<std::string> days, months;
  for (std::size_t i = 0; i < newest_first.size(); ++i) {
    const Backup& one = newest_first[i];
    const std::string day = one.at.substr(0, 10);
    const bool last_of_month = months.insert(day.substr(0, 7)).second;
    const bool known_day = days.contains(day);
    // Thirty different days that have a backup, whatever lies between them.
    const bool last_of_day = !known_day && days.size() < 30;
    if (last_of_day) days.insert(day);
    if (i >= 10 && !last_of_day && !last_of_month && one.at <= now) out.push_back(one);
  }
  return out;
}

Result<Backup> check_backup(const Place& place, const std::string& path) {
  BOOK_LET(database, Database::open({path, page_sum_vfs(place.vfs), false, true}));
  BOOK_LET(application, database.number("PRAGMA application_id"));
  if (application != application_id) return base::fail(ErrorCode::out_of_range, path + " is not a book.");
  BOOK_LET(schema, database.number("PRAGMA user_version"));
  if (schema > newest_schema()) return base::fail(ErrorCode::newer, path + " is of a newer program.");
  BOOK_TRY(quick_check(database));
  BOOK_LET(standing, read_standing(database));
  Backup out;
  out.path = path;
  out.sequence = standing.sequence;
  BOOK_LET(documents, count(database, "SELECT count(*) FROM document", standing.documents, path));
  BOOK_LET(entries, count(database, "SELECT count(*) FROM journal", standing.entries, path));
  BOOK_LET(blobs, count(database, "SELECT count(*) FROM blob", standing.blobs, path));
  out.documents = documents;
  out.entries = entries;
  out.blobs = blobs;
  std::error_code ignored;
  out.bytes = static_cast<std::int64_t>(fs::file_size(path, ignored));
  return out;
}

Result<Backup> make_backup(Book::Inside& inside, const std::string& wanted) {
  const Place& place = inside.place;
  const Files files(place.path);
  const std::string folder = wanted.empty() ? files.backups : wanted;
  BOOK_TRY(make_folder(folder));
  BOOK_LET(lock, Lock::take(folder + "/." + name_of(place.path) + ".lock", Lock::Kind::alone, 0));
  const std::string making = folder + "/." + name_of(place.path) + ".making";
  for (const char* more : {"", "-journal", "-wal", "-shm"}) ::unlink((making + more).c_str());
  BOOK_TRY(make_file(making));
  const auto made = [&]() -> Result<Backup> {
    BOOK_TRY(write_copy(place, folder, making));
    return check_backup(place, making);
  };
  Result<Backup> backup = made();
  if (!backup) {
    ::unlink(making.c_str());
    return backup;
  }
  backup->at = moment_text(inside.now());
  std::string digits = std::to_string(backup->sequence);
  digits.insert(0, digits.size() < 12 ? 12 - digits.size() : 0, '0');
  backup->path = folder + '/' + name_of(place.path) + '.' + digits + '.' + compact(backup->at) + std::string(ending);
  if (::rename(making.c_str(), backup->path.c_str()) != 0) return cannot("Cannot write " + backup->path, errno);
  BOOK_TRY(flush_folder(folder));
  if (wanted.empty() && !inside.alarm)
    if (const Result<void> dropped = drop_old(place, folder, backup->at); !dropped)
      inside.notices.push_back(dropped.error().message);
  return backup;
}

Result<Backup> Book::back_up(const std::string& folder) { return make_backup(*inside_, folder); }

std::vector<Backup> Book::backups() const {
  return backups_in(Files(inside_->place.path).backups, inside_->place.path);
}

void back_up_hourly(Book::Inside& inside) {
  if (!inside.place.backs_up || inside.now() < inside.next_backup) return;
  inside.next_backup = inside.now() + hour;
  const std::vector<Backup> all = backups_in(Files(inside.place.path).backups, inside.place.path);
  if (!all.empty() && all.front().at > moment_text(inside.now() - hour)) return;
  if (const Result<Backup> made = make_backup(inside, {}); !made && made.error().code != ErrorCode::busy)
    inside.notices.push_back("The hourly backup was not made. " + made.error().message);
}

std::optional<Backup> newest_good(const Place& place) {
  for (const Backup& one : backups_in(Files(place.path).backups, place.path))
    if (check_backup(place, one.path)) return one;
  return std::nullopt;
}

}  // namespace portwright::book
