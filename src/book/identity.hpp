#pragma once
// Moments, ids and words as the book writes them.

#include <cstdint>
#include <string>
#include <string_view>

namespace portwright::book {

/// `2026-03-01T09:30:00Z` of seconds since 1970.
[[nodiscard]] std::string moment_text(std::int64_t seconds);

/// Whether a caller may give this id: 1 to 40 letters, digits, `_` or `-`.
[[nodiscard]] bool is_id(std::string_view id);

/// Whether a kind is a word of [a-z0-9_], 1 to 40 letters.
[[nodiscard]] bool is_kind(std::string_view kind);

}  // namespace portwright::book
