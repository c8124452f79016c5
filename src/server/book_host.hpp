#pragma once
// Which book is open, and whether it has something new. Safe to use from several threads.

#include <atomic>
#include <condition_variable>
#include <cstdint>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

#include "base/error.hpp"

namespace portwright::server {

/// The book as a request finds it.
struct Standing {
  std::string path;
  std::int64_t epoch = 0;  ///< grows whenever another book is opened
  std::int64_t last = 0;   ///< number of the newest journal entry
  bool demo = false;       ///< the demo workshop
  friend bool operator==(const Standing&, const Standing&) = default;
};

/// What makes the demo book at a path where there is none.
using MakeDemo = std::function<base::Result<void>(const std::string& path)>;

class BookHost {
 public:
  /// @param named path given by the command line; empty: PORTWRIGHT_BOOK, else the usual one, and the demo book where
  /// neither was named and there is no usual one yet.
  BookHost(std::string named, MakeDemo make_demo);
  ~BookHost();
  BookHost(const BookHost&) = delete;
  BookHost& operator=(const BookHost&) = delete;

  /// Opens the book, makes it where there is none. One that is damaged, gone or of a newer program stands all the same:
  /// every question then has that answer, with the way back. Other errors as of the book.
  [[nodiscard]] base::Result<void> open();
  /// Why the book that stands could not be read when it was opened; none: it could.
  [[nodiscard]] std::optional<base::Error> trouble() const;
  [[nodiscard]] Standing standing() const;
  /// Where one's own book lies, also while the demo is open.
  [[nodiscard]] const std::string& own_path() const { return own_; }
  /// One's own book from now on; it is made when it is not there.
  [[nodiscard]] base::Result<void> own_book();
  /// The demo workshop from now on. Error not_found: this program has none.
  [[nodiscard]] base::Result<void> demo_book();

  /// Calls `changed` in a thread of its own whenever the standing is another one than before: by this server or by
  /// another program.
  void watch(std::function<void(const Standing&)> changed);
  /// Looks at once instead of at the next turn.
  void look();

 private:
  [[nodiscard]] base::Result<void> change_to(const std::string& path, bool demo);
  void run(const std::function<void(const Standing&)>& changed);

  std::string named_, own_, demo_;
  MakeDemo make_demo_;
  mutable std::mutex guard_;
  std::condition_variable wake_;
  Standing now_;
  std::optional<base::Error> trouble_;
  bool hurry_ = false, ended_ = false;
  std::thread watcher_;
};

}  // namespace portwright::server
