#include "base/file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <system_error>
#include <utility>
#include <vector>

namespace portwright::base {
namespace {

std::string reason(int number) { return std::generic_category().message(number); }

/// A file descriptor that closes itself.
class Descriptor {
 public:
  explicit Descriptor(int fd) : fd_(fd) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (fd_ >= 0) ::close(fd_);
  }
  int get() const { return fd_; }
  /// Closes now; false when the system reports a late write error.
  bool close() { return ::close(std::exchange(fd_, -1)) == 0; }

 private:
  int fd_;
};

/// Writes all bytes; 0 or the errno.
int write_all(int fd, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t n = ::write(fd, bytes.data(), bytes.size());
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return errno;
    bytes.remove_prefix(static_cast<std::size_t>(n));
  }
  return ::fsync(fd) == 0 || errno == EINVAL || errno == EROFS ? 0 : errno;
}

std::string folder_of(const std::string& path) {
  const auto slash = path.rfind('/');
  if (slash == std::string::npos) return ".";
  return slash == 0 ? "/" : path.substr(0, slash);
}

tl::unexpected<Error> cannot_write(const std::string& path, int number) {
  return fail(ErrorCode::storage, "cannot write " + path + ": " + reason(number), {},
              number == ENOENT ? "the folder must be there" : std::string{});
}

/// Rights a new file would get, or those the file there has now.
mode_t rights_for(const std::string& path) {
  struct stat info {};
  if (::stat(path.c_str(), &info) == 0) return info.st_mode & 0777;
  const mode_t mask = ::umask(0);
  ::umask(mask);
  return 0666 & ~mask;
}

Result<void> write_with(const std::string& path, std::string_view bytes, mode_t rights) {
  struct stat info {};
  if (::stat(path.c_str(), &info) == 0 && S_ISDIR(info.st_mode)) {
    return fail(ErrorCode::storage, "cannot write " + path + ": it is a folder");
  }
  std::string temporary = path + ".XXXXXX";
  Descriptor file(::mkostemp(temporary.data(), O_CLOEXEC));
  if (file.get() < 0) return cannot_write(path, errno);
  int trouble = write_all(file.get(), bytes);
  if (trouble == 0 && ::fchmod(file.get(), rights) != 0) trouble = errno;
  if (!file.close() && trouble == 0) trouble = errno;
  if (trouble == 0 && ::rename(temporary.c_str(), path.c_str()) != 0) trouble = errno;
  if (trouble != 0) {
    ::unlink(temporary.c_str());
    return cannot_write(path, trouble);
  }
  const Descriptor folder(::open(folder_of(path).c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (folder.get() >= 0) ::fsync(folder.get());
  return {};
}

}  // namespace

Result<std::string> read_file(const std::string& path, std::size_t cap) {
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  if (file.get() < 0) {
    const bool missing = errno == ENOENT || errno == ENOTDIR;
    return fail(missing ? ErrorCode::not_found : ErrorCode::storage, "cannot read " + path + ": " + reason(errno));
  }
  struct stat info {};
  if (::fstat(file.get(), &info) != 0) return fail(ErrorCode::storage, "cannot read " + path + ": " + reason(errno));
  if (S_ISDIR(info.st_mode)) return fail(ErrorCode::not_a_saw_file, path + " is a folder, not a file");
  std::string text;
  std::vector<char> part(1U << 16);
  for (;;) {
    const ssize_t n = ::read(file.get(), part.data(), part.size());
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return fail(ErrorCode::storage, "cannot read " + path + ": " + reason(errno));
    if (n == 0) return text;
    text.append(part.data(), static_cast<std::size_t>(n));
    if (text.size() > cap) {
      return fail(ErrorCode::not_a_saw_file, path + " is longer than " + std::to_string(cap) + " bytes");
    }
  }
}

Result<void> write_file_atomic(const std::string& path, std::string_view bytes) {
  return write_with(path, bytes, rights_for(path));
}

Result<void> write_file_private(const std::string& path, std::string_view bytes) {
  return write_with(path, bytes, 0600);
}

}  // namespace portwright::base
