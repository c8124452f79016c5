#pragma once
// The demo workshop as a book.

#include <string>

#include "base/error.hpp"

namespace portwright::desk {

/// Makes a book at a path where there is none and fills it with the invented saws of data/demo and what was done with
/// them, deed by deed as a builder would. Errors: as of the book.
[[nodiscard]] base::Result<void> make_demo_book(const std::string& path);

}  // namespace portwright::desk
