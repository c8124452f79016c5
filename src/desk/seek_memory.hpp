#pragma once
// What a search tried, as one text that it can be gone on from. Inside the module only.

#include <string>
#include <vector>

#include "base/error.hpp"
#include "seek/search.hpp"

namespace portwright::desk {

inline constexpr std::size_t longest_memory = 512 * 1024;

/// @param of  what the search is of: readings, wishes, free cuts; only its hash is kept
[[nodiscard]] std::string memory_text(const std::string& of, const std::vector<seek::Tried>& tried);

/// Errors (input): a text that is none, or of another search. Empty: nothing tried.
/// @param free  number of free cuts
[[nodiscard]] base::Result<std::vector<seek::Tried>> memory_of(const std::string& text, const std::string& of,
                                                               std::size_t free);

}  // namespace portwright::desk
