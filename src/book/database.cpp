#include "book/database.hpp"

#include <sqlite3.h>

#include <utility>

#include "book/attempt.hpp"

namespace portwright::book {

using base::ErrorCode;
using base::Result;

namespace {

constexpr int patience = 5000;  // [ms]

base::Error said(ErrorCode code, std::string message, std::string hint = {}) {
  return {code, std::move(message), {}, std::move(hint), {}};
}

base::Error storage_error(int code) {
  if ((code & 0xff) == SQLITE_FULL) return said(ErrorCode::storage, "The disk is full; nothing was changed.");
  if ((code & 0xff) == SQLITE_READONLY)
    return said(ErrorCode::storage, "The book cannot be written here.", "Its file and its folder must be writable.");
  if ((code & 0xff) == SQLITE_CANTOPEN)
    return said(ErrorCode::storage, "The book's file cannot be opened.", "Its file and its folder must be yours.");
  return said(ErrorCode::storage, "The disk does not read or write as asked (" + std::to_string(code) + ").");
}

}  // namespace

base::Error sqlite_error(sqlite3* database, int code) {
  if (database != nullptr && code == (code & 0xff)) {
    const int more = sqlite3_extended_errcode(database);
    if ((more & 0xff) == code) code = more;
  }
  switch (code & 0xff) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
    case SQLITE_PROTOCOL:
      return said(ErrorCode::busy, "Another program is writing in the book.", "Try again in a moment.");
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      return said(ErrorCode::damaged, "The book is damaged: its bytes are not those that were written.");
    case SQLITE_IOERR:
      if (code == SQLITE_IOERR_DATA || code == SQLITE_IOERR_CORRUPTFS)
        return said(ErrorCode::damaged, "The book is damaged: a page is not as it was written.");
      return storage_error(code);
    case SQLITE_FULL:
    case SQLITE_READONLY:
    case SQLITE_CANTOPEN:
    case SQLITE_PERM:
      return storage_error(code);
    default:
      return said(ErrorCode::fault, std::string("The book's engine says: ") +
                                        (database != nullptr ? sqlite3_errmsg(database) : sqlite3_errstr(code)));
  }
}

Statement::Statement(sqlite3* database, sqlite3_stmt* statement, int trouble)
    : database_(database), statement_(statement), trouble_(trouble) {}

Statement::Statement(Statement&& other) noexcept
    : database_(other.database_),
      statement_(std::exchange(other.statement_, nullptr)),
      trouble_(other.trouble_),
      bound_(other.bound_) {}

Statement::~Statement() {
  if (statement_ == nullptr) return;
  sqlite3_reset(statement_);  // its code is that of the last step, which was looked at there
  sqlite3_clear_bindings(statement_);
}

Statement& Statement::bind(std::string_view text) {
  if (trouble_ == SQLITE_OK)
    trouble_ = sqlite3_bind_text64(statement_, ++bound_, text.data() == nullptr ? "" : text.data(), text.size(),
                                   SQLITE_TRANSIENT, SQLITE_UTF8);
  return *this;
}

Statement& Statement::bind(std::int64_t number) {
  if (trouble_ == SQLITE_OK) trouble_ = sqlite3_bind_int64(statement_, ++bound_, number);
  return *this;
}

Statement& Statement::bind(const std::optional<std::string>& text) {
  if (text) return bind(std::string_view(*text));
  if (trouble_ == SQLITE_OK) trouble_ = sqlite3_bind_null(statement_, ++bound_);
  return *this;
}

Statement& Statement::bind_bytes(std::string_view bytes) {
  if (trouble_ == SQLITE_OK)
    trouble_ = sqlite3_bind_blob64(statement_, ++bound_, bytes.data() == nullptr ? "" : bytes.data(), bytes.size(),
                                   SQLITE_TRANSIENT);
  return *this;
}

Result<bool> Statement::step() {
  if (trouble_ == SQLITE_OK) trouble_ = sqlite3_step(statement_);
  if (trouble_ == SQLITE_ROW || trouble_ == SQLITE_DONE) return std::exchange(trouble_, SQLITE_OK) == SQLITE_ROW;
  return tl::unexpected(sqlite_error(database_, trouble_));
}

Result<void> Statement::run() {
  for (;;) {
    BOOK_LET(more, step());
    if (!more) break;
  }
  sqlite3_reset(statement_);  // it ended well: the code is that of the step
  return {};
}

