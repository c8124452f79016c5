#include "book/folder.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <system_error>
#include <vector>

#include "book/attempt.hpp"

namespace portwright::book {

using base::ErrorCode;
using base::Result;
namespace fs = std::filesystem;

namespace {

/// A descriptor that closes itself.
struct Descriptor {
  int number;
  explicit Descriptor(int n) : number(n) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (number >= 0) ::close(number);
  }
};

/// Names with blanks are written with octal numbers in mountinfo.
std::string plain(const std::string& word) {
  std::string out;
  for (std::size_t i = 0; i < word.size(); ++i) {
    if (word[i] == '\\' && i + 3 < word.size()) {
      out += static_cast<char>((word[i + 1] - '0') * 64 + (word[i + 2] - '0') * 8 + (word[i + 3] - '0'));
      i += 3;
    } else {
      out += word[i];
    }
  }
  return out;
}

bool lies_in(const std::string& path, const std::string& mount) {
  if (mount == "/") return path.starts_with('/');
  return path.starts_with(mount) && (path.size() == mount.size() || path[mount.size()] == '/');
}

}  // namespace

tl::unexpected<base::Error> cannot(const std::string& what, int number) {
  return base::fail(ErrorCode::storage, what + ": " + std::generic_category().message(number) + ".", {},
                    number == EACCES || number == EROFS || number == ENOENT
                        ? "The folder must be there and be writable."
                        : std::string{});
}

bool is_there(const std::string& path) {
  struct stat info {};
  return ::lstat(path.c_str(), &info) == 0;
}

bool is_folder(const std::string& path) {
  struct stat info {};
  return ::stat(path.c_str(), &info) == 0 && S_ISDIR(info.st_mode);
}

std::int64_t size_of(const std::string& path) {
  struct stat info {};
  return ::stat(path.c_str(), &info) == 0 ? static_cast<std::int64_t>(info.st_size) : -1;
}

Result<void> make_folder(const std::string& folder) {
  std::error_code trouble;
  if (fs::is_directory(folder, trouble)) return {};
  const fs::path above = fs::path(folder).parent_path();
  if (!above.empty()) fs::create_directories(above, trouble);
  if (::mkdir(folder.c_str(), 0700) != 0 && errno != EEXIST) return cannot("Cannot make " + folder, errno);
  return {};
}

Result<void> make_file(const std::string& path) {
  const Descriptor file(::open(path.c_str(), O_CREAT | O_EXCL | O_RDWR | O_CLOEXEC, 0600));
  if (file.number < 0) return cannot("Cannot write " + path, errno);
  return {};
}

Result<void> flush_folder(const std::string& folder) {
  const Descriptor file(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (file.number < 0) return cannot("Cannot open " + folder, errno);
  if (::fsync(file.number) != 0 && errno != EINVAL && errno != EROFS) return cannot("Cannot write " + folder, errno);
  return {};
}

Result<void> copy_file(const std::string& from, const std::string& to) {
  const Descriptor in(::open(from.c_str(), O_RDONLY | O_CLOEXEC));
  if (in.number < 0 && errno == ENOENT) return base::fail(ErrorCode::not_found, "There is no " + from + ".");
  if (in.number < 0) return cannot("Cannot read " + from, errno);
  ::unlink(to.c_str());
  const Descriptor out(::open(to.c_str(), O_CREAT | O_EXCL | O_WRONLY | O_CLOEXEC, 0600));
  if (out.number < 0) return cannot("Cannot write " + to, errno);
  std::vector<char> part(1U << 18U);
  for (;;) {
    const ssize_t n = ::read(in.number, part.data(), part.size());
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return cannot("Cannot read " + from, errno);
    if (n == 0) break;
    for (ssize_t done = 0; done < n;) {
      const ssize_t more = ::write(out.number, part.data() + done, static_cast<std::size_t>(n - done));
      if (more < 0 && errno != EINTR) return cannot("Cannot write " + to, errno);
      if (more > 0) done += more;
    }
  }
  if (::fsync(out.number) != 0) return cannot("Cannot write " + to, errno);
  return {};
}

std::string file_system_of(std::string_view mountinfo, const std::string& path) {
  std::istringstream lines{std::string(mountinfo)};
  std::string line, best, type;
  while (std::getline(lines, line)) {
    std::istringstream words(line);
    std::string word, mount, kind;
    for (int i = 0; i < 5 && words >> word; ++i) mount = plain(word);
    while (words >> word && word != "-") {
    }
    words >> kind;
    // Of two on one place the later lies on top.
    if (!kind.empty() && lies_in(path, mount) && mount.size() >= best.size()) {
      best = mount;
      type = kind;
    }
  }
  return type;
}

bool is_network(std::string_view type) {
  return type.starts_with("nfs") || type == "cifs" || type == "smb3" || type == "smbfs" || type == "9p" ||
         type == "fuse.sshfs";
}

Result<void> refuse_network(const std::string& folder) {
  std::ifstream in("/proc/self/mountinfo", std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(in), {}};
  std::error_code trouble;
  const fs::path real = fs::weakly_canonical(fs::absolute(folder, trouble), trouble);
  const std::string type = file_system_of(text, real.string());
  if (!is_network(type)) return {};
  return base::fail(ErrorCode::storage, folder + " lies on a network (" + type + "), where a book is not safe.", {},
                    "Keep the book on this machine's own disk; backups may go to the network.");
}

}  // namespace portwright::book
