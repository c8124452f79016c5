#pragma once
// The use cases of the book. A saw is named by its name (capitals and signs do not count, its beginning will do where
// only one saw begins so) or by its id. `book` is the book's path; empty: PORTWRIGHT_BOOK, else the usual place.
//
// Errors of all: busy, conflict, damaged, newer, storage of the book; not_found for a saw that it does not have, or
// when there is no book yet; unreadable with the ids, when a name could be several saws.

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "base/number_text.hpp"
#include "wire/book_answer.hpp"

namespace portwright::desk {

/// Whose hand writes, and from where.
struct Hand {
  std::string author = {};  ///< empty: PORTWRIGHT_AUTHOR, else the user's name
  std::string token = {};   ///< the same when a request is tried again: it is done once; empty: none
  std::string client = {};  ///< the writing window: its own changes do not conflict with it; empty: none
};

/// A saw file that is not on the disk.
struct SawText {
  std::string name;  ///< that it is kept under
  std::string text;
};

/// Takes saw files into the book, all or none. Errors: what the saw files have wrong as a whole.
struct BookAddRequest {
  std::string book = {};
  std::vector<std::string> files;
  std::string to = {};              ///< saw whose further readings these are; empty: each file is a saw of its own
  std::vector<SawText> texts = {};  ///< beside the files
  Hand by = {};
};
[[nodiscard]] base::ResultAll<wire::BookAddAnswer> book_add(const BookAddRequest& request);

/// A saw with nothing read yet. Errors: usage without a name.
struct BookNewRequest {
  std::string book = {}, name = {}, model = {};
  Hand by = {};
};
[[nodiscard]] base::ResultAll<wire::BookDoneAnswer> book_new(const BookNewRequest& request);

struct BookListRequest {
  std::string book = {};
  bool hidden = false;  ///< those that are hidden instead of the others
  bool all = false;     ///< more than two hundred
};
[[nodiscard]] base::ResultAll<wire::BookListAnswer> book_list(const BookListRequest& request);

struct BookSawRequest {
  std::string book = {}, saw = {};
  Hand by = {};
};
[[nodiscard]] base::ResultAll<wire::BookShowAnswer> book_show(const BookSawRequest& request);
[[nodiscard]] base::ResultAll<wire::BookDoneAnswer> book_hide(const BookSawRequest& request);
[[nodiscard]] base::ResultAll<wire::BookDoneAnswer> book_bring_back(const BookSawRequest& request);

/// Writes the newest readings of a saw as a saw file; `-` is standard output. A file that is there is not written over.
struct BookTomlRequest {
  std::string book = {}, saw = {}, output = {};
};
[[nodiscard]] base::ResultAll<wire::WrittenAnswer> book_toml(const BookTomlRequest& request);

/// One field of the newest readings. A text that cannot be read is kept as typed and named in the answer's errors; one
/// that would leave no saw to read at all is refused.
struct BookSetRequest {
  std::string book = {}, saw = {}, field = {};
  std::string value = {};  ///< as typed; members of a list are parted by semicolons, halves of pairs by commas
  bool clear = false;      ///< take the reading out instead
  bool again = false;      ///< a further reading of the same place, beside those that are there
  std::optional<std::string> with = {}, setup = {}, note = {};
  bool only_adds = false;  ///< a value may come or take another's place; error usage where one would go
  /// Revision of the saw that the writer saw; none: the newest. Error conflict, with both values, when the same place
  /// was changed since.
  std::optional<std::int64_t> base = {};
  Hand by = {};
};
[[nodiscard]] base::ResultAll<wire::BookDoneAnswer> book_set(const BookSetRequest& request);

struct BookNoteRequest {
  std::string book = {}, saw = {}, text = {};
  Hand by = {};
};
[[nodiscard]] base::ResultAll<wire::BookDoneAnswer> book_note(const BookNoteRequest& request);

/// A test in the wood, all as typed; empty: not taken.
struct BookWoodRequest {
  std::string book = {}, saw = {};
  std::string date = {}, wood = {}, bar = {}, chain = {};
  std::string times = {};  ///< of the cuts, parted by semicolons: "12.1 s; 12.4 s"
  std::string rpm = {}, gauge = {}, felt = {};
  Hand by = {};
};
[[nodiscard]] base::ResultAll<wire::BookDoneAnswer> book_wood(const BookWoodRequest& request);

/// Something that broke, kept for the next saw.
struct BookFailureRequest {
  std::string book = {}, saw = {}, text = {};
  std::string where = {}, cause = {}, seen = {};
  Hand by = {};
};
[[nodiscard]] base::ResultAll<wire::BookDoneAnswer> book_failure(const BookFailureRequest& request);

/// What the figures are now, kept with their case and the program's version: a result that later ones are held against.
/// book_show tells when its readings are others by now. Errors: as of study and run; conflict when the readings were
/// changed meanwhile.
struct BookResultRequest {
  std::string book = {}, saw = {};
  std::string cuts = {};    ///< the what-if; empty: the saw as it is
  std::string title = {};   ///< a name for it
  std::string speeds = {};  ///< of a curve to be kept with it, as RunRequest::speeds; empty: none is turned
  Hand by = {};
};
[[nodiscard]] base::ResultAll<wire::BookDoneAnswer> book_result(const BookResultRequest& request);

/// A cut list, planned or done; one that is planned already is marked done. With `list` a list of the book is brought
/// up to date instead of a further one kept: its cuts become these; a planned list that becomes done so keeps what was
/// planned beside it. Errors: bad_cut; not_found: this saw has no such list; usage: planned amounts of what is not
/// done.
struct BookCutRequest {
  std::string book = {}, saw = {}, cuts = {};
  std::string title = {};
  bool done = false;
  bool no_files = false;  ///< a list that names a file is refused
  Hand by = {};
  std::string planned = {};  ///< of a done list: its cuts with the amounts that were planned; matched place by place
  std::string list = {};     ///< id of the list to bring up to date
};
[[nodiscard]] base::ResultAll<wire::BookDoneAnswer> book_cut(const BookCutRequest& request);

/// Accepts a finding of the study with a reason, for the value it has now.
/// Errors: not_found; usage: no reason, or several findings could be meant.
struct BookAcceptRequest {
  std::string book = {}, saw = {};
  std::string finding = {};  ///< rule, or figure, or the end of a figure's id
  std::string reason = {};
  std::string cuts = {};  ///< the what-if that the finding stands in; empty: the saw as it is
  Hand by = {};
};
[[nodiscard]] base::ResultAll<wire::BookDoneAnswer> book_accept(const BookAcceptRequest& request);

/// A picture taken in as a photo of a saw: turned upright, its longer side at most 2,560 pixels, and nothing kept of
/// what the camera noted but when it was taken. A token that is known is answered before anything is decoded, and a
/// picture that the saw has already is not added again (its id stands in the answer's `added`, a notice says so).
/// Errors: unreadable, out_of_range as of picture::read_picture.
struct BookPhotoRequest {
  std::string book = {}, saw = {};
  std::string_view bytes = {};  ///< of a JPEG or PNG, 24 MiB at most
  std::string caption = {};
  Hand by = {};
};
[[nodiscard]] base::ResultAll<wire::BookDoneAnswer> book_photo(const BookPhotoRequest& request);

/// The same from files, one deed each. Errors: those of every file that cannot be taken; then none is added.
struct BookPhotoFilesRequest {
  std::string book = {}, saw = {};
  std::vector<std::string> files;
  std::string caption = {};
  Hand by = {};
};
[[nodiscard]] base::ResultAll<wire::BookPhotosAnswer> book_photo_files(const BookPhotoFilesRequest& request);

/// The photos of a saw, oldest first.
[[nodiscard]] base::ResultAll<wire::BookPhotosAnswer> book_photos(const BookSawRequest& request);

/// Words under a photo; empty: none. Error conflict, with both values, when they were changed since `base`.
struct BookCaptionRequest {
  std::string book = {}, photo = {}, text = {};
  std::optional<std::int64_t> base = {};  ///< revision of the photo that the writer saw; none: the newest
  Hand by = {};
};
[[nodiscard]] base::ResultAll<wire::BookDoneAnswer> book_caption(const BookCaptionRequest& request);

struct BookHidePhotoRequest {
  std::string book = {}, photo = {};
  Hand by = {};
};
[[nodiscard]] base::ResultAll<wire::BookDoneAnswer> book_hide_photo(const BookHidePhotoRequest& request);

/// The kept picture of a photo. Errors: not_found (no photo of that id, or out of sight), damaged.
struct BookPictureRequest {
  std::string book = {}, photo = {};
  bool small = false;      ///< 480 pixels instead of 2,560
  std::string known = {};  ///< hash that the asker has: then nothing is read and the answer's bytes are empty
};
struct BookPicture {
  std::string hash;
  std::string bytes;  ///< of a JPEG
};
[[nodiscard]] base::Result<BookPicture> book_picture(const BookPictureRequest& request);

struct BookJournalRequest {
  std::string book = {};
  std::string saw = {};  ///< empty: everything
  int limit = 20;
};
[[nodiscard]] base::ResultAll<wire::BookJournalAnswer> book_journal(const BookJournalRequest& request);

/// Takes back the author's newest action, or does again what he took back; errors: conflict with both values,
/// not_found when there is none.
struct BookRequest {
  std::string book = {};
  Hand by = {};
};
[[nodiscard]] base::ResultAll<wire::BookDoneAnswer> book_undo(const BookRequest& request);
[[nodiscard]] base::ResultAll<wire::BookDoneAnswer> book_redo(const BookRequest& request);
[[nodiscard]] base::ResultAll<wire::BookWhereAnswer> book_where(const BookRequest& request);

/// Makes the book with its folder when it is not there.
[[nodiscard]] base::Result<void> book_begin(const BookRequest& request);

/// Whether there is a book at the place asked for, and where that is.
struct BookStanding {
  std::string path, chosen_by;
  bool there = false;
};
[[nodiscard]] BookStanding book_standing(const std::string& asked);
/// What BookStanding::chosen_by says where nobody named a book.
inline constexpr const char* usual_place = "the usual place";

/// Number of the newest journal entry.
[[nodiscard]] base::Result<std::int64_t> book_last(const BookRequest& request);

/// The same again and again, from a book that stays open: what a server asks to notice what others did. One thread at a
/// time uses it.
class BookPulse {
 public:
  explicit BookPulse(std::string path);
  BookPulse(BookPulse&&) noexcept;
  BookPulse& operator=(BookPulse&&) noexcept;
  ~BookPulse();
  /// Errors as of the book; the next call opens it anew.
  [[nodiscard]] base::Result<std::int64_t> last();

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

/// Revision of a saw with its newest readings, as text. Errors: not_found.
[[nodiscard]] base::Result<std::string> book_revision(const BookSawRequest& request);

/// Who acts where nobody is named.
[[nodiscard]] std::string usual_author();

struct BookFindRequest {
  std::string book = {}, text = {};
};
[[nodiscard]] base::ResultAll<wire::BookFindAnswer> book_find(const BookFindRequest& request);

/// Reads everything and holds it against the journal; what is not sound stands in the answer's errors.
[[nodiscard]] base::ResultAll<wire::BookVerifyAnswer> book_verify(const BookRequest& request);

struct BookBackupRequest {
  std::string book = {};
  std::string folder = {};  ///< empty: beside the book
};
[[nodiscard]] base::ResultAll<wire::BookBackupAnswer> book_backup(const BookBackupRequest& request);

/// Puts a backup in the book's place; what was there is kept aside.
struct BookRestoreRequest {
  std::string book = {}, file = {};
};
[[nodiscard]] base::ResultAll<wire::BookRestoreAnswer> book_restore(const BookRestoreRequest& request);

/// Writes the whole book into a new folder, or one saw into a new file.
struct BookExportRequest {
  std::string book = {};
  std::string folder = {};  ///< or the file of one saw
  std::string saw = {};     ///< of book_export_saw
};
[[nodiscard]] base::ResultAll<wire::BookExportAnswer> book_export(const BookExportRequest& request);
[[nodiscard]] base::ResultAll<wire::BookExportAnswer> book_export_saw(const BookExportRequest& request);

/// Looks at an exported folder or file and says what it would bring; takes it with `yes`. Into an empty book it becomes
/// the same book; into another one documents that it does not know are added in one action, and those that differ stay
/// as they are and are shown with both values.
/// Errors: damaged for links, files too long, hashes that do not hold; unknown_format.
struct BookImportRequest {
  std::string book = {}, from = {};
  bool yes = false;
};
[[nodiscard]] base::ResultAll<wire::BookImportAnswer> book_import(const BookImportRequest& request);

/// Saws of a model side by side. Errors: not_found with the nearest model; not_found when only one saw has it.
struct BookSistersRequest {
  std::string book = {}, model = {};
  base::UnitStyle style = base::UnitStyle::shop;
};
[[nodiscard]] base::ResultAll<wire::BookSistersAnswer> book_sisters(const BookSistersRequest& request);

/// A new saw from a sister's readings, each widened by how far sisters differ and marked as borrowed.
struct BookBorrowRequest {
  std::string book = {}, sister = {}, name = {};
  Hand by = {};
};
[[nodiscard]] base::ResultAll<wire::BookDoneAnswer> book_borrow(const BookBorrowRequest& request);

}  // namespace portwright::desk
