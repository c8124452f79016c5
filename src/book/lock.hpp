#pragma once
// Who has the book open: a lock on a file beside it, shared by all that use the book, taken alone by what replaces it.

#include <string>

#include "base/error.hpp"

namespace portwright::book {

/// A lock held until it goes out of scope. It belongs to this object, not to the process: two in one process exclude
/// each other like two programs.
class Lock {
 public:
  enum class Kind { shared, alone };
  static constexpr int book_byte = 0, tally_byte = 1;  ///< two locks in one file
  /// Error busy when another holds it for longer than `patience` [ms]; storage when the file cannot be made.
  /// `read_only`: the file is not made; without it there is nothing to lock.
  static base::Result<Lock> take(const std::string& path, Kind kind, int patience, bool read_only = false,
                                 int byte = book_byte);
  Lock() = default;
  Lock(Lock&& other) noexcept;
  Lock& operator=(Lock&& other) noexcept;
  ~Lock();
  /// Changes a lock held alone into a shared one; nobody comes between.
  base::Result<void> share();

 private:
  Lock(int file, int byte) : file_(file), byte_(byte) {}
  int file_ = -1;
  int byte_ = book_byte;
};

}  // namespace portwright::book
