#pragma once
// Files read whole with a cap, and written so that a reader sees the old file or the new one, never half of it.

#include <cstddef>
#include <string>
#include <string_view>

#include "base/error.hpp"

namespace portwright::base {

/// Reads a file whole. Errors: not_found (no such file), not_a_saw_file (a folder, or longer than `cap` bytes), storage
/// (I/O).
[[nodiscard]] Result<std::string> read_file(const std::string& path, std::size_t cap);

/// Writes to a temporary beside `path`, flushes it to the disk and renames it over `path`.
/// On any error (storage: no such folder, no permission, disk full) the old file is left as it was and the temporary is
/// removed.
[[nodiscard]] Result<void> write_file_atomic(const std::string& path, std::string_view bytes);

/// The same, and the file can be read and written by its owner alone (0600), whatever it was before.
[[nodiscard]] Result<void> write_file_private(const std::string& path, std::string_view bytes);

}  // namespace portwright::base
