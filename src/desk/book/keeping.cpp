// Backups, the way back from one, and whether the book is sound.
#include <filesystem>

#include "desk/book.hpp"
#include "desk/book/shelf.hpp"

namespace portwright::desk {
namespace {

wire::BookBackup shown(const book::Backup& backup) {
  return {backup.path, backup.at, backup.bytes, backup.documents, backup.entries};
}

}  // namespace

base::ResultAll<wire::BookBackupAnswer> book_backup(const BookBackupRequest& request) {
  auto shelf = open_shelf(request.book, Reach::read);
  if (!shelf) return only_error(shelf);
  const auto made = shelf->book.back_up(request.folder);
  if (!made) return only_error(made);
  wire::BookBackupAnswer answer;
  answer.head = shelf->head();
  answer.backup = shown(*made);
  for (const book::Backup& backup : shelf->book.backups()) answer.kept.push_back(shown(backup));
  return answer;
}

base::ResultAll<wire::BookRestoreAnswer> book_restore(const BookRestoreRequest& request) {
  const BookPlace place = book_place(request.book);
  book::Place at;
  at.path = place.path;
  at.author = book_author();
  const auto restored = book::restore(at, request.file);
  if (!restored) return only_error(restored);
  wire::BookRestoreAnswer answer;
  answer.head.book = place.path;
  answer.from = request.file;
  answer.aside = restored->aside;
  answer.documents = restored->verified.documents;
  answer.entries = restored->verified.entries;
  return answer;
}

base::ResultAll<wire::BookVerifyAnswer> book_verify(const BookRequest& request) {
  auto shelf = open_shelf(request.book, Reach::write);  // an index of words that does not hold is made anew
  if (!shelf) return only_error(shelf);
  const auto verified = shelf->book.verify();
  if (!verified) return only_error(verified);
  const auto hash = shelf->book.hash();
  if (!hash) return only_error(hash);
  wire::BookVerifyAnswer answer;
  answer.head = shelf->head();
  answer.documents = verified->documents;
  answer.actions = verified->actions;
  answer.entries = verified->entries;
  answer.blobs = verified->blobs;
  answer.search_mended = verified->search_mended;
  answer.hash = *hash;
  for (const std::string& fault : verified->faults)
    answer.head.errors.push_back({base::ErrorCode::damaged, fault, "", "", {}});
  return answer;
}

}  // namespace portwright::desk
