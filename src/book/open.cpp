#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <utility>

#include "book/attempt.hpp"
#include "book/backups.hpp"
#include "book/check.hpp"
#include "book/folder.hpp"
#include "book/inside.hpp"
#include "book/migrations.hpp"
#include "book/page_sums.hpp"
#include "book/tally.hpp"
#include "book/tree.hpp"
#include "book/upgrade.hpp"

namespace portwright::book {

using base::ErrorCode;
using base::Result;
namespace fs = std::filesystem;

namespace {

constexpr int patience = 5000;  // [ms]

Result<void> write_fact(Database& database, const char* key, const std::string& value) {
  return database.prepare("INSERT INTO fact VALUES (?, ?)").bind(key).bind(value).run();
}

/// A new book under another name, whole before it gets its own.
Result<void> make_book(const Place& place, const Files& files) {
  for (const char* more : {"", "-wal", "-shm", "-journal"}) ::unlink((files.making + more).c_str());
  BOOK_TRY(make_file(files.making));
  BOOK_LET(database, connect(place, files.making, false, true));
  BOOK_TRY(database.run(("PRAGMA application_id = " + std::to_string(application_id)).c_str()));
  {
    BOOK_TRY(database.run("BEGIN IMMEDIATE"));
    for (const char* sql : migrations()) BOOK_TRY(database.run(sql));
    Tree facets;
    facets.kind = Tree::Kind::list;
    facets.list = place.facets;
    BOOK_TRY(write_fact(database, "facets", print(facets)));
    BOOK_TRY(write_fact(database, "book", new_token()));
    BOOK_TRY(database.run(("PRAGMA user_version = " + std::to_string(newest_schema())).c_str()));
    BOOK_TRY(database.run("COMMIT"));
  }
  BOOK_TRY(database.close());
  if (::rename(files.making.c_str(), files.book.c_str()) != 0) return cannot("Cannot write " + files.book, errno);
  return flush_folder(files.folder);
}

}  // namespace

Files::Files(const std::string& path)
    : book(path), lock(path + ".lock"), tally(path + ".tally"), making(path + ".making"), fresh(path + ".new") {
  folder = fs::path(path).parent_path().string();
  if (folder.empty()) folder = ".";
  backups = folder + "/backups";
}

std::int64_t Book::Inside::now() const { return place.clock ? place.clock() : std::int64_t{std::time(nullptr)}; }

Result<void> Book::Inside::ready() {
  if (database.is_open()) return {};
  BOOK_LET(again, connect(place, place.path, place.read_only));
  BOOK_TRY(check_schema(again));
  database = std::move(again);
  return {};
}

Result<Standing> read_standing(Database& database) {
  Statement row = database.prepare("SELECT sequence, chain, next, documents, entries, blobs FROM standing");
  BOOK_LET(there, row.step());
  if (!there) return base::fail(ErrorCode::damaged, "The book does not know where its journal stands.");
  return Standing{row.number(0), row.text(1), row.number(2), row.number(3), row.number(4), row.number(5)};
}

Result<void> write_standing(Database& database, const Standing& standing) {
  Statement row = database.prepare("UPDATE standing SET sequence = ?, chain = ?, next = ?, documents = ?, entries = ?");
  row.bind(standing.sequence).bind(standing.chain).bind(standing.next).bind(standing.documents);
  return row.bind(standing.entries).run();
}

Result<Database> connect(const Place& place, const std::string& path, bool read_only, bool fresh) {
  const std::string vfs = page_sum_vfs(place.vfs);
  if (vfs.empty()) return base::fail(ErrorCode::fault, "No file system layer \u201C" + place.vfs + "\u201D.");
  BOOK_LET(database, Database::open({path, vfs, false, read_only}));
  if (fresh) BOOK_TRY(reserve_page_sums(database.handle()));
  BOOK_TRY(database.run("PRAGMA foreign_keys = ON; PRAGMA mmap_size = 0; PRAGMA cache_size = -16000"));
  BOOK_TRY(database.run(place.synced ? "PRAGMA synchronous = FULL" : "PRAGMA synchronous = OFF"));
  if (read_only || fresh) return std::move(database);
  BOOK_LET(mode, database.text("PRAGMA journal_mode = WAL"));
  if (mode != "wal") return base::fail(ErrorCode::busy, "Another program has the book open.");
  return std::move(database);
}

namespace {

/// Why a book that should be there must not be made anew; none when nothing tells of an earlier one.
std::optional<base::Error> traces(const Place& place, const Files& files) {
  const bool interrupted = is_there(files.fresh) || is_there(files.book + ".aside-1");
  const std::vector<Backup> backups = backups_in(files.backups, place.path);
  if (!interrupted && backups.empty() && !is_there(files.tally) && !is_there(files.book + "-wal")) return std::nullopt;
  base::Error error{
      ErrorCode::damaged, "The book " + place.path + " is gone, or empty, though it was there before.", {}, {}, {}};
  if (interrupted) error.message = "The book " + place.path + " is gone: a restore was interrupted.";
  return error;
}

base::Error none_at(const Place& place) {
  return {ErrorCode::not_found, "There is no book at " + place.path + ".", {}, {}, {}};
}

/// Adds the way back to an error that means that the book cannot be read.
base::Error with_way_back(base::Error error, const Place& place) {
  if (error.code != ErrorCode::damaged) return error;
  const std::optional<Backup> good = newest_good(place);
  error.hint = good ? "The newest good backup is " + good->path + " of " + good->at + "; restore puts it in its place."
                    : "No good backup lies beside it; restore takes one from elsewhere.";
  if (good) error.readings = {good->path};
  return error;
}

/// Takes the lock, alone when nobody else has the book open, and makes the book when there is none.
/// Whether the lock is held alone.
Result<bool> take_place(Book::Inside& inside, const Files& files) {
  const Place& place = inside.place;
  const bool missing = size_of(files.book) <= 0;
  if (place.read_only) {
    if (missing) return tl::unexpected(traces(place, files).value_or(none_at(place)));
    BOOK_LET(shared, Lock::take(files.lock, Lock::Kind::shared, patience, true));
    inside.lock = std::move(shared);
    return false;
  }
  Result<Lock> alone = Lock::take(files.lock, Lock::Kind::alone, missing ? patience : 0);
  if (!alone && (missing || alone.error().code != ErrorCode::busy)) return tl::unexpected(alone.error());
  if (!alone) {
    BOOK_LET(shared, Lock::take(files.lock, Lock::Kind::shared, patience));
    inside.lock = std::move(shared);
    return false;
  }
  inside.lock = std::move(*alone);
  if (size_of(files.book) > 0) return true;
  if (auto gone = traces(place, files)) return tl::unexpected(std::move(*gone));
  BOOK_TRY(make_book(place, files));
  inside.opening = Opening::created;
  return true;
}

/// The file against its own header: a book of ours, of its full length.
Result<void> check_header(Book::Inside& inside, bool alone) {
  Database& database = inside.database;
  BOOK_LET(application, database.number("PRAGMA application_id"));
  if (application != application_id) return base::fail(ErrorCode::out_of_range, inside.place.path + " is not a book.");
  if (!alone || size_of(inside.place.path + "-wal") > 0) return {};
  BOOK_LET(pages, database.number("PRAGMA page_count"));
  BOOK_LET(page, database.number("PRAGMA page_size"));
  if (pages * page == size_of(inside.place.path)) return {};
  return base::fail(ErrorCode::damaged, "The book is damaged: its file is not as long as it was.");
}

/// Compares with what was seen before; tallies are read before the book.
Result<void> look_for_loss(Book::Inside& inside, const std::optional<Tally>& beside) {
  BOOK_LET(id, inside.database.text("SELECT value FROM fact WHERE key = 'book'"));
  inside.id = std::move(id);
  const std::optional<Tally> elsewhere = read_tally(state_tally(inside.place, inside.id));
  BOOK_LET(view, Transaction::reading(inside.database));
  for (const auto* seen : {&beside, &elsewhere}) {
    if (!seen->has_value() || inside.alarm) continue;
    BOOK_LET(alarm, compare(inside.database, inside.id, **seen));
    inside.alarm = std::move(alarm);
  }
  return view.commit();
}

/// Whether the last program that had the book did not close it.
bool left_open(const Files& files) { return size_of(files.book + "-wal") > 0; }

/// What the header says when SQLite will not read the file: a plain SQLite file of another program is not a damaged
/// book.
base::Error explain(base::Error error, const Place& place, const Files& files, Database& database) {
  if (error.code != ErrorCode::damaged || !database.is_open()) return error;
  const std::string header = raw_header(database.handle());
  const bool sqlite = header.starts_with("SQLite format 3");
  const bool ours = header.size() >= 72 && header.substr(68, 4) == "PWRB";
  const bool kept_before = is_there(files.tally) || !backups_in(files.backups, place.path).empty();
  if (ours || kept_before || (sqlite && header.size() >= 21 && header[20] == page_reserve)) return error;
  return {ErrorCode::out_of_range, place.path + " is not a book.", {}, {}, {}};
}

Result<void> open_inside(Book::Inside& inside, const Files& files) {
  BOOK_LET(alone, take_place(inside, files));
  const bool unclean = alone && left_open(files);
  const std::optional<Tally> beside = read_tally(files.tally);
  Result<Database> database = connect(inside.place, files.book, inside.place.read_only);
  if (!database) {
    BOOK_LET(bare, Database::open({files.book, page_sum_vfs(inside.place.vfs), false, true}));
    return tl::unexpected(explain(database.error(), inside.place, files, bare));
  }
  inside.database = std::move(*database);
  const auto checked = [&]() -> Result<void> {
    BOOK_TRY(check_header(inside, alone));
    BOOK_LET(schema, inside.database.number("PRAGMA user_version"));
    if (schema < newest_schema() && !alone)
      return base::fail(ErrorCode::busy, "Another program has the book open, which must be brought up to date.");
    BOOK_LET(upgraded, upgrade(inside, migrations()));
    if (upgraded) inside.opening = Opening::upgraded;
    if (unclean) BOOK_TRY(quick_check(inside.database));
    BOOK_TRY(check_ends(inside.database));
    return look_for_loss(inside, beside);
  };
  const Result<void> sound = checked();
  if (!sound) return tl::unexpected(explain(sound.error(), inside.place, files, inside.database));
  return alone ? inside.lock.share() : Result<void>{};
}

}  // namespace

Result<Book> Book::open(Place place) {
  if (place.path.empty()) return base::fail(ErrorCode::usage, "A book needs a path.");
  if (page_sum_vfs(place.vfs).empty())
    return base::fail(ErrorCode::fault, "No file system layer \u201C" + place.vfs + "\u201D.");
  const Files files(place.path);
  if (is_folder(files.book)) return base::fail(ErrorCode::out_of_range, place.path + " is a folder, not a book.");
  BOOK_TRY(refuse_network(files.folder));
  if (!place.read_only) BOOK_TRY(make_folder(files.folder));
  auto inside = std::make_unique<Inside>();
  inside->place = std::move(place);
  const Result<void> opened = open_inside(*inside, files);
  if (!opened) {
    inside->database = Database();
    return tl::unexpected(with_way_back(opened.error(), inside->place));
  }
  return Book(std::move(inside));
}

Book::Book(std::unique_ptr<Inside> inside) : inside_(std::move(inside)) {}
Book::Book(Book&&) noexcept = default;
Book& Book::operator=(Book&&) noexcept = default;
Book::~Book() = default;

Opening Book::opening() const { return inside_->opening; }

std::optional<Alarm> Book::alarm() const { return inside_->alarm; }

std::vector<std::string> Book::take_notices() { return std::exchange(inside_->notices, {}); }

Result<void> Book::acknowledge() {
  BOOK_TRY(inside_->ready());
  BOOK_LET(now, sighting(inside_->database, inside_->id));
  inside_->alarm.reset();
  keep_tallies(*inside_, now, true);
  return {};
}

Result<Verified> Book::verify() {
  BOOK_TRY(inside_->ready());
  return check_all(inside_->database, !inside_->place.read_only);
}

Result<Where> Book::where() {
  BOOK_TRY(inside_->ready());
  BOOK_LET(standing, read_standing(inside_->database));
  Where out;
  out.path = inside_->place.path;
  for (const char* part : {"", "-wal"}) out.bytes += std::max<std::int64_t>(size_of(out.path + part), 0);
  out.documents = standing.documents;
  out.entries = standing.entries;
  out.blobs = standing.blobs;
  out.sequence = standing.sequence;
  const std::vector<Backup> all = backups();
  if (!all.empty()) out.last_backup = all.front();
  out.alarm = inside_->alarm;
  return out;
}

}  // namespace portwright::book
