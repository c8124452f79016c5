#include "cli/book_texts.hpp"
#include "cli/parts.hpp"

namespace portwright::cli {
namespace {

std::string moment(const std::string& at) { return at.size() < 16 ? at : at.substr(0, 10) + ' ' + at.substr(11, 5); }

std::string counted(std::int64_t count, const char* one, const char* many) {
  return base::number_text(static_cast<double>(count), 0) + ' ' + (count == 1 ? one : many);
}

std::string size_text(std::int64_t bytes) {
  return base::number_text(static_cast<double>(bytes + 1023) / 1024.0, 0) + " KiB";
}

void notices(Page& page, const wire::BookHead& head) {
  for (const std::string& notice : head.notices) page.paragraph({"! ", Ink::caution}, notice);
}

}  // namespace

std::string book_export_text(const wire::BookExportAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  page.paragraph({}, answer.to + ": " + counted(answer.saws, "saw", "saws") + ", " +
                         counted(answer.documents, "document", "documents") + ", " +
                         counted(answer.blobs, "kept file", "kept files") + ", " + size_text(answer.bytes) + '.');
  notices(page, answer.head);
  return page.text();
}

std::string book_import_text(const wire::BookImportAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  const std::string what = counted(answer.saws, "saw", "saws") + ", " +
                           counted(answer.documents, "document", "documents") + ", " +
                           counted(answer.blobs, "kept file", "kept files");
  if (answer.done)
    page.paragraph({}, "Imported: " + what + '.');
  else if (answer.documents == 0)
    page.paragraph({}, "There is nothing new in " + answer.from + '.');
  else
    page.paragraph({}, "It would bring " + what + ". Nothing was written yet: --yes takes it.");
  if (answer.into_empty)
    page.paragraph({}, "It is the same book as the one that was exported, journal and all.", Ink::faint);
  if (answer.same > 0)
    page.paragraph({}, counted(answer.same, "document is", "documents are") + " here already.", Ink::faint);
  if (!answer.differing.empty()) page.heading("Differs, and stays as it is here", "");
  for (const wire::BookDiffers& one : answer.differing) {
    page.paragraph({"  ! ", Ink::caution}, one.kind + ' ' + (one.name.empty() ? one.id : one.name) + ", " + one.path);
    page.paragraph({"    here   ", Ink::faint}, one.mine.empty() ? "\u2014" : one.mine);
    page.paragraph({"    there  ", Ink::faint}, one.theirs.empty() ? "\u2014" : one.theirs);
  }
  notices(page, answer.head);
  return page.text();
}

std::string book_backup_text(const wire::BookBackupAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  page.line(answer.backup.file, Ink::bold);
  page.paragraph({}, "Opened and counted: " + counted(answer.backup.documents, "document", "documents") + ", " +
                         counted(answer.backup.entries, "journal entry", "journal entries") + ", " +
                         size_text(answer.backup.bytes) + '.');
  notices(page, answer.head);
  return page.text();
}

std::string book_restore_text(const wire::BookRestoreAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  page.paragraph({}, "The book is " + answer.from + " now: " + counted(answer.documents, "document", "documents") +
                         ", " + counted(answer.entries, "journal entry", "journal entries") + '.');
  if (!answer.aside.empty()) page.paragraph({}, "What was there is kept as " + answer.aside + '.');
  notices(page, answer.head);
  return page.text();
}

std::string book_verify_text(const wire::BookVerifyAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  for (const base::Error& fault : answer.head.errors) page.paragraph({"\u2B22 ", Ink::stop}, fault.message);
  const std::string counts = counted(answer.documents, "document", "documents") + ", " +
                             counted(answer.actions, "action", "actions") + ", " +
                             counted(answer.entries, "journal entry", "journal entries") + ", " +
                             counted(answer.blobs, "kept file", "kept files");
  page.paragraph({}, (answer.head.errors.empty() ? "The book is sound: " : "The book is not sound: ") + counts + '.');
  if (answer.search_mended) page.line("The index of words did not hold and was made anew.");
  page.line("hash " + answer.hash, Ink::faint);
  notices(page, answer.head);
  return page.text();
}

std::string book_where_text(const wire::BookWhereAnswer& answer, const Setting& setting) {
  Page page(setting.coloured);
  page.line(answer.head.book, Ink::bold);
  page.line("chosen by " + answer.chosen_by, Ink::faint);
  if (!answer.there) {
    page.paragraph({}, "There is no book yet. portwright book add FILE begins one.");
    return page.text();
  }
  page.line();
  page.line("  " + counted(answer.saws, "saw", "saws") + ", " + counted(answer.documents, "document", "documents") +
            ", " + counted(answer.entries, "journal entry", "journal entries") + ", " + size_text(answer.bytes));
  if (answer.backups.empty())
    page.line("  No backup yet.");
  else
    page.line("  Newest backup " + moment(answer.backups.front().at) + ", " +
              counted(std::int64_t(answer.backups.size()), "backup", "backups") + " in " + answer.folder);
  if (!answer.alarm.empty()) page.paragraph({"  \u2B22 ", Ink::stop}, answer.alarm);
  notices(page, answer.head);
  return page.text();
}

}  // namespace portwright::cli
