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
  /// Error busy when another holds it for longer than `patience` [ms]; storage when the file cannot be made.
  /// `read_only`: the file is not made; without it there is nothing to lock.
  static base::Result<Lock> take(const std::string& path, Kind kind, int patience, bool read_only = false);
  Lock() = default;
  Lock(Lock&& other) noexcept;
  Lock& operator=(Lock&& other) noexcept;
  ~Lock();
  /// Changes a lock held alone into a shared one; nobody comes between.
  base::Result<void> share();

 private:
  explicit Lock(int file) : file_(file) {}
  int file_ = -1;
};

}  // namespace portwright::book
