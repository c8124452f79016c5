#include "book/lock.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <system_error>
#include <thread>
#include <utility>

namespace portwright::book {

using base::ErrorCode;
using base::Result;

namespace {

bool try_lock(int file, short kind, int byte) {
  struct flock range {};
  range.l_type = kind;
  range.l_whence = SEEK_SET;
  range.l_start = byte;
  range.l_len = 1;
  return ::fcntl(file, F_OFD_SETLK, &range) == 0;
}

}  // namespace

Result<Lock> Lock::take(const std::string& path, Kind kind, int patience, bool read_only, int byte) {
  const int flags = O_CLOEXEC | O_NOFOLLOW | (read_only ? O_RDONLY : O_RDWR | O_CREAT);
  const int file = ::open(path.c_str(), flags, 0600);
  if (file < 0 && read_only && errno == ENOENT) return Lock();
  if (file < 0)
    return base::fail(ErrorCode::storage, "Cannot write " + path + ": " + std::generic_category().message(errno) + ".",
                      {}, "The folder of the book must be there and be writable.");
  Lock out(file, byte);
  for (int waited = 0;; waited += 10) {
    if (try_lock(file, kind == Kind::shared ? F_RDLCK : F_WRLCK, byte)) return out;
    if (errno != EAGAIN && errno != EACCES && errno != EINTR)
      return base::fail(ErrorCode::storage,
                        "Cannot lock " + path + ": " + std::generic_category().message(errno) + ".");
    if (waited >= patience)
      return base::fail(ErrorCode::busy, "Another program has the book open.", {}, "Close it there, then try again.");
    std::this_thread::sleep_for(std::chrono::milliseconds(10));
  }
}

Lock::Lock(Lock&& other) noexcept : file_(std::exchange(other.file_, -1)), byte_(other.byte_) {}

Lock& Lock::operator=(Lock&& other) noexcept {
  std::swap(file_, other.file_);
  std::swap(byte_, other.byte_);
  return *this;
}

Lock::~Lock() {
  if (file_ >= 0) ::close(file_);
}

Result<void> Lock::share() {
  if (try_lock(file_, F_RDLCK, byte_)) return {};
  return base::fail(ErrorCode::storage, "Cannot lock the book: " + std::generic_category().message(errno) + ".");
}

}  // namespace portwright::book
