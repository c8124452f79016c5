#pragma once
// SQLite held so that it closes itself and no result code goes unseen. sqlite3.h stays in the .cpp files.

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "base/error.hpp"

struct sqlite3;
struct sqlite3_stmt;

namespace portwright::book {

/// A prepared statement in use: values bound in order, rows read in order; reset when it goes out of scope.
class Statement {
 public:
  Statement(sqlite3* database, sqlite3_stmt* statement, int trouble);
  Statement(Statement&& other) noexcept;
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;
  ~Statement();

  Statement& bind(std::string_view text);
  Statement& bind(const char* text) { return bind(std::string_view(text)); }
  Statement& bind(const std::string& text) { return bind(std::string_view(text)); }
  Statement& bind(std::int64_t number);
  Statement& bind(const std::optional<std::string>& text);
  Statement& bind_bytes(std::string_view bytes);

  /// True when there is a row, false when there are no more.
  base::Result<bool> step();
  /// Runs to the end.
  base::Result<void> run();

  [[nodiscard]] std::string text(int column) const;
  [[nodiscard]] std::optional<std::string> maybe_text(int column) const;
  [[nodiscard]] std::int64_t number(int column) const;

 private:
  sqlite3* database_;
  sqlite3_stmt* statement_;
  int trouble_;
  int bound_ = 0;
};

/// How a file is opened.
struct Access {
  std::string path;
  std::string vfs;  ///< empty: the system's
  bool create = false;
  bool read_only = false;
};

/// One connection.
class Database {
 public:
  static base::Result<Database> open(const Access& access);
  Database() = default;
  Database(Database&&) noexcept = default;
  Database& operator=(Database&&) noexcept = default;

  /// A statement; the same SQL is prepared once. Trouble is told by its step or run.
  Statement prepare(std::string_view sql);
  /// One or more statements without values.
  base::Result<void> run(const char* sql);
  /// First column of the first row.
  base::Result<std::int64_t> number(std::string_view sql);
  base::Result<std::string> text(std::string_view sql);

  /// Closes now; statements must be gone. The file's error, if the last checkpoint had one.
  base::Result<void> close();
  [[nodiscard]] bool is_open() const { return database_ != nullptr; }
  /// Whether a transaction is under way.
  [[nodiscard]] bool inside_transaction() const;
  /// Rows changed by the last statement.
  [[nodiscard]] std::int64_t changed() const;
  [[nodiscard]] sqlite3* handle() const { return database_.get(); }

 private:
  struct Closer {
    void operator()(sqlite3* database) const;
  };
  struct Finalizer {
    void operator()(sqlite3_stmt* statement) const;
  };
  // The connection goes last.
  std::unique_ptr<sqlite3, Closer> database_;
  std::map<std::string, std::unique_ptr<sqlite3_stmt, Finalizer>, std::less<>> prepared_;
};

/// A transaction that is rolled back unless it was committed.
class Transaction {
 public:
  /// For writing: others wait. Error busy when another writes for more than five seconds.
  static base::Result<Transaction> writing(Database& database);
  /// For reading: one view of the book until it ends; within another, that one's view.
  static base::Result<Transaction> reading(Database& database);
  Transaction(Transaction&& other) noexcept;
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  ~Transaction();
  base::Result<void> commit();

 private:
  explicit Transaction(Database* database) : database_(database) {}
  Database* database_;
};

/// What an SQLite result code means to a person. `doing`: "read the book".
[[nodiscard]] base::Error sqlite_error(sqlite3* database, int code);

}  // namespace portwright::book
