#pragma once
// Answers of the book as text for a person.

#include <string>

#include "cli/texts.hpp"
#include "wire/book_answer.hpp"

namespace portwright::cli {

[[nodiscard]] std::string book_add_text(const wire::BookAddAnswer& answer, const Setting& setting);
[[nodiscard]] std::string book_list_text(const wire::BookListAnswer& answer, const Setting& setting);
[[nodiscard]] std::string book_photos_text(const wire::BookPhotosAnswer& answer, const Setting& setting);
[[nodiscard]] std::string book_show_text(const wire::BookShowAnswer& answer, const Setting& setting);
[[nodiscard]] std::string book_done_text(const wire::BookDoneAnswer& answer, const Setting& setting);
[[nodiscard]] std::string book_journal_text(const wire::BookJournalAnswer& answer, const Setting& setting);
[[nodiscard]] std::string book_find_text(const wire::BookFindAnswer& answer, const Setting& setting);
[[nodiscard]] std::string book_sisters_text(const wire::BookSistersAnswer& answer, const Setting& setting);
[[nodiscard]] std::string book_export_text(const wire::BookExportAnswer& answer, const Setting& setting);
[[nodiscard]] std::string book_import_text(const wire::BookImportAnswer& answer, const Setting& setting);
[[nodiscard]] std::string book_backup_text(const wire::BookBackupAnswer& answer, const Setting& setting);
[[nodiscard]] std::string book_restore_text(const wire::BookRestoreAnswer& answer, const Setting& setting);
[[nodiscard]] std::string book_verify_text(const wire::BookVerifyAnswer& answer, const Setting& setting);
[[nodiscard]] std::string book_where_text(const wire::BookWhereAnswer& answer, const Setting& setting);

}  // namespace portwright::cli
