#pragma once
// Where a written answer goes. Inside the module only.

#include <string>

#include "base/error.hpp"

namespace portwright::desk {

/// Writes bytes to a file, whole or not at all; `-` is standard output, and a device or a pipe is written to as it is.
/// Error (storage): what is there begins otherwise, so it is no older copy of this.
[[nodiscard]] base::Result<void> put(const std::string& output, const std::string& bytes);

/// A saw file is never written over: an error when something of that name is there.
[[nodiscard]] base::Result<void> refuse_existing(const std::string& output);

}  // namespace portwright::desk
