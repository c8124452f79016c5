#include "desk/devices.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <system_error>

#include "base/file.hpp"
#include "book/folder.hpp"
#include "book/identity.hpp"
#include "book/sha256.hpp"
#include "wire/asks.hpp"

namespace portwright::desk {
namespace {

constexpr std::size_t longest_file = std::size_t{256} << 10U;

std::string folder_of(const std::string& path) {
  const std::string folder = std::filesystem::path(path).parent_path().string();
  return folder.empty() ? "." : folder;
}

// The folder held for one program at a time.
class Held {
 public:
  explicit Held(const std::string& folder) : file_(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC)) {
    if (file_ < 0) return;
    while (::flock(file_, LOCK_EX) != 0 && errno == EINTR) {
    }
  }
  Held(const Held&) = delete;
  Held& operator=(const Held&) = delete;
  ~Held() {
    if (file_ >= 0) ::close(file_);
  }

 private:
  int file_;
};

}  // namespace

std::string devices_path(const std::string& book) { return book + ".devices"; }

base::Result<wire::KeptDevices> devices_read(const std::string& path) {
  const auto text = base::read_file(path, longest_file);
  if (!text && text.error().code == base::ErrorCode::not_found) return wire::KeptDevices{};
  if (!text) return tl::unexpected(text.error());
  return wire::read_ask<wire::KeptDevices>(*text);
}

base::Result<wire::KeptDevices> devices_change(const std::string& path,
                                               const std::function<base::Result<void>(wire::KeptDevices&)>& change) {
  if (auto made = book::make_folder(folder_of(path)); !made) return tl::unexpected(made.error());
  const Held held(folder_of(path));
  auto kept = devices_read(path);
  if (!kept) return kept;
  if (auto changed = change(*kept); !changed) return tl::unexpected(changed.error());
  if (auto written = base::write_file_private(path, wire::ask_text(*kept)); !written)
    return tl::unexpected(written.error());
  return kept;
}

std::string devices_stamp(const std::string& path) {
  struct stat info {};
  if (::stat(path.c_str(), &info) != 0) return {};
  return std::to_string(info.st_ino) + ' ' + std::to_string(info.st_size) + ' ' + std::to_string(info.st_mtim.tv_sec) +
         '.' + std::to_string(info.st_mtim.tv_nsec);
}

std::string word_hash(std::string_view word) {
  book::Sha256 hash;
  hash.add(word);
  return hash.hexadecimal();
}

std::string moment(std::int64_t seconds) { return book::moment_text(seconds); }

}  // namespace portwright::desk