std::string Statement::text(int column) const {
  const auto* bytes = static_cast<const char*>(sqlite3_column_blob(statement_, column));
  if (bytes == nullptr) return {};
  return {bytes, static_cast<std::size_t>(sqlite3_column_bytes(statement_, column))};
}

std::optional<std::string> Statement::maybe_text(int column) const {
  if (sqlite3_column_type(statement_, column) == SQLITE_NULL) return std::nullopt;
  return text(column);
}

std::int64_t Statement::number(int column) const { return sqlite3_column_int64(statement_, column); }

void Database::Closer::operator()(sqlite3* database) const { sqlite3_close_v2(database); }
void Database::Finalizer::operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }

Result<Database> Database::open(const Access& access) {
  Database out;
  sqlite3* handle = nullptr;
  int flags = SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE;
  flags |= access.read_only ? SQLITE_OPEN_READONLY : SQLITE_OPEN_READWRITE;
  if (access.create) flags |= SQLITE_OPEN_CREATE;
  const int code =
      sqlite3_open_v2(access.path.c_str(), &handle, flags, access.vfs.empty() ? nullptr : access.vfs.c_str());
  out.database_.reset(handle);
  if (code != SQLITE_OK) return tl::unexpected(sqlite_error(handle, code));
  sqlite3_busy_timeout(handle, patience);
  sqlite3_limit(handle, SQLITE_LIMIT_ATTACHED, 0);
  int answer = 0;
  sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, &answer);
  sqlite3_db_config(handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, &answer);
  sqlite3_db_config(handle, SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION, 0, &answer);
  return out;
}

Statement Database::prepare(std::string_view sql) {
  auto found = prepared_.find(sql);
  if (found == prepared_.end()) {
    sqlite3_stmt* statement = nullptr;
    const int code = sqlite3_prepare_v3(database_.get(), sql.data(), static_cast<int>(sql.size()),
                                        SQLITE_PREPARE_PERSISTENT, &statement, nullptr);
    if (code != SQLITE_OK) return {database_.get(), nullptr, code};
    found = prepared_.try_emplace(std::string(sql), statement).first;
  }
  return {database_.get(), found->second.get(), SQLITE_OK};
}

Result<void> Database::run(const char* sql) {
  const int code = sqlite3_exec(database_.get(), sql, nullptr, nullptr, nullptr);
  if (code != SQLITE_OK) return tl::unexpected(sqlite_error(database_.get(), code));
  return {};
}

Result<std::int64_t> Database::number(std::string_view sql) {
  Statement statement = prepare(sql);
  BOOK_LET(row, statement.step());
  return row ? statement.number(0) : 0;
}

Result<std::string> Database::text(std::string_view sql) {
  Statement statement = prepare(sql);
  BOOK_LET(row, statement.step());
  return row ? statement.text(0) : std::string{};
}

Result<void> Database::close() {
  prepared_.clear();
  if (database_ == nullptr) return {};
  const int code = sqlite3_close(database_.get());
  if (code != SQLITE_OK) return tl::unexpected(sqlite_error(database_.get(), code));
  database_.release();
  return {};
}

bool Database::inside_transaction() const { return sqlite3_get_autocommit(database_.get()) == 0; }

std::int64_t Database::changed() const { return sqlite3_changes64(database_.get()); }

Result<Transaction> Transaction::writing(Database& database) {
  BOOK_TRY(database.prepare("BEGIN IMMEDIATE").run());
  return Transaction(&database);
}

Result<Transaction> Transaction::reading(Database& database) {
  if (database.inside_transaction()) return Transaction(nullptr);
  BOOK_TRY(database.prepare("BEGIN").run());
  Transaction out(&database);
  BOOK_TRY(database.number("SELECT sequence FROM standing"));  // the view begins with the first row read
  return out;
}

Transaction::Transaction(Transaction&& other) noexcept : database_(std::exchange(other.database_, nullptr)) {}

Transaction::~Transaction() {
  if (database_ != nullptr && database_->is_open() && database_->inside_transaction())
    (void)database_->prepare("ROLLBACK").run();  // the transaction ends with the connection at the latest
}

Result<void> Transaction::commit() {
  if (database_ == nullptr) return {};
  BOOK_TRY(database_->prepare("COMMIT").run());
  database_ = nullptr;
  return {};
}

}  // namespace portwright::book
