#pragma once
// A builder's whole workshop in one file that loses nothing: documents, a journal of every edit, undo, search, backups.
// It knows no saw. How it is kept: docs/models/book.md.

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "book/action.hpp"
#include "book/document.hpp"

namespace portwright::book {

/// Where a book lies and who opens it.
struct Place {
  std::string path;        ///< the book's file; its folder is made when it is not there
  std::string author;      ///< who acts; undo is per author
  bool read_only = false;  ///< acts are refused; the folder must still be writable by its owner for the lock
  std::string
      state_folder;  ///< where the second tally lies; empty: $XDG_STATE_HOME/portwright or ~/.local/state/portwright
  std::vector<std::string> facets{
      "model"};                           ///< top-level text leaves that Query can ask for; fixed when a book is made
  std::function<std::int64_t()> clock{};  ///< seconds since 1970, UTC; empty: the system's
  std::string vfs{};                      ///< SQLite VFS under the book's own; empty: the system's
  bool backs_up = true;                   ///< a backup beside the book, at most one an hour, after an act
  bool synced = true;  ///< false (tests only): commits do not wait for the disk, and no tally is kept
};

/// How a book was found.
enum class Opening { created, current, upgraded };

/// A book that has less than was seen of it before.
struct Alarm {
  std::string message;  ///< a sentence
  std::int64_t entries_then = 0, entries_now = 0;
  std::int64_t documents_then = 0, documents_now = 0;
};

/// A copy of the book that was opened, checked and counted.
struct Backup {
  std::string path, at;
  std::int64_t sequence = 0;  ///< of its newest entry
  std::int64_t documents = 0, entries = 0, blobs = 0;
  std::int64_t bytes = 0;
};

/// What verify found.
struct Verified {
  std::int64_t documents = 0, actions = 0, entries = 0, blobs = 0;
  std::vector<std::string> faults;  ///< one sentence each; none: the book is sound
  bool search_mended = false;       ///< the index of words did not agree with the documents and was made anew
};

/// Where the book lies and what it holds.
struct Where {
  std::string path;
  std::int64_t bytes = 0;
  std::int64_t documents = 0, entries = 0, blobs = 0, sequence = 0;
  std::optional<Backup> last_backup;  ///< newest in the folder of backups beside the book
  std::optional<Alarm> alarm;
};

/// What restore did.
struct Restored {
  std::string aside;  ///< where the former file went; empty when there was none
  Verified verified;
  std::int64_t sequence = 0;
};

/// Which documents: all conditions hold; empty ones ask nothing.
struct Query {
  std::string kind;
  std::optional<std::string> belongs_to;  ///< id of the owner; "" asks for those that stand alone
  std::string facet, value;               ///< a facet of Place and the value it must have
  bool hidden = false;                    ///< hidden ones too
  std::string leaf;                       ///< a text that one of the leaves is; all bodies are looked through
  std::string after;                      ///< only ids beyond this one (paging)
  std::int64_t limit = -1;                ///< at most so many; negative: all
};

/// Which actions, newest first.
struct JournalQuery {
  std::string document;     ///< empty: all
  std::string path;         ///< with `document`: entries on this path, above it and below it
  std::int64_t before = 0;  ///< only actions with a smaller number (paging); 0: from the newest
  std::int64_t limit = -1;
};

/// A document with the words that were looked for.
struct Found {
  std::string document, kind, belongs_to, title;
  std::string snippet;  ///< some words round the first place
};

/// Everything that a book holds, for an empty one to take as it stands.
struct Whole {
  std::string book;                 ///< id of the book it comes from (Book::id)
  std::vector<std::string> facets;  ///< of Book::facets
  std::vector<Action> actions;      ///< all, in the order of their numbers
  BlobSource blobs;
};

/// A book that is open. One thread at a time uses it; another thread or process opens its own.
/// Errors of every call: busy (another program holds the book too long), damaged, newer (another program upgraded the
/// file meanwhile), storage (disk full, I/O). A call that fails leaves the book as it was.
class Book {
 public:
  /// Opens or makes the book at `place`. Errors: busy, damaged, newer, storage, usage (no path), out_of_range (not a
  /// book).
  [[nodiscard]] static base::Result<Book> open(Place place);
  Book(Book&&) noexcept;
  Book& operator=(Book&&) noexcept;
  ~Book();

  [[nodiscard]] Opening opening() const;

  /// Does all of `deed` or nothing. A token that is known gives the action it stands for.
  /// Errors: conflict (readings = { mine, theirs }), not_found, usage (paths, overlapping changes, JSON that tree.hpp
  /// refuses, an id that is taken, a base beyond the newest entry).
  [[nodiscard]] base::Result<Action> act(const Deed& deed);
  /// The action of a token that is known: what act would answer at once. None: it is not known.
  [[nodiscard]] base::Result<std::optional<Action>> done_with(const std::string& token);

