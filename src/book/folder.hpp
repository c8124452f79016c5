#pragma once
// Files and folders as the book needs them.

#include <cstdint>
#include <string>
#include <string_view>

#include "base/error.hpp"

namespace portwright::book {

/// Error storage with the system's reason.
[[nodiscard]] tl::unexpected<base::Error> cannot(const std::string& what, int number);

[[nodiscard]] bool is_there(const std::string& path);
[[nodiscard]] bool is_folder(const std::string& path);
/// Bytes; -1 when there is no such file.
[[nodiscard]] std::int64_t size_of(const std::string& path);
/// Makes the folder, for its owner only, when it is not there.
[[nodiscard]] base::Result<void> make_folder(const std::string& folder);
/// Makes an empty file for its owner only. Error storage when it is there.
[[nodiscard]] base::Result<void> make_file(const std::string& path);
[[nodiscard]] base::Result<void> flush_folder(const std::string& folder);
/// Copies a file and flushes the copy. The copy is for its owner only; one that is there is replaced.
[[nodiscard]] base::Result<void> copy_file(const std::string& from, const std::string& to);

/// Type of the file system that holds `path`, from the text of /proc/self/mountinfo; empty when it is not told.
[[nodiscard]] std::string file_system_of(std::string_view mountinfo, const std::string& path);
/// Whether the log of a book would not be safe there.
[[nodiscard]] bool is_network(std::string_view file_system);
/// Error storage when the folder lies on a network file system.
[[nodiscard]] base::Result<void> refuse_network(const std::string& folder);

}  // namespace portwright::book
