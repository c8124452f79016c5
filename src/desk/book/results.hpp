#pragma once
// Results kept with a saw: what the figures were, of which case, by which version. One whose case or version is another
// now is stale, never gone. Inside the module only.

#include <string>

#include "book/document.hpp"
#include "desk/book/shelf.hpp"

namespace portwright::desk {

/// Why a kept result is not what would come out now; empty: it is.
[[nodiscard]] std::string stale_because(const book::Document& result, const ShelfSaw& saw);

}  // namespace portwright::desk
