#pragma once
// What is looked at before a saw file's text is taken for TOML: its length, its bytes, how deep it nests.

#include <cstddef>
#include <optional>
#include <string_view>

#include "base/error.hpp"

namespace portwright::saw {

inline constexpr std::size_t file_cap = 64 * 1024;  ///< bytes
inline constexpr int depth_cap = 8;                 ///< tables, lists and dotted keys inside each other

/// Offset of the first byte outside quoted text and comments that is not ASCII (typographic quotes, say): TOML knows
/// none there; npos when there is none.
[[nodiscard]] std::size_t first_foreign(std::string_view text);

/// Why the text cannot be a saw file (not_a_saw_file, with the line), or nothing.
[[nodiscard]] std::optional<base::Error> guard_text(std::string_view text);

/// Bytes of the UTF-8 character at `at`, 0 when there is none: NUL, overlong forms, surrogates and what lies over
/// U+10FFFF are none.
[[nodiscard]] std::size_t character_size(std::string_view text, std::size_t at);

/// Offset of the first byte that is not UTF-8, or is NUL; npos when all are.
[[nodiscard]] std::size_t first_bad_byte(std::string_view text);

/// Offset at which brackets or the parts of a dotted key nest deeper than `depth_cap`; npos when none does. Exact for
/// TOML as far as the text is TOML.
[[nodiscard]] std::size_t first_too_deep(std::string_view text);

}  // namespace portwright::saw
