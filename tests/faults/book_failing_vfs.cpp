#include "faults/book_failing_vfs.hpp"

#include <sqlite3.h>

namespace book_test {
namespace {

struct Plan {
  Trouble trouble = Trouble::none;
  int at = 0, calls = 0;
  bool failed = false;
} plan;

/// Whether this call fails. `writes`: it needs room.
bool strikes(bool writes) {
  if (plan.trouble == Trouble::disk_full && !writes) return false;
  ++plan.calls;
  if (plan.trouble == Trouble::none || plan.calls < plan.at) return false;
  if (plan.trouble == Trouble::once && plan.calls > plan.at) return false;
  plan.failed = true;
  return true;
}

struct File {
  sqlite3_file face;
};

sqlite3_file* below(sqlite3_file* file) { return reinterpret_cast<sqlite3_file*>(reinterpret_cast<File*>(file) + 1); }
sqlite3_vfs* below(sqlite3_vfs* vfs) { return static_cast<sqlite3_vfs*>(vfs->pAppData); }
const sqlite3_io_methods& of(sqlite3_file* file) { return *below(file)->pMethods; }

int close_file(sqlite3_file* file) { return of(file).xClose(below(file)); }
int read_file(sqlite3_file* file, void* to, int n, sqlite3_int64 at) {
  return strikes(false) ? SQLITE_IOERR_READ : of(file).xRead(below(file), to, n, at);
}
int write_file(sqlite3_file* file, const void* from, int n, sqlite3_int64 at) {
  if (!strikes(true)) return of(file).xWrite(below(file), from, n, at);
  if (plan.trouble == Trouble::disk_full) return SQLITE_FULL;
  of(file).xWrite(below(file), from, n / 2, at);  // half of it is there
  return SQLITE_IOERR_WRITE;
}
int truncate_file(sqlite3_file* file, sqlite3_int64 size) {
  return strikes(false) ? SQLITE_IOERR_TRUNCATE : of(file).xTruncate(below(file), size);
}
int sync_file(sqlite3_file* file, int flags) {
  return strikes(false) ? SQLITE_IOERR_FSYNC : of(file).xSync(below(file), flags);
}
int size_of_file(sqlite3_file* file, sqlite3_int64* size) {
  return strikes(false) ? SQLITE_IOERR_FSTAT : of(file).xFileSize(below(file), size);
}
int lock_file(sqlite3_file* file, int level) {
  return strikes(false) ? SQLITE_IOERR_LOCK : of(file).xLock(below(file), level);
}
int unlock_file(sqlite3_file* file, int level) { return of(file).xUnlock(below(file), level); }
int reserved_lock(sqlite3_file* file, int* held) { return of(file).xCheckReservedLock(below(file), held); }
int control_file(sqlite3_file* file, int what, void* value) { return of(file).xFileControl(below(file), what, value); }
int sector_size(sqlite3_file* file) { return of(file).xSectorSize(below(file)); }
int characteristics(sqlite3_file* file) { return of(file).xDeviceCharacteristics(below(file)); }
int map_shared(sqlite3_file* file, int page, int size, int extend, void volatile** at) {
  return strikes(true) ? (plan.trouble == Trouble::disk_full ? SQLITE_FULL : SQLITE_IOERR_SHMSIZE)
                       : of(file).xShmMap(below(file), page, size, extend, at);
}
int lock_shared(sqlite3_file* file, int offset, int n, int flags) {
  if ((flags & SQLITE_SHM_LOCK) != 0 && strikes(false)) return SQLITE_IOERR_SHMLOCK;
  return of(file).xShmLock(below(file), offset, n, flags);
}
void barrier(sqlite3_file* file) { of(file).xShmBarrier(below(file)); }
int unmap_shared(sqlite3_file* file, int remove) { return of(file).xShmUnmap(below(file), remove); }

const sqlite3_io_methods methods = {
    2,           close_file,  read_file,     write_file,   truncate_file, sync_file,       size_of_file,
    lock_file,   unlock_file, reserved_lock, control_file, sector_size,   characteristics, map_shared,
    lock_shared, barrier,     unmap_shared,  nullptr,      nullptr};

int open_file(sqlite3_vfs* vfs, const char* name, sqlite3_file* file, int flags, int* given) {
  reinterpret_cast<File*>(file)->face.pMethods = nullptr;
  if (strikes(false)) return SQLITE_CANTOPEN;
  const int code = below(vfs)->xOpen(below(vfs), name, below(file), flags, given);
  if (below(file)->pMethods != nullptr) reinterpret_cast<File*>(file)->face.pMethods = &methods;
  return code;
}
int delete_file(sqlite3_vfs* vfs, const char* name, int sync) {
  return strikes(false) ? SQLITE_IOERR_DELETE : below(vfs)->xDelete(below(vfs), name, sync);
}
int access_file(sqlite3_vfs* vfs, const char* name, int flags, int* answer) {
  return strikes(false) ? SQLITE_IOERR_ACCESS : below(vfs)->xAccess(below(vfs), name, flags, answer);
}
int full_name(sqlite3_vfs* vfs, const char* name, int size, char* out) {
  return below(vfs)->xFullPathname(below(vfs), name, size, out);
}
int randomness(sqlite3_vfs* vfs, int size, char* out) { return below(vfs)->xRandomness(below(vfs), size, out); }
int sleep_for(sqlite3_vfs* vfs, int microseconds) { return below(vfs)->xSleep(below(vfs), microseconds); }
int current_day(sqlite3_vfs* vfs, double* day) { return below(vfs)->xCurrentTime(below(vfs), day); }
int last_error(sqlite3_vfs* vfs, int size, char* out) { return below(vfs)->xGetLastError(below(vfs), size, out); }
int current_time(sqlite3_vfs* vfs, sqlite3_int64* time) { return below(vfs)->xCurrentTimeInt64(below(vfs), time); }

void enroll() {
  static sqlite3_vfs vfs{};
  if (vfs.zName != nullptr) return;
  sqlite3_vfs* under = sqlite3_vfs_find(nullptr);
  vfs.iVersion = 2;
  vfs.szOsFile = static_cast<int>(sizeof(File)) + under->szOsFile;
  vfs.mxPathname = under->mxPathname;
  vfs.zName = "failing";
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
  sqlite3_vfs_register(&vfs, 0);
}

}  // namespace

void fail_at(int n, Trouble trouble) {
  enroll();
  plan = {trouble, n, 0, false};
}

int calls_made() { return plan.calls; }

bool has_failed() { return plan.failed; }

}  // namespace book_test
