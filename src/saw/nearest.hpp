#pragma once
// The known word nearest to a mistyped one.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace portwright::saw {

/// Letters to put in, take out, change or swap with a neighbour to come from one word to the other; case does not
/// matter.
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b);

/// The nearest of the words, if one is near enough to have been meant (a third of its letters, at least two); else
/// empty.
[[nodiscard]] std::string nearest(std::string_view typed, const std::vector<std::string>& words);

}  // namespace portwright::saw