  /// Takes the author's newest action back that stands and is on the stack, as a new action. An added document is
  /// hidden. Errors: not_found (nothing to undo), conflict (readings = { what undo would put there, what is there })
  /// when somebody else's action that stands has touched one of its places since, or has added what belongs to an added
  /// document.
  [[nodiscard]] base::Result<Action> undo(const std::string& token = {}, const std::string& client = {});
  /// Does again what the author took back last, unless he did something new since. Errors as undo.
  [[nodiscard]] base::Result<Action> redo(const std::string& token = {}, const std::string& client = {});

  /// Error: not_found.
  [[nodiscard]] base::Result<Document> get(const std::string& id);
  /// All of them as they were at one moment. Error: not_found for the first that is missing.
  [[nodiscard]] base::Result<std::vector<Document>> get(std::span<const std::string> ids);
  /// In the order of their ids.
  [[nodiscard]] base::Result<std::vector<Document>> list(const Query& query);
  /// Newest first, each with all its entries in order.
  [[nodiscard]] base::Result<std::vector<Action>> journal(const JournalQuery& query);
  /// Documents whose texts have every word, the last one as the beginning of a word; without regard to capitals and
  /// accents; hidden ones never. Best first. A text without a letter or digit finds nothing.
  [[nodiscard]] base::Result<std::vector<Found>> find(const std::string& text, std::int64_t limit = 50);
  /// Bytes by their hash. Errors: not_found; damaged when they do not have that hash any more.
  [[nodiscard]] base::Result<Blob> blob(const std::string& hash);
  /// Everything that `reading` reads through this book is of one moment. It must not act. Its own error is passed on.
  [[nodiscard]] base::Result<void> one_view(const std::function<base::Result<void>()>& reading);
  /// One hash of the whole book: chain of the journal, every document with its body, every blob. The same after export
  /// and import; blobs count by their hash.
  [[nodiscard]] base::Result<std::string> hash();
  /// Names and types of all kept bytes, in the order of their hashes; the bytes are left empty.
  [[nodiscard]] base::Result<std::vector<Blob>> blobs();
  /// The book's own id, the same in its backups and after fill.
  [[nodiscard]] const std::string& id() const;
  [[nodiscard]] base::Result<std::vector<std::string>> facets();
  /// Makes an empty book the same as another one: journal, chain, undo stacks, documents, kept bytes; afterwards hash()
  /// is that of the other. Errors: usage (this book is not empty), damaged (chain, sums or undo stacks do not hold);
  /// then it stays empty.
  [[nodiscard]] base::Result<Verified> fill(const Whole& whole);
  /// Sequence of the newest entry; a server asks for it to notice what others did.
  [[nodiscard]] base::Result<std::int64_t> sequence();

  /// Set when the book has less than was last seen of it, until acknowledge.
  [[nodiscard]] std::optional<Alarm> alarm() const;
  /// Takes the book as it is from now on.
  [[nodiscard]] base::Result<void> acknowledge();
  /// What went wrong after an act was safely kept (tally, hourly backup), one sentence each; empty afterwards.
  [[nodiscard]] std::vector<std::string> take_notices();

  /// Copies the book into a folder (empty: `backups` beside it, where old ones go: ten latest, the last of each of 30
  /// days and of each month stay). The copy is opened, checked and counted. Errors: busy (another backup is under way),
  /// storage.
  [[nodiscard]] base::Result<Backup> back_up(const std::string& folder = {});
  /// Backups beside the book, newest first, as their names tell; they are not opened.
  [[nodiscard]] std::vector<Backup> backups() const;
  /// Reads everything: pages, whole chain, every blob, every document against what the journal adds up to, undo stacks,
  /// facets, search. Error damaged when it cannot be read.
  [[nodiscard]] base::Result<Verified> verify();
  [[nodiscard]] base::Result<Where> where();

  struct Inside;

 private:
  explicit Book(std::unique_ptr<Inside> inside);
  std::unique_ptr<Inside> inside_;
};

/// Puts a backup in the place of the book; what was there is moved aside, never deleted. The backup is copied and
/// verified first. Entries made later have sequences beyond all that were seen before. Errors: busy (the book is open
/// somewhere), not_found, damaged (the backup), newer, storage; then the book is as it was.
[[nodiscard]] base::Result<Restored> restore(const Place& place, const std::string& backup);

/// A word for one deed, or one book, that never meets another: 128 bits of chance. An id will not do: its chance is
/// drawn once a second, so two programs that write much in the same second can come upon the same one.
[[nodiscard]] std::string new_token();

/// A fresh id: ten characters of Crockford's base 32, in the order of time, then chance. Rarely, two programs draw the
/// same one in the same second; Book::act looks before it keeps a document under it.
[[nodiscard]] std::string new_id();

/// SHA-256 in hexadecimal: the name under which bytes are kept. @source{fips180_4, section 6.2}
[[nodiscard]] std::string hash_of(std::string_view bytes);

}  // namespace portwright::book
