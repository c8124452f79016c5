#pragma once
// The hidden commands that give what a drawing on a screen is made from, as JSON.

#include "cli/book_program.hpp"

namespace portwright::cli {

[[nodiscard]] std::span<const BookAction> page_actions();

}  // namespace portwright::cli
