#pragma once
// What an open book holds, for the .cpp files of this module.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "book/book.hpp"
#include "book/database.hpp"
#include "book/lock.hpp"

namespace portwright::book {

/// Where the journal stands.
struct Standing {
  std::int64_t sequence = 0;  ///< of the newest entry
  std::string chain;          ///< of the newest entry
  std::int64_t next = 1;      ///< sequence of the next entry; more than sequence + 1 after a restore
  std::int64_t documents = 0, entries = 0, blobs = 0;
};

struct Book::Inside {
  Place place;
  Lock lock;
  Database database;
  Opening opening = Opening::current;
  std::string id;  ///< the book's own
  std::optional<Alarm> alarm;
  std::vector<std::string> notices;
  std::int64_t next_backup = 0;  ///< no sooner is one thought of [s]
  std::int64_t now() const;
  /// Opens the connection again when trouble with the disk closed it.
  base::Result<void> ready();
};

/// Keeps bytes under their hash; those that are there already stay.
[[nodiscard]] base::Result<void> keep_blob(Database& database, const NewBlob& blob);
[[nodiscard]] base::Result<void> keep_blobs(Database& database, const BlobSource& blobs);

/// Notes a new original action on its author's stack.
[[nodiscard]] base::Result<void> note_root(Database& database, const Action& action);

/// What follows a commit: tallies, the hourly backup. Nothing of it can undo the act; trouble becomes a notice.
void after_commit(Book::Inside& inside);

/// See Book::back_up.
[[nodiscard]] base::Result<Backup> make_backup(Book::Inside& inside, const std::string& folder);

/// The files round a book.
struct Files {
  explicit Files(const std::string& book);
  std::string book, folder, lock, tally, making, fresh, backups;
};

[[nodiscard]] base::Result<Standing> read_standing(Database& database);
[[nodiscard]] base::Result<void> write_standing(Database& database, const Standing& standing);

/// Opens a connection to a book that is there, with the book's own settings. `fresh`: an empty file, the first page is
/// yet to come.
[[nodiscard]] base::Result<Database> connect(const Place& place, const std::string& path, bool read_only,
                                             bool fresh = false);

/// The action with this number, all entries in order.
[[nodiscard]] base::Result<Action> read_action(Database& database, std::int64_t number);

/// Does `work` in one writing transaction and commits it; a known token gives the stored action instead. When the disk
/// fails at the commit, the book is opened again and looked into before it answers.
[[nodiscard]] base::Result<Action> commit(Book::Inside& inside, const std::string& token,
                                          const std::function<base::Result<Action>(const std::string& token)>& work);

/// Error newer when the file's schema is not that of this program any more.
[[nodiscard]] base::Result<void> check_schema(Database& database);

}  // namespace portwright::book
