#pragma once
// The known word that a mistyped one was most likely meant to be.

#include <string>
#include <string_view>
#include <vector>

namespace portwright::desk {

/// Steps from one word to another: a letter put in, left out, changed, or two neighbours swapped; case does not count.
[[nodiscard]] int typing_distance(std::string_view a, std::string_view b);

/// The nearest word within a third of its length (at least one step), else empty.
[[nodiscard]] std::string nearest(std::string_view word, const std::vector<std::string>& known);

/// "Did you mean X?", or empty.
[[nodiscard]] std::string did_you_mean(std::string_view word, const std::vector<std::string>& known);

}  // namespace portwright::desk
