#pragma once
// The devices that a book's owner let in, kept beside the book: names, moments, and hashes of their cookies, never the
// cookies.

#include <cstdint>
#include <functional>
#include <string>
#include <string_view>

#include "base/error.hpp"
#include "wire/network_answer.hpp"

namespace portwright::desk {

/// ".../book.portwright" -> ".../book.portwright.devices".
[[nodiscard]] std::string devices_path(const std::string& book);

/// Nobody when there is no such file. Errors: storage; unreadable, unknown_key (a later program's).
[[nodiscard]] base::Result<wire::KeptDevices> devices_read(const std::string& path);

/// Reads, changes and writes in one turn that no other program comes between. The file is for its owner only (0600).
/// Errors: as of devices_read, so that a list that cannot be read is not written over; those of `change`, and nothing
/// is written then.
[[nodiscard]] base::Result<wire::KeptDevices> devices_change(
    const std::string& path, const std::function<base::Result<void>(wire::KeptDevices&)>& change);

/// Another text whenever the file was written since; empty when it is not there.
[[nodiscard]] std::string devices_stamp(const std::string& path);

/// SHA-256 as 64 hexadecimal digits: for words that are long and random, so that nothing more is needed.
[[nodiscard]] std::string word_hash(std::string_view word);

/// `2026-03-01T09:30:00Z` of seconds since 1970.
[[nodiscard]] std::string moment(std::int64_t seconds);

}  // namespace portwright::desk
