#pragma once
// Bringing a book of an older schema up to date.

#include <span>

#include "book/inside.hpp"

namespace portwright::book {

/// Brings the book from its schema to the last of `steps` (step i leads from schema i to i + 1), after a backup that
/// was opened and counted. The caller holds the lock alone. Each step is one transaction with the number it leads to.
/// Returns whether anything was to be done. Error newer: the book's schema is beyond the steps.
[[nodiscard]] base::Result<bool> upgrade(Book::Inside& inside, std::span<const char* const> steps);

}  // namespace portwright::book
