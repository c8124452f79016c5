#include "book/page_sums.hpp"

#include <sqlite3.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cstring>
#include <map>
#include <memory>
#include <mutex>

#include "book/database.hpp"

namespace portwright::book {
namespace {

/// Stands before the file of the VFS below, in one piece of memory that SQLite gives.
struct SummedFile {
  sqlite3_file face;
  bool summed;  // the main file, not its log or journal
  std::int64_t errors;
};

SummedFile& own(sqlite3_file* file) { return *reinterpret_cast<SummedFile*>(file); }
sqlite3_file* below(sqlite3_file* file) {
  return reinterpret_cast<sqlite3_file*>(reinterpret_cast<SummedFile*>(file) + 1);
}
sqlite3_vfs* below(sqlite3_vfs* vfs) { return static_cast<sqlite3_vfs*>(vfs->pAppData); }

constexpr int longest_page = 65536;

bool whole_page(const SummedFile& file, int amount, sqlite3_int64 offset) {
  return file.summed && amount >= 512 && amount <= longest_page && std::has_single_bit(static_cast<unsigned>(amount)) &&
         offset % amount == 0;
}

std::uint64_t load(const char* bytes) {
  std::uint64_t word = 0;
  for (unsigned i = 0; i < 8; ++i) word |= std::uint64_t{static_cast<unsigned char>(bytes[i])} << (8U * i);
  return word;
}

std::uint64_t sum_at(const char* page, int amount, sqlite3_int64 offset) {
  const auto number = static_cast<std::uint64_t>(offset / amount) + 1;
  return page_sum(number, {page, static_cast<std::size_t>(amount - page_reserve)});
}

/// Whether a short read is the first look into a file that is still empty.
bool nothing_yet(sqlite3_file* file, sqlite3_int64 offset) {
  sqlite3_int64 size = 0;
  return offset == 0 && file->pMethods->xFileSize(file, &size) == SQLITE_OK && size == 0;
}

int close_file(sqlite3_file* file) { return below(file)->pMethods->xClose(below(file)); }

int read_file(sqlite3_file* file, void* buffer, int amount, sqlite3_int64 offset) {
  const int code = below(file)->pMethods->xRead(below(file), buffer, amount, offset);
  if (code != SQLITE_OK && code != SQLITE_IOERR_SHORT_READ) ++own(file).errors;
  if (!whole_page(own(file), amount, offset)) return code;
  if (code == SQLITE_IOERR_SHORT_READ) return nothing_yet(below(file), offset) ? code : SQLITE_IOERR_DATA;
  if (code != SQLITE_OK) return code;
  const char* page = static_cast<const char*>(buffer);
  return load(page + amount - page_reserve) == sum_at(page, amount, offset) ? SQLITE_OK : SQLITE_IOERR_DATA;
}

int write_file(sqlite3_file* file, const void* buffer, int amount, sqlite3_int64 offset) {
  if (!whole_page(own(file), amount, offset)) return below(file)->pMethods->xWrite(below(file), buffer, amount, offset);
  std::array<char, longest_page> page;
  std::memcpy(page.data(), buffer, static_cast<std::size_t>(amount - page_reserve));
  const std::uint64_t sum = sum_at(page.data(), amount, offset);
  for (unsigned i = 0; i < 8; ++i)
    page[static_cast<std::size_t>(amount - page_reserve) + i] = static_cast<char>(sum >> (8U * i) & 0xffU);
  return below(file)->pMethods->xWrite(below(file), page.data(), amount, offset);
}

int truncate_file(sqlite3_file* file, sqlite3_int64 size) {
  return below(file)->pMethods->xTruncate(below(file), size);
}
int sync_file(sqlite3_file* file, int flags) { return below(file)->pMethods->xSync(below(file), flags); }
int size_of_file(sqlite3_file* file, sqlite3_int64* size) {
  return below(file)->pMethods->xFileSize(below(file), size);
}
int lock_file(sqlite3_file* file, int level) { return below(file)->pMethods->xLock(below(file), level); }
int unlock_file(sqlite3_file* file, int level) { return below(file)->pMethods->xUnlock(below(file), level); }
int reserved_lock(sqlite3_file* file, int* held) {
  return below(file)->pMethods->xCheckReservedLock(below(file), held);
}
int control_file(sqlite3_file* file, int what, void* value) {
  return below(file)->pMethods->xFileControl(below(file), what, value);
}
int sector_size(sqlite3_file* file) { return below(file)->pMethods->xSectorSize(below(file)); }
int characteristics(sqlite3_file* file) { return below(file)->pMethods->xDeviceCharacteristics(below(file)); }
int map_shared(sqlite3_file* file, int page, int size, int extend, void volatile** at) {
  return below(file)->pMethods->xShmMap(below(file), page, size, extend, at);
}
int lock_shared(sqlite3_file* file, int offset, int n, int flags) {
  return below(file)->pMethods->xShmLock(below(file), offset, n, flags);
}
void barrier(sqlite3_file* file) { below(file)->pMethods->xShmBarrier(below(file)); }
int unmap_shared(sqlite3_file* file, int remove) { return below(file)->pMethods->xShmUnmap(below(file), remove); }

// Version 2: shared memory for the log, no memory-mapped pages, which would be read past the sums.
const sqlite3_io_methods methods = {
    2,           close_file,  read_file,     write_file,   truncate_file, sync_file,       size_of_file,
    lock_file,   unlock_file, reserved_lock, control_file, sector_size,   characteristics, map_shared,
    lock_shared, barrier,     unmap_shared,  nullptr,      nullptr};

int open_file(sqlite3_vfs* vfs, const char* name, sqlite3_file* file, int flags, int* given) {
  own(file).face.pMethods = nullptr;
  own(file).errors = 0;
  own(file).summed = (flags & SQLITE_OPEN_MAIN_DB) != 0;
  const int code = below(vfs)->xOpen(below(vfs), name, below(file), flags, given);
  if (below(file)->pMethods != nullptr) own(file).face.pMethods = &methods;
  return code;
}

int delete_file(sqlite3_vfs* vfs, const char* name, int sync) { return below(vfs)->xDelete(below(vfs), name, sync); }
int access_file(sqlite3_vfs* vfs, const char* name, int flags, int* answer) {
  return below(vfs)->xAccess(below(vfs), name, flags, answer);
}
int full_name(sqlite3_vfs* vfs, const char* name, int size, char* out) {
  return below(vfs)->xFullPathname(below(vfs), name, size, out);
}
int randomness(sqlite3_vfs* vfs, int size, char* out) { return below(vfs)->xRandomness(below(vfs), size, out); }
int sleep_for(sqlite3_vfs* vfs, int microseconds) { return below(vfs)->xSleep(below(vfs), microseconds); }
int current_day(sqlite3_vfs* vfs, double* day) { return below(vfs)->xCurrentTime(below(vfs), day); }
int last_error(sqlite3_vfs* vfs, int size, char* out) { return below(vfs)->xGetLastError(below(vfs), size, out); }
int current_time(sqlite3_vfs* vfs, sqlite3_int64* time) { return below(vfs)->xCurrentTimeInt64(below(vfs), time); }

struct Registered {
  std::string name;
  sqlite3_vfs vfs{};
};

}  // namespace

std::uint64_t page_sum(std::uint64_t number, std::string_view content) {
  // Each step is one to one in the word and in what came before it.
  constexpr std::uint64_t odd = 0x9e3779b97f4a7c15;
  std::uint64_t sum = number * odd;
  for (std::size_t i = 0; i + 8 <= content.size(); i += 8) sum = std::rotl((sum ^ load(content.data() + i)) * odd, 29);
  return sum ^ sum >> 32U;
}

std::string page_sum_vfs(const std::string& parent) {
  static std::mutex mutex;
  static std::map<std::string, std::unique_ptr<Registered>> all;
  const std::lock_guard guard(mutex);
  std::unique_ptr<Registered>& one = all[parent];
  if (one != nullptr) return one->name;
  sqlite3_vfs* under = sqlite3_vfs_find(parent.empty() ? nullptr : parent.c_str());
  if (under == nullptr || under->iVersion < 2) return {};
  one = std::make_unique<Registered>();
  one->name = parent.empty() ? "portwright" : "portwright-" + parent;
  sqlite3_vfs& vfs = one->vfs;
  vfs.iVersion = 2;
  vfs.szOsFile = static_cast<int>(sizeof(SummedFile)) + under->szOsFile;
  vfs.mxPathname = under->mxPathname;
  vfs.zName = one->name.c_str();
  vfs.pAppData = under;
  vfs.xOpen = open_file;
  vfs.xDelete = delete_file;
  vfs.xAccess = access_file;
  vfs.xFullPathname = full_name;
  vfs.xRandomness = randomness;
  vfs.xSleep = sleep_for;
  vfs.xCurrentTime = current_day;
  vfs.xGetLastError = last_error;
  vfs.xCurrentTimeInt64 = current_time;
  return sqlite3_vfs_register(&vfs, 0) == SQLITE_OK ? one->name : std::string{};
}

base::Result<void> reserve_page_sums(sqlite3* database) {
  int bytes = page_reserve;
  int code = sqlite3_file_control(database, "main", SQLITE_FCNTL_RESERVE_BYTES, &bytes);
  if (code != SQLITE_OK) return tl::unexpected(sqlite_error(database, code));
  return {};
}

namespace {

/// The open main file of a connection; none when it is not open through the sums.
sqlite3_file* main_file(sqlite3* database) {
  sqlite3_file* file = nullptr;
  if (sqlite3_file_control(database, "main", SQLITE_FCNTL_FILE_POINTER, &file) != SQLITE_OK) return nullptr;
  return file != nullptr && file->pMethods == &methods ? file : nullptr;
}

}  // namespace

std::int64_t disk_errors(sqlite3* database) {
  sqlite3_file* file = main_file(database);
  return file == nullptr ? 0 : own(file).errors;
}

std::string raw_header(sqlite3* database) {
  sqlite3_file* file = main_file(database);
  sqlite3_int64 size = 0;
  if (file == nullptr || size_of_file(file, &size) != SQLITE_OK) return {};
  std::string out(static_cast<std::size_t>(std::min<sqlite3_int64>(size, 100)), '\0');
  if (read_file(file, out.data(), static_cast<int>(out.size()), 0) != SQLITE_OK) return {};
  return out;
}

}  // namespace portwright::book
