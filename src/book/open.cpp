#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <ctime>
#include <filesystem>
#include <system_error>
#include <utility>

#include "book/attempt.hpp"
#include "book/inside.hpp"
#include "book/migrations.hpp"
#include "book/page_sums.hpp"
#include "book/tree.hpp"

namespace portwright::book {

using base::ErrorCode;
using base::Result;
namespace fs = std::filesystem;

namespace {

constexpr int patience = 5000;  // [ms]

tl::unexpected<base::Error> cannot(const std::string& what, int number) {
  return base::fail(ErrorCode::storage, what + ": " + std::generic_category().message(number) + ".", {},
                    "The folder must be there and be writable.");
}

bool is_there(const std::string& path) {
  struct stat info {};
  return ::lstat(path.c_str(), &info) == 0;
}

/// Makes the folder of the book, for its owner only, when it is not there.
Result<void> make_folder(const std::string& folder) {
  std::error_code trouble;
  if (fs::is_directory(folder, trouble)) return {};
  const fs::path above = fs::path(folder).parent_path();
  if (!above.empty()) fs::create_directories(above, trouble);
  if (::mkdir(folder.c_str(), 0700) != 0 && errno != EEXIST) return cannot("Cannot make " + folder, errno);
  return {};
}

Result<void> flush_folder(const std::string& folder) {
  const int file = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (file < 0) return cannot("Cannot open " + folder, errno);
  const bool flushed = ::fsync(file) == 0 || errno == EINVAL || errno == EROFS;
  const int number = errno;
  ::close(file);
  if (!flushed) return cannot("Cannot write " + folder, number);
  return {};
}

Result<void> write_fact(Database& database, const char* key, const std::string& value) {
  return database.prepare("INSERT INTO fact VALUES (?, ?)").bind(key).bind(value).run();
}

/// A new book under another name, whole before it gets its own.
Result<void> make_book(const Place& place, const Files& files) {
  for (const char* more : {"", "-wal", "-shm", "-journal"}) ::unlink((files.making + more).c_str());
  const int file = ::open(files.making.c_str(), O_CREAT | O_EXCL | O_RDWR | O_CLOEXEC, 0600);
  if (file < 0) return cannot("Cannot write " + files.making, errno);
  ::close(file);
  BOOK_LET(database, connect(place, files.making, false, true));
  BOOK_TRY(database.run(("PRAGMA application_id = " + std::to_string(application_id)).c_str()));
  {
    BOOK_TRY(database.run("BEGIN IMMEDIATE"));
    for (const char* sql : migrations()) BOOK_TRY(database.run(sql));
    Tree facets;
    facets.kind = Tree::Kind::list;
    facets.list = place.facets;
    BOOK_TRY(write_fact(database, "facets", print(facets)));
    BOOK_TRY(write_fact(database, "book", new_id() + new_id()));
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
  if (!read_only) BOOK_TRY(database.run("PRAGMA journal_mode = WAL"));
  return std::move(database);
}

Result<Book> Book::open(Place place) {
  if (place.path.empty()) return base::fail(ErrorCode::usage, "A book needs a path.");
  const Files files(place.path);
  auto inside = std::make_unique<Inside>();
  if (!place.read_only) BOOK_TRY(make_folder(files.folder));
  if (!is_there(files.book)) {
    if (place.read_only) return base::fail(ErrorCode::not_found, "There is no book at " + place.path + ".");
    BOOK_LET(alone, Lock::take(files.lock, Lock::Kind::alone, patience));
    if (!is_there(files.book)) {
      BOOK_TRY(make_book(place, files));
      inside->opening = Opening::created;
    }
    BOOK_TRY(alone.share());
    inside->lock = std::move(alone);
  } else {
    BOOK_LET(shared, Lock::take(files.lock, Lock::Kind::shared, patience, place.read_only));
    inside->lock = std::move(shared);
  }
  BOOK_LET(database, connect(place, place.path, place.read_only));
  BOOK_LET(application, database.number("PRAGMA application_id"));
  if (application != application_id) return base::fail(ErrorCode::out_of_range, place.path + " is not a book.");
  BOOK_TRY(check_schema(database));
  inside->database = std::move(database);
  inside->place = std::move(place);
  return Book(std::move(inside));
}

Book::Book(std::unique_ptr<Inside> inside) : inside_(std::move(inside)) {}
Book::Book(Book&&) noexcept = default;
Book& Book::operator=(Book&&) noexcept = default;
Book::~Book() = default;

Opening Book::opening() const { return inside_->opening; }

}  // namespace portwright::book
